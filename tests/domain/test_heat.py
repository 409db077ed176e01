import datetime
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardens.domain.errors import DomainError
from gardens.domain.heat import (
    HeatSum,
    days_at,
    days_until,
    degree_days,
    read_heat_sums,
    when_reached,
)
from gardens.domain.trap_crops import daily_from_monthly, lift_trap_crop_by

temperatures = st.floats(-5, 40)


@pytest.fixture(scope="module")
def sums(table):
    return read_heat_sums(table("heat_sums"))


def lay(species="Mi", base=10.0, total=300.0):
    return HeatSum("x", species, "to_egg_laying", base, total, "", "uc_degree_days", False)


def test_base_and_sum_stay_with_their_one_source(sums):
    assert len({one.key for one in sums}) == len(sums)
    assert all(one.source or one.from_memory for one in sums)
    assert {(one.base_celsius, one.degree_days) for one in sums if one.species == "Mi"} == {
        (11.1, 476), (11.3, 323), (10.5, 147), (10, 600), (9.8, 300)
    }  # fmt: skip


def test_two_teaching_figures_for_one_species_are_both_shown(sums):
    cycles = [one for one in sums if (one.species, one.span) == ("Mi", "generation")]
    found = when_reached(cycles, [25.0] * 90, "2031-06-01", 32)
    assert [one.n_days for one in found] == [35, 40]


@given(st.lists(temperatures, max_size=60), st.floats(5, 12))
def test_degree_days_never_fall_as_days_pass(daily, base):
    sums = [degree_days(daily[:n], base) for n in range(len(daily) + 1)]
    assert all(later >= earlier for earlier, later in pairwise(sums))


@given(st.floats(12, 32), st.floats(8, 11.5), st.floats(100, 700))
def test_days_at_a_steady_temperature_fit_days_counted_one_by_one(celsius, base, total):
    steady = days_at(lay(base=base, total=total), celsius)
    assert steady is not None
    counted = days_until([celsius] * (int(steady) + 2), base, total)
    assert counted is not None and -1e-6 <= counted - steady < 1 + 1e-6


def test_cold_soil_never_fills_a_sum():
    assert days_at(lay(), 10) is None
    assert days_until([9.0] * 400, 10, 300) is None


def test_soil_hotter_than_the_straight_line_counts_as_its_end():
    assert degree_days([40.0], 10, 32) == 22
    assert days_until([40.0] * 30, 10, 44, 32) == 2


def test_monthly_means_become_days_across_a_new_year():
    months = list(range(12))
    days = daily_from_monthly(months, "2031-12-30", 4)
    assert days == (11, 11, 0, 0)
    with pytest.raises(DomainError, match="not_twelve_months"):
        daily_from_monthly(months[:11], "2031-12-30", 4)
    with pytest.raises(DomainError, match="too_many_days"):
        daily_from_monthly(months, "2031-12-30", 5000)


def test_a_trap_crop_in_warm_soil_comes_out_before_the_first_eggs(sums, table):
    fastest = [one for one in sums if one.species in ("Mi", "Mj", "Ma")]
    found = lift_trap_crop_by(fastest, [26.0] * 60, "2031-06-01", table("judgements"))
    first_eggs = min(one.reached_on for one in found.by_source)
    assert found.limit == "heat" and found.lift_on < first_eggs
    # 300 x 0.8 / 16.2 = 14.8 days: the fifteenth would be the first too late.
    assert found.n_days == 14


def test_a_trap_crop_in_cool_soil_comes_out_after_the_longest_time_tried(sums, table):
    found = lift_trap_crop_by(sums, [14.0] * 60, "2031-03-01", table("judgements"))
    assert (found.limit, found.lift_on) == ("longest_days", "2031-03-31")


def test_too_short_a_row_of_days_is_refused(sums, table):
    with pytest.raises(DomainError, match="too_few_days"):
        lift_trap_crop_by(sums, [26.0] * 20, "2031-06-01", table("judgements"))


@given(st.lists(st.floats(5, 35), min_size=30, max_size=60), st.floats(0, 5))
def test_warmer_soil_never_allows_a_later_day(table, daily, warmer):
    judgements = table("judgements")
    cool = lift_trap_crop_by([lay()], daily, "2031-05-01", judgements)
    warm = lift_trap_crop_by([lay()], [one + warmer for one in daily], "2031-05-01", judgements)
    assert warm.lift_on <= cool.lift_on
    longest = datetime.date(2031, 5, 1) + datetime.timedelta(days=30)
    assert "2031-05-01" <= cool.lift_on <= longest.isoformat()
