import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.stats import nbinom
from scipy.stats import t as student

from gardens.domain.errors import DomainError
from gardens.domain.sampling import (
    core_advice,
    core_volume_cm3,
    cores_needed,
    relative_error,
)
from gardens.domain.taylor import cores_for_half_width, cores_needed_taylor, stop_line

means = st.floats(0.1, 1000)
clumping = st.floats(0.05, 20)


@given(means, clumping, st.floats(0.05, 0.9))
def test_cores_needed_agree_with_the_variance_of_scipy(mean, k, precision):
    variance = nbinom.var(k, k / (k + mean))
    assert cores_needed(mean, k, precision) == pytest.approx(variance / (mean * precision) ** 2)


@given(means, clumping, st.floats(0.05, 0.9))
def test_the_cores_needed_reach_their_precision(mean, k, precision):
    n = math.ceil(cores_needed(mean, k, precision))
    assert relative_error(mean, k, n) <= precision * (1 + 1e-9)


@pytest.mark.parametrize("mean", [1, 5, 8])
def test_the_half_width_holds_for_its_own_number_of_cores(mean):
    def left_over(n):
        return student.ppf(0.975, n - 1) ** 2 * 2.92 * mean ** (1.47 - 2) / 0.1**2 - n

    assert cores_for_half_width(mean, 2.92, 1.47, 0.1) == pytest.approx(
        brentq(left_over, 50, 5000), rel=1e-6
    )


@given(st.integers(1, 500), st.floats(0.1, 10), st.floats(1.0, 1.9), st.floats(0.05, 0.5))
def test_at_the_stop_line_the_precision_is_reached(n, a, b, precision):
    mean = stop_line(n, a, b, precision) / n
    assert math.sqrt(a * mean**b / n) / mean == pytest.approx(precision, rel=1e-6)


def test_twenty_cores_leave_a_third_and_forty_a_quarter(table):
    # SE over mean at best, k = 0.5: 0.316 and 0.224, by hand.
    few, many = (core_advice(n, table("judgements")) for n in (20, 40))
    assert round(few.best_error_percent) == 32 and round(many.best_error_percent) == 22
    assert many.volume_cm3 == pytest.approx(2 * few.volume_cm3)


def test_few_nematodes_make_the_error_larger(table):
    advice = core_advice(10, table("judgements"), mean=2)
    assert advice.error_percent > advice.best_error_percent


def test_five_cores_of_an_inch_fill_a_pint():
    assert 5 * core_volume_cm3(2.54, 20.32) > 473.18


@pytest.mark.parametrize(
    "asked",
    [
        lambda: cores_needed(0, 0.5, 0.25),
        lambda: cores_needed_taylor(5, -1, 1.4, 0.1),
        lambda: relative_error(5, 0.5, 0),
        lambda: core_volume_cm3(2.5, float("nan")),
    ],
)
def test_numbers_that_cannot_be_are_refused(asked):
    with pytest.raises(DomainError, match="not_above_zero"):
        asked()
