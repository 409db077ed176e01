import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import nbinom, poisson

from gardens.domain.briefing.lines import filled
from gardens.domain.count_interval import Examined
from gardens.domain.detection import (
    chance_of_finding,
    chance_of_none,
    most_expected,
    most_when_none_recovered,
    units_to_look_at,
    volume_to_ask,
)
from gardens.domain.errors import DomainError
from gardens.domain.none_recovered import none_recovered, soil_to_ask

densities = st.floats(0.01, 1000)
volumes = st.floats(50, 2000)
shares = st.floats(0.05, 1)
clumping = st.floats(0.25, 50)


@given(densities, volumes, shares, clumping)
def test_the_chance_of_none_agrees_with_scipy(density, volume, efficiency, k):
    examined, mean = Examined(volume, efficiency), density * volume * efficiency / 100
    expected = nbinom.pmf(0, k, k / (k + mean))
    assert chance_of_none(density, examined, k) == pytest.approx(expected, rel=1e-7)
    assert chance_of_none(density, examined) == pytest.approx(poisson.pmf(0, mean), rel=1e-9)


@given(volumes, shares, clumping)
def test_at_the_bound_none_is_found_one_time_in_twenty(volume, efficiency, k):
    examined = Examined(volume, efficiency)
    for clumped in (k, None):
        bound = most_when_none_recovered(examined, clumped)
        assert chance_of_none(bound, examined, clumped) == pytest.approx(0.05)


@given(densities, st.floats(0.05, 0.6), clumping)
def test_with_the_soil_asked_for_none_means_below_the_level(level, efficiency, k):
    volume = volume_to_ask(level, efficiency, k)
    assert most_when_none_recovered(Examined(volume, efficiency), k) == pytest.approx(level)


@given(volumes, st.floats(1.01, 10), shares, clumping)
def test_more_soil_lowers_the_bound_and_clumping_raises_it(volume, more, efficiency, k):
    bound = most_when_none_recovered(Examined(volume, efficiency), k)
    assert most_when_none_recovered(Examined(volume * more, efficiency), k) < bound
    assert most_when_none_recovered(Examined(volume, efficiency)) < bound


@settings(deadline=None)
@given(st.integers(1, 30), volumes)
def test_none_recovered_is_never_said_to_be_nothing(n_cores, volume):
    rules = {
        "soil_cores_clumping_k": {"value": 0.5, "range": [0.05, 20]},
        "assay_efficiency_middle": {"value": 0.35, "range": [0, 1]},
        "assay_efficiency_low": {"value": 0.2, "range": [0, 1]},
    }
    said = none_recovered(rules, volume, n_cores)
    assert 0 < said.params["bound"] <= said.params["bound_if_poor"]


def test_the_sentence_names_soil_cores_and_bound(table):
    said = none_recovered(table("judgements"), 100, 10)
    words = filled(table("verdicts")[said.code]["words"], said.params)
    assert words.startswith("None recovered from 100 cm³ of soil (10 cores mixed).")
    assert "about 12 per 100 cm³" in words and "one time in twenty" in words


@pytest.mark.parametrize(("volume", "cores"), [(None, 10), (100, None), (None, None)])
def test_without_soil_or_cores_there_is_no_number(volume, cores, table):
    said = none_recovered(table("judgements"), volume, cores)
    assert said.code == "none_recovered_unknown" and not said.params


def test_a_sensitive_crop_needs_more_soil_than_labs_take(table):
    usual, sensitive = (soil_to_ask(level, 10, table("judgements")) for level in (20, 1))
    assert (usual.volume_cm3, usual.is_more_than_least) == (250, False)
    assert sensitive.volume_cm3 > 1000 and sensitive.is_more_than_least
    assert sensitive.volume_if_poor_cm3 > sensitive.volume_cm3


def test_as_many_units_as_asked_for_find_one_as_surely():
    assert chance_of_finding(0.05, 59) >= 0.95 > chance_of_finding(0.05, 58)
    assert units_to_look_at(0.05, 0.95, 0.5) > units_to_look_at(0.05)


@pytest.mark.parametrize(
    ("asked", "code"),
    [
        (lambda: chance_of_none(-1, Examined(100, 0.3)), "negative"),
        (lambda: most_expected(5, 1), "not_a_share"),
        (lambda: volume_to_ask(0, 0.3), "not_above_zero"),
        (lambda: units_to_look_at(0), "not_a_share"),
        (lambda: chance_of_finding(0.1, 5, 0), "not_a_share"),
    ],
)
def test_numbers_that_cannot_be_are_refused(asked, code):
    with pytest.raises(DomainError, match=code):
        asked()
