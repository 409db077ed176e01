import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from gardens.domain.beta import beta_quantile, beta_share

SHAPE = st.floats(0.2, 200)


@given(a=SHAPE, b=SHAPE, x=st.floats(0, 1))
def test_shares_agree_with_scipy(a, b, x):
    assert beta_share(a, b, x) == pytest.approx(stats.beta.cdf(x, a, b), abs=1e-9)


@given(a=st.floats(0.5, 100), b=st.floats(0.5, 100), share=st.floats(0.01, 0.99))
def test_quantiles_agree_with_scipy(a, b, share):
    assert beta_quantile(share, a, b) == pytest.approx(stats.beta.ppf(share, a, b), abs=1e-9)


@pytest.mark.parametrize(("x", "share"), [(-1, 0), (0, 0), (1, 1), (2, 1)])
def test_nothing_lies_outside_the_scale(x, share):
    assert beta_share(2, 3, x) == share
