from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from gardens.domain.bed_order import Rated, bed_order

DAY, SEASON = date(2031, 8, 3), 300


def rated(name, low, high, on=DAY):
    return Rated(name, on, (low + high) / 2, low, high)


def names(beds):
    return [one.name for one in beds]


def test_beds_whose_intervals_lie_apart_are_parted():
    found = bed_order([rated("A", 0.2, 2.3), rated("B", 4, 6), rated("C", 3, 5)], SEASON)
    assert (names(found.last), names(found.before)) == (["B", "C"], ["A"])


def test_a_bed_that_overlaps_either_side_is_in_neither():
    found = bed_order([rated("A", 0, 2), rated("B", 4, 6), rated("C", 1.5, 4.5)], SEASON)
    assert (names(found.last), names(found.before), found.n_unsure) == (["B"], ["A"], 1)


def test_where_every_interval_overlaps_the_worst_nothing_is_said():
    assert bed_order([rated("A", 1, 4), rated("B", 3, 6)], SEASON) is None
    assert bed_order([rated("A", 1, 4), rated("B", 4, 6)], SEASON) is None
    assert bed_order([rated("A", 1, 4)], SEASON) is None
    assert bed_order([], SEASON) is None


def test_a_check_of_another_season_is_left_out():
    old = rated("A", 0, 1, on=date(2030, 8, 3))
    assert bed_order([old, rated("B", 4, 6)], SEASON) is None
    assert names(bed_order([old, rated("B", 4, 6)], 366).before) == ["A"]


INTERVALS = st.tuples(st.floats(0, 10), st.floats(0, 10)).map(sorted)


@given(st.lists(INTERVALS, max_size=9))
def test_nobody_is_on_both_sides_and_no_two_sides_overlap(intervals):
    beds = [rated(str(n), *ends) for n, ends in enumerate(intervals)]
    found = bed_order(beds, SEASON)
    assert bed_order(beds[::-1], SEASON) == found
    if found:
        assert found.last and found.before
        assert len(found.last) + len(found.before) + found.n_unsure == len(beds)
        assert min(one.low for one in found.last) > max(one.high for one in found.before)
