import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from statsmodels.stats.proportion import proportion_confint

from gardens.domain.incidence import (
    at_most_share,
    exact_interval,
    incidence,
    most_galled,
    severity_index,
    wilson_interval,
)

COUNTS = st.integers(1, 60).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@given(COUNTS)
def test_both_intervals_agree_with_statsmodels(counts):
    k, n = counts
    wilson, exact = (proportion_confint(k, n, method=name) for name in ("wilson", "beta"))
    assert wilson_interval(k, n) == pytest.approx([max(0, wilson[0]), wilson[1]], abs=1e-9)
    assert exact_interval(k, n) == pytest.approx(exact, abs=1e-8)


@given(COUNTS)
def test_a_share_lies_in_its_intervals_and_these_stay_on_the_scale(counts):
    k, n = counts
    for low, high in (wilson_interval(k, n), exact_interval(k, n)):
        assert 0 <= low <= k / n + 1e-12 and k / n - 1e-12 <= high <= 1


@given(st.integers(1, 60))
def test_the_bound_without_a_gall_has_its_closed_form(n):
    assert at_most_share(0, n) == pytest.approx(1 - 0.05 ** (1 / n), abs=1e-9)


@given(st.integers(2, 60).flatmap(lambda n: st.tuples(st.integers(1, n), st.just(n))))
def test_the_most_galled_plants_are_those_of_scipy(counts):
    n_dug, n_plants = counts
    fits = [
        k
        for k in range(n_plants - n_dug + 1)
        if math.comb(n_plants - k, n_dug) / math.comb(n_plants, n_dug) > 0.05 + 1e-12
    ]
    most = most_galled(n_dug, n_plants)
    assert most == max(fits)
    assert stats.hypergeom.pmf(0, n_plants, most, n_dug) > 0.05


def test_digging_one_more_plant_without_a_gall_never_raises_the_bound():
    bounds = [most_galled(n, 24) for n in range(1, 25)]
    assert bounds == sorted(bounds, reverse=True) and bounds[-1] == 0


def test_the_small_bed_sentence_has_its_numbers():
    found = incidence([0] * 6, "every_kth", False, 12)
    assert (found.code, found.n_dug, found.n_plants, found.at_most) == ("none_galled", 6, 12, 3)


def test_without_the_number_of_plants_there_is_still_a_bound():
    found = incidence([0] * 5, "random", False, None)
    assert found.at_most is None and found.high == pytest.approx(0.45072, abs=1e-5)


@pytest.mark.parametrize(
    ("grades", "how", "is_whole", "code"),
    [
        ([], "random", False, "none_rated"),
        ([3, 4, 0], "worst_looking", False, "picked"),
        ([3, 4, 0], "all", True, "whole_bed"),
        ([3, 4, 0], "random", False, "some_galled"),
    ],
)
def test_each_way_of_digging_has_its_own_answer(grades, how, is_whole, code):
    found = incidence(grades, how, is_whole, 12)
    assert found.code == code
    assert (found.low is not None) == (code == "some_galled")


def test_the_index_is_ten_times_the_mean_on_the_grades():
    assert severity_index([3, 4, 0, 2, 0, 0, 1, 0, 0, 0, 0], 10) == pytest.approx(16)
