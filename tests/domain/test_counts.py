import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.stats import chi2, gamma, nbinom, poisson

from gardens.domain.count_interval import (
    Examined,
    counted_from_report,
    density_interval,
    expected_count_interval,
    pooled_k,
    up_to,
)
from gardens.domain.errors import DomainError
from gardens.domain.gamma import gamma_quantile, gamma_share

counted = st.integers(0, 400)
clumping = st.floats(0.25, 50)


@settings(deadline=None)
@given(st.floats(0.2, 200), st.floats(0.01, 400))
def test_shares_of_the_gamma_distribution_agree_with_scipy(a, x):
    assert gamma_share(a, x) == pytest.approx(gamma.cdf(x, a), abs=1e-11)


@settings(deadline=None)
@given(st.floats(0.01, 0.99), st.floats(0.5, 100))
def test_quantiles_of_the_gamma_distribution_agree_with_scipy(share, a):
    assert gamma_quantile(share, a) == pytest.approx(gamma.ppf(share, a), rel=1e-8)


@settings(deadline=None)
@given(counted, st.floats(0.01, 500), clumping)
def test_chances_of_a_count_agree_with_scipy(y, mean, k):
    assert up_to(y, mean, k) == pytest.approx(nbinom.cdf(y, k, k / (k + mean)), abs=1e-9)
    assert up_to(y, mean, None) == pytest.approx(poisson.cdf(y, mean), abs=1e-9)


@settings(deadline=None)
@given(counted)
def test_without_clumping_the_interval_is_garwoods(y):
    low, high = expected_count_interval(y)
    assert low == pytest.approx(chi2.ppf(0.025, 2 * y) / 2 if y else 0, abs=1e-6)
    assert high == pytest.approx(chi2.ppf(0.975, 2 * y + 2) / 2, rel=1e-7)


@settings(deadline=None)
@given(counted, clumping)
def test_both_tails_of_a_clumped_interval_hold_a_fortieth(y, k):
    low, high = expected_count_interval(y, k)
    assert nbinom.cdf(y, k, k / (k + high)) == pytest.approx(0.025, abs=1e-7)
    if y:
        assert nbinom.sf(y - 1, k, k / (k + low)) == pytest.approx(0.025, abs=1e-7)


@settings(deadline=None)
@given(counted, clumping)
@example(1, 1.0)
def test_an_interval_holds_its_count_and_clumping_widens_it(y, k):
    low, high = expected_count_interval(y, k)
    plain_low, plain_high = expected_count_interval(y)
    assert low <= y <= plain_high <= high and plain_low <= y
    assert high - low >= plain_high - plain_low
    assert low <= plain_low or y == 1


@settings(deadline=None)
@given(clumping)
def test_at_one_counted_clumping_lifts_the_low_end_too(k):
    # Only a count of none lies below one, and it comes more often where they are clumped:
    # (1 + m / k)^-k = 0.975 needs a higher m than exp(-m) = 0.975.
    low, _ = expected_count_interval(1, k)
    assert low == pytest.approx(k * (0.975 ** (-1 / k) - 1), rel=1e-6)
    assert low > expected_count_interval(1)[0]


def test_density_is_the_count_over_what_was_examined():
    low, high = expected_count_interval(20, 10)
    examined = Examined(250, 0.4, 0.5)
    assert density_interval(20, examined, 10) == pytest.approx((low / 0.5, high / 0.5))


def test_a_part_of_the_extract_makes_the_lab_count_in_steps():
    assert Examined(250, 0.35, 0.1).step == pytest.approx(4)
    assert counted_from_report(120, 100, Examined(250, 0.35, 0.1)) == 30


def test_mixing_more_cores_leaves_less_clumping():
    assert pooled_k(20, 0.5) == 10 and pooled_k(None, 0.5) is None


@pytest.mark.parametrize(
    ("asked", "code"),
    [
        (lambda: expected_count_interval(-1), "negative"),
        (lambda: expected_count_interval(3, 0), "not_above_zero"),
        (lambda: Examined(0, 0.3), "not_above_zero"),
        (lambda: Examined(100, 0), "not_a_share"),
        (lambda: Examined(100, 0.3, 1.1), "not_a_share"),
        (lambda: pooled_k(0, 0.5), "not_above_zero"),
        (lambda: counted_from_report(-3, 100, Examined(100, 0.3)), "negative"),
        (lambda: counted_from_report(3, 0, Examined(100, 0.3)), "not_above_zero"),
    ],
)
def test_numbers_that_cannot_be_are_refused(asked, code):
    with pytest.raises(DomainError, match=code):
        asked()
