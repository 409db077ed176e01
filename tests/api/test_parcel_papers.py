import pytest

from tests.api.test_sheets import sample, text_of
from tests.phones import bed, item, new_id, planting

POTS = {"n_pots": 4, "blank_pot": 4, "soil_cm3_per_pot": 700, "soil_sample": None}


@pytest.fixture
def sent(phone):
    """A bed with two bags for a lab, and a pot test."""
    names = {name: new_id() for name in ("bed", "lab", "first", "second", "pots", "planting")}
    phone.push(
        bed(names["bed"], name="Crooked bed"),
        item("put", "lab_profile", names["lab"], name="Valley soil room"),
        sample(names["bed"], record=names["first"], lab_profile=names["lab"]),
        sample(names["bed"], "R4TH", record=names["second"], lab_profile=names["lab"]),
        planting(names["bed"], names["planting"]),
        planting(names["bed"], names["pots"], crop="Cucumber", pots=POTS),
    )
    return names


def ask(phone, what):
    return phone.get(phone.path(f"sheets/{what}"))


def both(sent):
    return f"samples={sent['first']},{sent['second']}"


def test_the_papers_of_a_parcel_name_its_bags(phone, sent):
    for what in (f"labels.pdf?sheet=a4_70x37&{both(sent)}", f"packing-slip.pdf?{both(sent)}"):
        answer = ask(phone, what)
        assert "K7M2-" in text_of(answer) and "R4TH-" in text_of(answer)
        assert "K7M2" in answer.headers["Content-Disposition"]


def test_the_sheet_of_a_pot_test_names_its_bed(phone, sent):
    answer = ask(phone, f"pots.pdf?planting={sent['pots']}&paper=letter")
    assert "Crooked bed" in text_of(answer) and "Cucumber" in text_of(answer)


def test_the_sheets_of_labels_are_listed_by_their_measures(phone):
    found = {one["key"]: one for one in ask(phone, "labels").json()}
    # Two and five eighths inches by one inch, thirty on a page.
    thirty = found["letter_67x25"]
    assert (thirty["width_mm"], thirty["height_mm"]) == (66.7, 25.4)
    assert thirty["n_across"] * thirty["n_down"] == 30


@pytest.mark.parametrize(
    ("what", "status", "code"),
    [
        ("labels.pdf?sheet=a5&{both}", 422, "unknown_label_sheet"),
        ("labels.pdf?sheet=a4_70x37&first=25&{both}", 422, "no_such_label"),
        ("labels.pdf?sheet=a4_70x37&first=x&{both}", 400, "bad_request"),
        ("labels.pdf?sheet=a4_70x37&samples=nobody", 400, "bad_request"),
        ("packing-slip.pdf?samples={bed}", 404, "not_found"),
        ("packing-slip.pdf?paper=a5&{both}", 400, "bad_request"),
        ("pots.pdf?planting={planting}", 422, "not_a_pot_test"),
        ("pots.pdf?planting={bed}", 404, "not_found"),
    ],
)
def test_what_cannot_be_printed_says_why(phone, sent, what, status, code):
    answer = ask(phone, what.format(both=both(sent), **sent))
    assert (answer.status_code, answer.json()["code"]) == (status, code)


def test_a_stranger_prints_nothing(stranger, sent):
    assert ask(stranger, f"packing-slip.pdf?{both(sent)}").status_code == 401
