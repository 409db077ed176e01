import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from gardens.domain.clumping import clumping

COUNTS = st.lists(st.integers(0, 60), min_size=2, max_size=40).filter(any)


@given(COUNTS)
def test_the_chance_of_a_spread_agrees_with_scipy(counts):
    found = clumping(counts)
    chi_squared, above = stats.chisquare(counts)
    assert found.chi_squared == pytest.approx(chi_squared, rel=1e-9, abs=1e-9)
    assert found.chance == pytest.approx(2 * min(above, 1 - above), abs=1e-8)


@given(COUNTS)
def test_patchiness_is_one_and_one_over_k(counts):
    found = clumping(counts)
    if found.k is not None:
        assert found.patchiness == pytest.approx(1 + 1 / found.k)


def test_the_eelworm_cysts_are_clumped(eelworms):
    # scipy, statsmodels; 48 plots.
    found = clumping(eelworms.initial)
    assert found.mean == pytest.approx(128.46, abs=5e-3)
    assert (found.ratio, found.k) == pytest.approx((51.37, 2.550), abs=5e-3)
    assert (found.patchiness, found.morisita) == pytest.approx((1.3921366, 1.3840294), abs=5e-8)
    assert found.chi_squared == pytest.approx(2414.541, abs=5e-4)
