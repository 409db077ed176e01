import dataclasses

import pytest

from gardens.domain.errors import RecordError
from gardens.domain.records import KINDS, checked_set, references, with_defaults
from tests.domain.record_examples import BED, CHECK, LAB, PAPER, PLANTING, RIGHT, SAMPLE


def refusal(kind, set_, *, creating=False):
    with pytest.raises(RecordError) as refused:
        checked_set(kind, set_, creating=creating)
    return refused.value


@pytest.mark.parametrize("kind", RIGHT)
def test_a_right_record_is_taken_as_it_is(kind):
    assert checked_set(kind, RIGHT[kind], creating=True) == RIGHT[kind]


@pytest.mark.parametrize("kind", RIGHT)
def test_a_record_with_its_defaults_is_right_again_and_fits_its_dataclass(kind):
    whole = with_defaults(kind, RIGHT[kind])
    assert set(whole) == set(KINDS[kind].fields)
    given = {name: v for name, v in whole.items() if not KINDS[kind].fields[name].server_owned}
    assert checked_set(kind, given, creating=True) == given
    assert dataclasses.asdict(KINDS[kind].record(**whole)) == whole


@pytest.mark.parametrize(
    ("kind", "field"),
    [(kind, f.name) for kind, spec in KINDS.items() for f in spec.fields.values() if f.required],
)
def test_a_new_record_without_a_required_field_is_refused(kind, field):
    left = {name: value for name, value in RIGHT[kind].items() if name != field}
    refused = refusal(kind, left, creating=True)
    assert (refused.code, refused.field, refused.reason) == ("bad_value", field, "required")


def test_a_patch_may_bring_one_field_alone():
    assert checked_set("bed", {"archived": True}, creating=False) == {"archived": True}


@pytest.mark.parametrize("kind", ["weather", "", None, 3, ["bed"], {}])
def test_an_unknown_kind_is_refused(kind):
    assert refusal(kind, {}).code == "unknown_kind"


@pytest.mark.parametrize("field", ["colour", "id", "seq", "created_by", "bad\ud800name", ""])
def test_an_unknown_field_is_refused_by_a_name_any_answer_can_carry(field):
    refused = refusal("bed", {field: 1})
    assert refused.code == "unknown_field"
    assert refused.field.encode("utf-8").decode() == refused.field


@pytest.mark.parametrize(
    ("kind", "field"), [("photo", "blob"), ("conflict", "kept"), ("conflict", "other_by")]
)
def test_a_field_of_the_server_is_refused_from_a_device(kind, field):
    assert refusal(kind, {field: "stored"}).code == "unknown_field"


def test_a_device_may_close_a_conflict_but_not_make_one():
    closed = {"state": "taken", "closed_by": "Mara"}
    assert checked_set("conflict", closed, creating=False) == closed
    assert refusal("conflict", closed, creating=True).reason == "server_makes_these"


def test_defaults_are_new_every_time():
    one, other = (with_defaults("lab_profile", {"name": "Lab"}) for _ in range(2))
    one["working_days"].append(6)
    assert other["working_days"] == [0, 1, 2, 3, 4]


def test_documents_say_which_records_they_name():
    assert references("planting", RIGHT["planting"]) == [("bed", BED)]
    assert references("photo", RIGHT["photo"]) == [("root_check", CHECK)]
    sample = {"bed": BED, "planting": PLANTING, "lab_profile": LAB}
    assert references("soil_sample", sample) == [
        ("bed", BED),
        ("planting", PLANTING),
        ("lab_profile", LAB),
    ]
    assert references("soil_sample", {"planting": None, "lab_profile": None}) == []


def test_a_part_named_after_a_kind_names_a_record_too():
    form = {"paper": PAPER, "fields": [], "spots": []}
    assert references("lab_profile", {"form": form}) == [("paper", PAPER)]
    pots = {"n_pots": 4, "blank_pot": 4, "soil_cm3_per_pot": 700, "soil_sample": SAMPLE}
    assert references("planting", {"pots": pots}) == [("soil_sample", SAMPLE)]
    assert references("planting", {"pots": pots | {"soil_sample": None}}) == []


def test_a_moment_is_kept_with_three_decimals():
    for sent in ("2031-08-03T09:30:05Z", "2031-08-03T09:30:05.0Z", "2031-08-03T09:30:05.000Z"):
        kept = checked_set("gall_rating", {"rated_at": sent}, creating=False)
        assert kept == {"rated_at": "2031-08-03T09:30:05.000Z"}


@pytest.mark.parametrize("set_", [None, [], "name", 4])
def test_a_set_that_is_no_object_is_refused(set_):
    assert refusal("bed", set_).reason == "not_an_object"
