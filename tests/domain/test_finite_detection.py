import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import hypergeom

from gardens.domain.errors import DomainError
from gardens.domain.finite_detection import chance_of_missing, units_of_few


@given(st.integers(1, 200), st.data())
def test_the_chance_of_missing_all_agrees_with_scipy(standing, data):
    having = data.draw(st.integers(0, standing))
    looked = data.draw(st.integers(0, standing))
    expected = hypergeom.pmf(0, standing, having, looked)
    assert chance_of_missing(standing, having, looked) == pytest.approx(expected, abs=1e-9)


@given(st.integers(1, 120), st.data(), st.sampled_from([0.8, 0.95, 0.99]))
def test_as_many_as_asked_for_are_enough_and_one_fewer_is_not(standing, data, sure):
    having = data.draw(st.integers(1, standing))
    n = units_of_few(standing, having, sure)
    assert chance_of_missing(standing, having, n) <= 1 - sure
    assert chance_of_missing(standing, having, n - 1) > 1 - sure


@pytest.mark.parametrize(
    ("standing", "having", "n"),
    [(100, 5, 45), (100, 2, 78), (100, 1, 95), (20, 2, 16), (30, 3, 19)],
)
def test_a_table_for_surveys_of_herds_is_met(standing, having, n):
    # Cannon and Roe 1982, sample sizes to find at least one at 95 %; values from memory.
    assert units_of_few(standing, having) == n


def test_what_is_not_always_recognised_needs_more_or_cannot_be_had():
    assert units_of_few(40, 4) < units_of_few(40, 4, recognised=0.7)
    assert units_of_few(20, 1, recognised=0.5) is None


@pytest.mark.parametrize(
    ("wrong", "code"),
    [
        ((10, 11, 1), "negative"),
        ((10, 1, 11), "negative"),
        ((10, 1, 1, 0.0), "not_a_share"),
    ],
)
def test_numbers_that_cannot_be_are_refused(wrong, code):
    with pytest.raises(DomainError, match=code):
        chance_of_missing(*wrong)
    with pytest.raises(DomainError, match="not_a_share"):
        units_of_few(10, 1, sure=1.0)
