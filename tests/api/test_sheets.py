import io

import pytest
from pypdf import PdfReader

from gardens.domain.codes import check_character
from tests.phones import bed, item, new_id, planting, rating, root_check


@pytest.fixture
def dug(phone):
    """A bed with a planting and a root check of two plants."""
    records = {"bed": new_id(), "planting": new_id(), "check": new_id()}
    phone.push(
        bed(records["bed"], name="Crooked bed", soil="sandy loam"),
        planting(records["bed"], records["planting"]),
        root_check(records["planting"], records["check"]),
        rating(records["check"], grade=3),
        rating(records["check"], grade=6, plant=2),
    )
    return records


def sample(bed_id, code="K7M2", record=None, **values):
    return item(
        "put",
        "soil_sample",
        record or new_id(),
        **{"bed": bed_id, "code": code + check_character(code), "purpose": "diagnose", **values},
    )


def text_of(answer):
    assert answer.status_code == 200, answer.content
    assert answer.headers["Content-Type"] == "application/pdf"
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(answer.content)).pages)


def test_the_submission_sheet_names_bed_code_and_lab(phone, dug):
    lab = item("put", "lab_profile", new_id(), name="Valley soil room")
    bag = sample(dug["bed"], lab_profile=lab["id"], lifted_at="2031-06-14T09:30:00Z")
    phone.push(lab, bag)
    answer = phone.get(phone.path(f"sheets/submission.pdf?samples={bag['id']}"))
    text = text_of(answer)
    assert "Crooked bed" in text
    assert "Valley soil room" in text
    assert "K7M2-" in text
    assert "Okra" in text
    assert answer.headers["Content-Disposition"].startswith('inline; filename="submission-K7M2')


def test_the_bed_map_and_the_rating_form_name_their_bed(phone, dug):
    check, planted = dug["check"], dug["planting"]
    assert "Crooked bed" in text_of(phone.get(phone.path(f"sheets/bed-map.pdf?root_check={check}")))
    form = phone.path(f"sheets/rating-form.pdf?planting={planted}&scale=zeck10&paper=letter")
    assert "Crooked bed" in text_of(phone.get(form))


def test_the_lines_of_a_sheet_that_would_print_empty_are_named_as_on_it(phone, dug):
    lab = item("put", "lab_profile", new_id(), name="Valley soil room", account_number="7")
    answered = {"depth": {"from_cm": 0, "to_cm": 20}, "lifted_at": "2031-06-14T09:30:00Z"}
    bag = sample(dug["bed"], lab_profile=lab["id"], **answered)
    phone.push(lab, bag)
    answer = phone.get(phone.path(f"sheets/submission/blanks?samples={bag['id']}"))
    told = answer.json()
    assert (answer.status_code, answer.headers["Cache-Control"]) == (200, "private, no-cache")
    assert told["grower"] == ["Name", "Address", "Phone", "E-mail"]
    assert told["lab"] == ["Address"]
    assert "Moisture" in told["samples"][bag["id"]]
    assert {"Depth", "Soil", "Crop now"}.isdisjoint(told["samples"][bag["id"]])


def test_empty_lines_of_a_sheet_that_cannot_be_made_are_refused_alike(phone, neighbours_phone):
    path = phone.path(f"sheets/submission/blanks?samples={new_id()}")
    assert phone.get(path).status_code == 404
    assert neighbours_phone.get(path).status_code == 404
    assert phone.get(phone.path("sheets/submission/blanks")).status_code == 400


@pytest.mark.parametrize(("paper", "width"), [("a4", 595), ("letter", 612)])
def test_the_paper_asked_for_is_the_paper_printed(phone, dug, paper, width):
    form = phone.path(f"sheets/rating-form.pdf?planting={dug['planting']}&paper={paper}")
    page = PdfReader(io.BytesIO(phone.get(form).content)).pages[0]
    assert int(page.mediabox.width) == width


# The same in every process, so that processes which share the tests agree on their names.
UNKNOWN = "01950ffd-1bcb-72c5-a00e-000000000001"


@pytest.mark.parametrize(
    ("query", "field"),
    [
        ("submission.pdf", "samples"),
        ("submission.pdf?samples=a,b", "samples"),
        ("bed-map.pdf?root_check=1", "root_check"),
        ("rating-form.pdf?planting=1", "planting"),
        (f"rating-form.pdf?planting={UNKNOWN}&scale=own", "scale"),
        (f"rating-form.pdf?planting={UNKNOWN}&paper=a3", "paper"),
    ],
)
def test_a_request_that_cannot_be_read_names_its_field(phone, query, field):
    answer = phone.get(phone.path(f"sheets/{query}"))
    assert (answer.status_code, answer.json()["field"]) == (400, field)


def test_a_sample_that_does_not_exist_is_named(phone):
    missing = new_id()
    answer = phone.get(phone.path(f"sheets/submission.pdf?samples={missing}"))
    assert answer.status_code == 404
    assert answer.json()["params"] == {"id": missing}


def test_a_sample_whose_bed_has_not_arrived_says_which_sample_lacks_what(phone):
    bag = sample(new_id())
    phone.push(bag)
    answer = phone.get(phone.path(f"sheets/submission.pdf?samples={bag['id']}"))
    assert (answer.status_code, answer.json()["code"]) == (422, "sheet_incomplete")
    assert answer.json()["params"] == {"sample": bag["set"]["code"], "missing": "bed"}


def test_samples_for_two_labs_do_not_share_a_sheet(phone, dug):
    labs = [item("put", "lab_profile", new_id(), name=name) for name in ("One", "Two")]
    bags = [
        sample(dug["bed"], code, lab_profile=lab["id"])
        for code, lab in zip(("K7M2", "K7M3"), labs, strict=True)
    ]
    phone.push(*labs, *bags)
    ids = ",".join(bag["id"] for bag in bags)
    answer = phone.get(phone.path(f"sheets/submission.pdf?samples={ids}"))
    assert (answer.status_code, answer.json()["code"]) == (422, "sheet_mixed")


def test_a_check_rated_on_two_scales_is_not_drawn_as_one(phone, dug):
    reading = {"state": "rated", "grade": 2, "gall_scale": "zeck10", "trace_only": False}
    phone.push(rating(dug["check"], reading=reading))
    answer = phone.get(phone.path(f"sheets/bed-map.pdf?root_check={dug['check']}"))
    assert (answer.status_code, answer.json()["code"]) == (422, "scales_differ")


def test_another_accounts_sheets_do_not_exist(phone, dug, neighbours_phone, stranger):
    path = phone.path(f"sheets/bed-map.pdf?root_check={dug['check']}")
    assert neighbours_phone.get(path).status_code == 404
    assert stranger.get(path).status_code == 401
