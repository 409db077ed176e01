import pytest

from gardens.domain.asked import ANSWERED, ask
from gardens.domain.asked.boxes import choices
from gardens.domain.errors import DomainError
from tests.domain.asking import asked
from tests.domain.briefed import BED, TABLES, TODAY, bed

QUESTIONS = TABLES["questions"]
FIELDS = [(key, one) for key, question in QUESTIONS.items() for one in question["fields"]]


def wrong(answer):
    return {one["field"]: one["words"] for one in answer["wrong"]}


def test_every_question_of_the_table_is_answered_and_no_other():
    assert set(QUESTIONS) == set(ANSWERED)


def test_every_field_has_a_kind_and_what_its_kind_needs():
    ranged = {"number", "numbers", "length", "warmth", "area"}
    chosen = {"choice", "row", "rows"}
    for key, one in FIELDS:
        assert one["kind"] in ranged | chosen | {"bed", "day", "text"}, (key, one)
        assert (one["kind"] in ranged) == ({"low", "high"} <= set(one)), (key, one)
        assert one["kind"] not in chosen or choices(one, TABLES), (key, one)
        assert one["kind"] != "number" or "unit" in one, (key, one)


def test_a_field_that_starts_filled_starts_with_something_it_takes():
    for key, one in FIELDS:
        if "first" in one and one["kind"] in ("choice", "row"):
            assert one["first"] in choices(one, TABLES), (key, one)
        elif "first" in one and "low" in one:
            assert one["low"] <= float(one["first"]) <= one["high"], (key, one)


def test_a_question_that_is_not_known_is_an_error():
    with pytest.raises(DomainError) as refused:
        ask("no_such", {}, [], TABLES, TODAY)
    assert refused.value.code == "unknown_question"


def test_each_box_that_cannot_be_read_is_named_with_a_sentence():
    answer = asked("compost_layer", area_m2="much", depth_cm="900", bag_litres="-4")
    assert set(wrong(answer)) == {"area_m2", "depth_cm", "bag_litres"}
    assert "not a number" in wrong(answer)["area_m2"]
    assert "from 0.5 to 100 cm" in wrong(answer)["depth_cm"]
    assert (answer["lines"], answer["rows"], answer["places"]) == ([], [], None)


@pytest.mark.parametrize("text", ["nan", "inf", "-inf", "1e999"])
def test_a_number_that_is_none_is_refused(text):
    assert set(wrong(asked("compost_layer", area_m2=text))) == {"area_m2"}


def test_a_decimal_comma_is_a_decimal_point():
    comma = asked("compost_layer", area_m2="2,5", depth_cm="5")
    assert comma == asked("compost_layer", area_m2="2.5", depth_cm="5")
    assert comma["wrong"] == []


def test_a_bed_that_is_not_in_the_garden_is_not_taken():
    answer = asked("compost_layer", [bed()], bed="01890a5d-0000-7000-8000-000000000009")
    assert set(wrong(answer)) == {"bed"}


def test_a_bed_or_an_area_is_needed():
    assert wrong(asked("compost_layer")) == {"area_m2": "Choose a bed, or give the area."}
    assert asked("compost_layer", [bed()], bed=BED)["wrong"] == []
