from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gardens.domain.errors import DomainError
from gardens.domain.shipping import rank_ship_days, read_courier, read_lab

WEEK = [0, 1, 2, 3, 4]
MONDAY = "2031-08-04"
RULES = {
    "bag_fresh_days": {"value": 7, "range": [2, 14]},
    "bag_old_days": {"value": 14, "range": [7, 60]},
}


def ranked(today=MONDAY, *, closed=(), transit=1, to_door=True, idle=(), lifted=None, works=WEEK):
    lab, courier = read_lab(works, list(closed)), read_courier(transit, to_door, WEEK, list(idle))
    return rank_ship_days(today, lab, courier, RULES, lifted)


def day(found, on):
    return next(one for one in found if one.ship_on == on)


def codes(one):
    return [said.code for said in one.reasons]


def test_early_in_the_week_with_a_day_to_spare_is_good():
    found = day(ranked(), "2031-08-06")
    assert (found.arrives_on, found.verdict) == ("2031-08-07", "good")
    assert codes(found) == ["ship_day_to_spare"]


def test_thursday_is_held_and_monday_is_best():
    found = ranked("2031-08-07")
    assert (found[0].ship_on, found[0].verdict) == ("2031-08-11", "good")
    thursday = day(found, "2031-08-07")
    assert thursday.verdict == "hold"
    assert codes(thursday) == ["ship_no_day_to_spare", "ship_late_in_week"]


def test_the_day_before_a_holiday_is_held():
    holiday = "2031-08-13"
    found = day(ranked(closed=[holiday], idle=[holiday]), "2031-08-12")
    assert (found.arrives_on, found.verdict) == ("2031-08-14", "hold")
    assert "ship_over_holiday" in codes(found)


def test_a_lab_closed_on_arrival_is_never():
    found = day(ranked(closed=["2031-08-13"]), "2031-08-12")
    assert (found.verdict, found.rank) == ("never", None)
    assert codes(found) == ["ship_lab_closed_holiday"]


def test_a_weekday_the_lab_does_not_work_is_never():
    found = day(ranked(works=[0, 2, 3, 4]), MONDAY)
    assert (found.verdict, codes(found)) == ("never", ["ship_lab_closed_weekday"])


def test_a_day_the_courier_rests_is_never():
    found = day(ranked(), "2031-08-09")
    assert (found.verdict, found.arrives_on, codes(found)) == ("never", None, ["ship_not_taken"])


def test_a_parcel_that_must_be_fetched_needs_the_lab_open_the_day_after():
    found = ranked(to_door=False)
    thursday = day(found, "2031-08-07")
    assert (thursday.verdict, codes(thursday)) == ("never", ["ship_not_fetched"])
    assert "ship_not_to_door" in codes(day(found, MONDAY))


def test_a_long_ride_over_a_weekend_is_held():
    found = day(ranked(transit=3), "2031-08-06")
    assert (found.arrives_on, found.verdict) == ("2031-08-11", "hold")
    assert "ship_over_weekend" in codes(found)


def test_old_soil_is_held_for_a_new_sample():
    found = ranked(lifted="2031-08-01")
    assert found[0].ship_on == MONDAY
    assert "ship_soil_not_fresh" in codes(day(found, "2031-08-11"))
    assert "ship_soil_old" in codes(day(found, "2031-08-18"))
    assert day(found, "2031-08-18").verdict == "hold"


def test_soil_still_in_the_bed_is_not_shipped():
    found = day(ranked(lifted="2031-08-06"), MONDAY)
    assert (found.verdict, codes(found)) == ("never", ["ship_before_lifting"])


def test_a_bag_carried_by_hand_needs_no_day_to_spare():
    assert day(ranked(transit=0), "2031-08-08").verdict == "good"


def test_a_lab_with_another_week_has_its_own_late_days():
    found = day(ranked(works=[6, 0, 1, 2, 3, 4]), "2031-08-07")
    assert "ship_late_in_week" not in codes(found)


def test_a_lab_that_never_works_leaves_no_day():
    assert {one.verdict for one in ranked(works=[])} == {"never"}


def test_a_transit_beyond_three_weeks_is_refused():
    with pytest.raises(DomainError, match="transit_days_wrong"):
        read_courier(21, True, WEEK, [])


days = st.integers(0, 60).map(lambda n: (date(2031, 8, 1) + timedelta(days=n)).isoformat())


@settings(deadline=None)
@given(
    today=days,
    closed=st.lists(days, max_size=15),
    idle=st.lists(days, max_size=15),
    works=st.sets(st.integers(0, 6)),
    transit=st.integers(0, 8),
    to_door=st.booleans(),
)
def test_a_parcel_is_never_sent_to_a_closed_door(today, closed, idle, works, transit, to_door):
    found = ranked(
        today, closed=closed, idle=idle, works=list(works), transit=transit, to_door=to_door
    )
    assert len({one.ship_on for one in found}) == 21
    possible = [one for one in found if one.verdict != "never"]
    assert [one.rank for one in possible] == list(range(1, len(possible) + 1))
    for one in possible:
        assert one.arrives_on not in closed
        assert date.fromisoformat(one.arrives_on).weekday() in works
    assert all(one.reasons for one in found)
