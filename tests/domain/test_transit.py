import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardens.domain.errors import DomainError
from gardens.domain.transit import HALF_LIVES_DAYS, Journey, handling, share_left

WELL = {"days": 2.0, "warmest_celsius": 22.0, "coldest_celsius": 12.0, "moisture": "just_moist"}


def graded(table, **changed):
    return handling(Journey(**(WELL | changed)), table("judgements"))


def test_a_bag_handled_well_is_grade_a_without_a_reason_against_it(table):
    found = graded(table)
    assert (found.grade, found.miss, found.reasons) == ("A", 0.05, ())


@pytest.mark.parametrize(
    ("changed", "grade", "code"),
    [
        ({"days": 7}, "A", None),
        ({"days": 7.5}, "B", "bag_not_fresh"),
        ({"days": 14}, "B", "bag_not_fresh"),
        ({"days": 14.1}, "C", "bag_old"),
        ({"days": None}, "B", "bag_days_unknown"),
        ({"warmest_celsius": 27}, "A", None),
        ({"warmest_celsius": 27.5}, "B", "bag_warm"),
        ({"warmest_celsius": 36}, "C", "bag_hot"),
        ({"warmest_celsius": None, "coldest_celsius": None}, "B", "bag_unmeasured"),
        ({"in_sun": True}, "B", "bag_sun_measured"),
        ({"in_sun": True, "warmest_celsius": None}, "C", "bag_sun_unmeasured"),
        ({"coldest_celsius": 4}, "A", None),
        ({"coldest_celsius": 3}, "B", "bag_chilled"),
        ({"coldest_celsius": -1}, "C", "bag_frozen"),
        ({"moisture": "dust_dry"}, "C", "bag_dust_dry"),
        ({"moisture": "wet"}, "B", "bag_wet"),
        ({"moisture": "soaked"}, "B", "bag_wet"),
        ({"moisture": None}, "B", "bag_moisture_unknown"),
    ],
)
def test_each_finding_has_its_grade_and_its_reason(changed, grade, code, table):
    found = graded(table, **changed)
    assert found.grade == grade
    assert [one.code for one in found.reasons] == ([code] if code else [])


def test_the_worst_finding_wins_and_is_told_first(table):
    found = graded(table, days=10, moisture="dust_dry", warmest_celsius=30)
    assert (found.grade, found.miss) == ("C", 0.5)
    assert [one.code for one in found.reasons] == ["bag_dust_dry", "bag_not_fresh", "bag_warm"]


@given(days=st.floats(0, 40), warm=st.floats(4, 45), later=st.floats(0, 20))
def test_a_longer_way_never_has_a_better_grade(days, warm, later):
    rules = {
        key: {"value": value, "range": [0, 100]}
        for key, value in {
            "bag_old_days": 14,
            "bag_fresh_days": 7,
            "bag_hot_celsius": 36,
            "bag_warm_celsius": 27,
            "bag_frozen_celsius": 0,
            "bag_chilled_celsius": 4,
            "bag_miss_a": 0.05,
            "bag_miss_b": 0.2,
            "bag_miss_c": 0.5,
        }.items()
    }
    short, long = (
        handling(Journey(n, warm, None, "just_moist"), rules) for n in (days, days + later)
    )
    assert short.grade <= long.grade and short.miss <= long.miss


@given(st.floats(0, 60), st.sampled_from([*HALF_LIVES_DAYS, None]))
def test_what_may_be_left_is_a_range_of_shares(days, moisture):
    low, high = share_left(days, moisture)
    assert 0 <= low <= high <= 1


def test_three_days_leave_between_half_and_nearly_all():
    # Towson and Apt's half-lives of 2.6 and 110 days.
    assert share_left(3, None) == pytest.approx((0.449, 0.981), abs=6e-4)


@pytest.mark.parametrize(
    ("journey", "code"),
    [
        (Journey(days=-1), "negative"),
        (Journey(warmest_celsius=5, coldest_celsius=9), "temperatures_crossed"),
    ],
)
def test_a_journey_that_cannot_be_is_refused(journey, code, table):
    with pytest.raises(DomainError, match=code):
        handling(journey, table("judgements"))


def test_an_unknown_moisture_is_refused():
    with pytest.raises(DomainError, match="unknown_moisture"):
        share_left(3, "damp")
