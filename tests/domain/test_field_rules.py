import pytest

from gardens.domain.errors import RecordError
from gardens.domain.records import checked_set

REFUSED = [
    ("bed", "depth_cm", True, "not_whole"),
    ("bed", "depth_cm", 30.0, "not_whole"),
    ("bed", "depth_cm", "30", "not_whole"),
    ("bed", "depth_cm", 4, "out_of_range"),
    ("bed", "depth_cm", 201, "out_of_range"),
    ("bed", "depth_cm", 2**70, "out_of_range"),
    ("bed", "archived", 1, "not_yes_or_no"),
    ("bed", "archived", None, "not_yes_or_no"),
    ("bed", "name", "", "empty"),
    ("bed", "name", "  \t ", "empty"),
    ("bed", "name", "x" * 81, "too_long"),
    ("bed", "name", None, "not_text"),
    ("bed", "name", "a\x00b", "broken_text"),
    ("bed", "note", "half an emoji \ud83d", "broken_text"),
    ("bed", "note", "x" * 4001, "too_long"),
    ("garden", "units", "imperial", "not_a_choice"),
    ("garden", "name", "x" * 121, "too_long"),
    ("planting", "bed", "not-an-id", "not_an_id"),
    ("planting", "bed", "01890A5D-AC96-774B-BCCE-B302099A8057", "not_an_id"),
    ("planting", "bed", None, "not_an_id"),
    ("planting", "crop_key", "Tomato!", "not_a_key"),
    ("planting", "plants", [[1, 2, 3]], "wrong_count"),
    ("planting", "plants", [[1.5, 2]], "not_whole"),
    ("planting", "plants", [[1, 5001]], "out_of_range"),
    ("planting", "plants", [[1, 1]] * 401, "wrong_count"),
    ("planting", "plants", None, "not_a_list"),
    ("root_check", "checked_on", "2031-02-29", "not_a_day"),
    ("root_check", "checked_on", "20310228", "not_a_day"),
    ("root_check", "checked_on", "２０３１-02-28", "not_a_day"),
    ("root_check", "checked_on", "0001-01-01", "not_a_day"),
    ("root_check", "n_plants_stood", 0, "out_of_range"),
    ("gall_rating", "rated_at", "2031-08-03T24:00:00Z", "not_a_moment"),
    ("gall_rating", "rated_at", "2031-08-03T09:30:00", "not_a_moment"),
    ("gall_rating", "rated_at", "2031-08-03T09:30:00+02:00", "not_a_moment"),
    ("gall_rating", "rated_at", "2031-02-30T09:30:00Z", "not_a_day"),
    ("gall_rating", "look_alike", "wart", "not_a_choice"),
    ("photo", "sha256", "0F" * 32, "not_a_hash"),
    ("photo", "mime", "image/png", "not_a_choice"),
    ("photo", "n_bytes", 8_000_001, "out_of_range"),
    ("lab_profile", "working_days", [0, 0], "said_twice"),
    ("lab_profile", "working_days", [7], "out_of_range"),
    ("soil_sample", "code", "K7M2G", "code_wrong"),
    ("soil_sample", "code", 12345, "code_wrong"),
    ("soil_sample", "soil_temperature_celsius", float("nan"), "out_of_range"),
    ("soil_sample", "soil_temperature_celsius", float("inf"), "out_of_range"),
    ("soil_sample", "soil_temperature_celsius", False, "not_number"),
    ("soil_sample", "tests_wanted", ["egg_count", "egg_count"], "said_twice"),
    ("soil_sample", "irrigated", "yes", "not_yes_or_no"),
]


@pytest.mark.parametrize(("kind", "field", "value", "reason"), REFUSED)
def test_a_value_out_of_its_rule_is_refused_with_its_reason(kind, field, value, reason):
    with pytest.raises(RecordError) as refused:
        checked_set(kind, {field: value}, creating=False)
    found = refused.value
    assert (found.code, found.field, found.reason) == ("bad_value", field, reason)


@pytest.mark.parametrize(
    ("kind", "field", "value"),
    [
        ("bed", "name", "x" * 80),
        ("bed", "name", "Łąka őű ğ 🌱"),
        ("bed", "note", "line\nline"),
        ("bed", "depth_cm", None),
        ("planting", "plants", []),
        ("root_check", "checked_on", "2032-02-29"),
        ("soil_sample", "soil_temperature_celsius", 24.5),
        ("soil_sample", "soil_temperature_celsius", -10),
        ("soil_sample", "tests_wanted", ["egg_count", "species_id"]),
        ("soil_sample", "irrigated", None),
        ("lab_profile", "working_days", []),
    ],
)
def test_a_value_at_the_edge_of_its_rule_is_taken(kind, field, value):
    assert checked_set(kind, {field: value}, creating=False) == {field: value}
