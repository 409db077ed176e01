import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from gardens.domain.bounded import interval_at, mean_interval, spread_of
from gardens.domain.effort import more_plants, plants_for_spread, plants_needed

GRADES = st.lists(st.integers(0, 10), min_size=3, max_size=12)


@given(grades=GRADES, half_width=st.sampled_from([0.5, 1, 1.5]))
def test_the_number_is_the_first_that_is_enough(grades, half_width):
    n = plants_needed(grades, half_width)
    mean, spread = sum(grades) / len(grades), spread_of(grades)
    low, high = interval_at(mean, spread, n, None)
    assert high - low <= 2 * half_width
    if n > 3:
        low, high = interval_at(mean, spread, n - 1, None)
        assert high - low > 2 * half_width


@given(grades=GRADES, n_plants=st.integers(12, 60))
def test_a_known_bed_never_asks_for_more_than_it_holds_or_than_an_unknown_one(grades, n_plants):
    assert plants_needed(grades, 1, n_plants) <= min(n_plants, plants_needed(grades, 1))


@given(GRADES)
def test_an_interval_holds_its_mean_and_stays_on_the_scale(grades):
    low, high = mean_interval(grades)
    assert 0 <= low <= sum(grades) / len(grades) <= high <= 10


@given(st.permutations([0, 1, 1, 2, 3, 5, 8]))
def test_the_order_of_the_plants_changes_nothing(grades):
    assert mean_interval(grades) == mean_interval([0, 1, 1, 2, 3, 5, 8])


@pytest.mark.parametrize("sd", [0.5, 1, 1.5, 2, 2.5, 3, 4])
def test_the_plan_is_that_of_scipy(sd):
    def half(n):
        return stats.t.ppf(0.975, n - 1) * sd / math.sqrt(n)

    n = plants_for_spread(sd, 1)
    assert half(n) <= 1 < half(n - 1)


def test_no_advice_comes_before_a_few_plants(table):
    assert more_plants([0, 5, 9], table("judgements")).code == "too_early"


def test_a_bed_dug_whole_needs_no_more(table):
    assert more_plants([0, 5], table("judgements"), 2).code == "enough"


def test_more_plants_are_asked_for_until_the_mean_is_near_enough(table):
    found = more_plants([0, 1, 1, 2, 3, 5], table("judgements"), 14)
    assert (found.code, found.n_more, found.n_in_total) == ("dig_more", 2, 8)
    assert more_plants([4, 5] * 10, table("judgements")).code == "enough"
