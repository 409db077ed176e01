import pytest

from gardens.domain.errors import RecordError
from gardens.domain.records import checked_set
from tests.domain.record_examples import BED, COUNTED, FILLED, PAPER


def outline(*points):
    return {"type": "outline", "points_cm": [list(point) for point in points]}


def reading(state="rated", grade=4, gall_scale="pct10", trace_only=False):
    return {"state": state, "grade": grade, "gall_scale": gall_scale, "trace_only": trace_only}


def pots(**parts):
    return {"n_pots": 4, "blank_pot": None, "soil_cm3_per_pot": 700, "soil_sample": None} | parts


def warmth(warmest, coldest):
    return {"warmest_celsius": warmest, "coldest_celsius": coldest, "in_sun": False}


def form(**parts):
    return {"paper": PAPER, "fields": [], "spots": []} | parts


REFUSED = [
    ("bed", "shape", {"type": "circle"}, "not_a_choice"),
    ("bed", "shape", {"type": "rectangle", "width_cm": 19, "length_cm": 90}, "out_of_range"),
    ("bed", "shape", {"type": "rectangle", "width_cm": 90}, "part_missing"),
    ("bed", "shape", outline((0, 0), (9, 0)), "wrong_count"),
    ("bed", "shape", outline((0, 0), (9, 0), (18, 0)), "outline_flat"),
    ("bed", "shape", outline((0, 0), (90, 60), (90, 0), (0, 90)), "outline_crosses"),
    ("bed", "shape", outline(*[(i, i * i) for i in range(41)]), "wrong_count"),
    ("bed", "place", {"x_cm": 0, "y_cm": 0, "z_cm": 0}, "unknown_part"),
    ("planting", "grown", {"from_on": "2031-05-02", "to_on": "2031-05-01"}, "days_backwards"),
    ("planting", "rows", {"n_rows": 61, "row_spacing_cm": 30, "plant_spacing_cm": 30}, None),
    ("root_check", "chosen", {"how": "random", "every_k": 2}, "every_k_only_with_every_kth"),
    ("root_check", "chosen", {"how": "every_kth", "every_k": None}, "every_k_only_with_every_kth"),
    ("root_check", "chosen", {"how": "every_kth", "every_k": 1}, "out_of_range"),
    ("gall_rating", "reading", reading(gall_scale="ts5"), "not_a_choice"),
    ("gall_rating", "reading", reading(grade=11), "out_of_range"),
    ("gall_rating", "reading", reading(grade=True), "not_whole"),
    ("gall_rating", "reading", reading(grade=None), "grade_only_when_rated"),
    ("gall_rating", "reading", reading(state="missing"), "grade_only_when_rated"),
    ("gall_rating", "reading", reading(state="dead", grade=10), "grade_only_when_rated"),
    ("gall_rating", "reading", reading(grade=0, trace_only=True), "a_gall_is_never_grade_0"),
    (
        "gall_rating",
        "reading",
        reading(state="dead", grade=None, trace_only=True),
        "a_gall_is_never_grade_0",
    ),
    (
        "gall_rating",
        "produce_damage",
        {"n_examined": 4, "n_damaged": 5, "signs": ""},
        "more_damaged_than_examined",
    ),
    ("soil_sample", "depth", {"from_cm": 20, "to_cm": 20}, "depth_upside_down"),
    ("soil_sample", "parcel", {"sent_on": "2031-08-04", "arrived_on": "2031-08-03"}, None),
    ("soil_sample", "parcel", {"sent_on": None, "arrived_on": "2031-08-03"}, "days_backwards"),
    ("photo", "of", {"kind": "garden", "id": "x"}, "not_a_choice"),
    ("paper", "of", {"kind": "bed", "id": BED}, "not_a_choice"),
    ("planting", "pots", pots(n_pots=1, blank_pot=1), "blank_pot_not_there"),
    ("planting", "pots", pots(n_pots=3, blank_pot=4), "blank_pot_not_there"),
    ("soil_sample", "warmth", warmth(20, 24), "warmth_crossed"),
    ("soil_sample", "handed_over", {"at": "2031-08-04", "to": "van"}, "not_a_moment"),
    ("assay_report", "found", [COUNTED | {"count": None}], "count_only_when_counted"),
    ("assay_report", "found", [COUNTED | {"result": "seen"}], "count_only_when_counted"),
    ("assay_report", "found", [COUNTED | {"count": 0}], "none_is_not_a_count"),
    ("assay_report", "found", [COUNTED | {"taxon": "Root knot"}], "not_a_taxon"),
    ("assay_report", "examined", {"soil": " ", "counted_pct": None}, "empty"),
    ("lab_profile", "country", "cv", "not_a_country"),
    ("lab_profile", "form", form(fields=2 * [{"field": "Name", **FILLED}]), "said_twice"),
    ("lab_profile", "form", form(fields=[{"field": "", **FILLED}]), "empty"),
]
TAKEN = [
    ("planting", "pots", pots(n_pots=4, blank_pot=4)),
    ("planting", "pots", pots(n_pots=1)),
    ("soil_sample", "warmth", warmth(24, None)),
    ("assay_report", "found", [COUNTED | {"result": "none_recovered", "count": None}]),
    ("assay_report", "found", [COUNTED | {"count": 0.5, "per": "g of root"}]),
    ("lab_profile", "form", form(fields=[{"field": "Name", **FILLED}])),
    ("lab_profile", "form", form(fields=[{"field": "Why", **FILLED, "when": w} for w in "ab"])),
]


@pytest.mark.parametrize(("kind", "field", "value", "reason"), REFUSED)
def test_parts_that_do_not_fit_together_are_refused(kind, field, value, reason):
    with pytest.raises(RecordError) as refused:
        checked_set(kind, {field: value}, creating=False)
    assert refused.value.field == field
    assert reason is None or refused.value.reason == reason


@pytest.mark.parametrize(
    ("kind", "field", "value"),
    [
        ("bed", "shape", outline((0, 0), (300, 0), (300, 100), (140, 100), (140, 260), (0, 260))),
        ("planting", "grown", {"from_on": "2031-05-02", "to_on": "2031-05-02"}),
        ("root_check", "chosen", {"how": "every_kth", "every_k": 50}),
        ("gall_rating", "reading", reading(grade=1, trace_only=True)),
        ("gall_rating", "reading", reading(state="dead", grade=None)),
        ("gall_rating", "place", {"x_cm": 0, "y_cm": 0, "plant": None}),
        ("gall_rating", "produce_damage", {"n_examined": 4, "n_damaged": 4, "signs": "forked"}),
        ("soil_sample", "parcel", {"sent_on": "2031-08-04", "arrived_on": "2031-08-04"}),
        ("soil_sample", "depth", {"from_cm": 0, "to_cm": 20}),
    ],
)
def test_parts_that_fit_together_are_taken(kind, field, value):
    assert checked_set(kind, {field: value}, creating=False) == {field: value}


def test_a_refused_part_is_named():
    with pytest.raises(RecordError) as refused:
        checked_set("soil_sample", {"depth": {"from_cm": 0, "to_cm": 0}}, creating=False)
    assert refused.value.params == {"part": "to_cm", "min": 1, "max": 200}


@pytest.mark.parametrize(("kind", "field", "value"), TAKEN)
def test_parts_that_fit_together_are_taken_as_they_are(kind, field, value):
    assert checked_set(kind, {field: value}, creating=False) == {field: value}
