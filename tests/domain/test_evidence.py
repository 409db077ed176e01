import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.stats import gamma, nbinom, norm

from gardens.domain.errors import DomainError
from gardens.domain.evidence import (
    PRIORS,
    belief_after,
    evidence_reasons,
    weigh,
    weigh_under,
)
from gardens.domain.findings import Found, PotTest, SoilCount, UngalledRoots
from gardens.domain.posterior import Prior, belief

SOIL, ROOTS, POTS = SoilCount(0, 100, 10), UngalledRoots(6), PotTest(0, 2000, 20)
EDGES = (math.log(0.01), math.log(10_000))


def soil_chance(density, counted=0, volume=100, cores=10):
    chances = [
        nbinom.pmf(counted, cores / 2, cores / 2 / (cores / 2 + density * volume / 100 * e))
        for e in (0.2, 0.35, 0.35, 0.5)
    ]
    return sum(chances) / 4


def integrated(likelihood, median, spread, upper):
    """Chance of being below a density, by scipy, from what a finding says of it."""

    def weight(x):
        return norm.pdf(x, math.log(median), spread) * likelihood(math.exp(x))

    part = quad(weight, EDGES[0], math.log(upper), limit=400)[0]
    return part / (part + quad(weight, math.log(upper), EDGES[1], limit=400)[0])


@pytest.mark.parametrize("counted", [0, 3, 40])
@pytest.mark.parametrize("upper", [0.7, 5, 60])
def test_belief_after_a_count_agrees_with_integration_by_scipy(counted, upper, table):
    found = Found(SoilCount(counted, 100, 10))
    got = belief_after(found, "seen_before", table("judgements")).chance_below(upper)
    worked = integrated(lambda d: soil_chance(d, counted), 10, 2, upper)
    before = integrated(lambda d: 1.0, 10, 2, upper)
    miss = 0.05 if counted == 0 else 0
    assert got == pytest.approx((1 - miss) * worked + miss * before, abs=3e-4)


def test_the_density_nearly_all_lies_below_agrees_with_scipy(table):
    got = belief_after(Found(SOIL), "nothing_known", table("judgements")).most(0.95)

    def left(x):
        worked = integrated(soil_chance, 5, 2.5, math.exp(x))
        return 0.95 * worked + 0.05 * integrated(lambda d: 1.0, 5, 2.5, math.exp(x)) - 0.95

    assert got == pytest.approx(math.exp(brentq(left, 0, 5, xtol=1e-4)), rel=5e-3)


def test_without_an_opinion_the_grid_is_the_gamma_distribution():
    # A flat belief in ln d and 2 counted at 0.35 per density: gamma with shape 2, by scipy.
    flat = belief(Prior(5, 1e6), (lambda d: (0.35 * d) ** 2 * math.exp(-0.35 * d),))
    assert flat.chance_below(5) == pytest.approx(gamma.cdf(5, 2, scale=1 / 0.35), abs=5e-4)


def test_one_mixed_bag_has_its_luck_once(table):
    apart = Found(SOIL, PotTest(0, 2000, 10), None)
    shared = Found(SOIL, PotTest(0, 2000, 10, same_bag=True), None)
    chance = [belief_after(one, "galls_last_crop", table("judgements")) for one in (shared, apart)]
    assert chance[0].chance_below(1) < chance[1].chance_below(1)


@pytest.mark.parametrize("prior", PRIORS)
def test_the_worse_of_two_priors_is_told(prior, table):
    told = weigh(Found(SOIL), 5, prior, table("judgements"))
    at = PRIORS.index(prior)
    tried = [weigh_under(Found(SOIL), 5, one, table("judgements")) for one in PRIORS[at : at + 2]]
    assert told == min(tried, key=lambda one: one.chance_below)


def test_a_large_count_is_probably_not_below_a_low_level(table):
    told = weigh(Found(SoilCount(80, 100, 10)), 5, "seen_before", table("judgements"))
    assert told.code == "probably_not_below"


checks = st.builds(
    Found,
    st.none() | st.builds(SoilCount, st.just(0), st.floats(50, 1000), st.integers(1, 40)),
    st.none() | st.builds(PotTest, st.just(0), st.floats(200, 4000), st.integers(1, 40)),
    st.none() | st.builds(UngalledRoots, st.integers(1, 40)),
)
levels = st.sampled_from([0.5, 2, 5, 20, 100])
priors = st.sampled_from(PRIORS)


@settings(deadline=None, max_examples=40)
@given(
    volume=st.floats(50, 1000),
    more=st.floats(1, 10),
    cores=st.integers(1, 30),
    level=levels,
    prior=priors,
    grade=st.sampled_from("ABC"),
)
def test_more_soil_never_lowers_the_confidence(table, volume, more, cores, level, prior, grade):
    small, large = (
        weigh(Found(SoilCount(0, v, cores, grade)), level, prior, table("judgements"))
        for v in (volume, volume * more)
    )
    assert large.chance_below >= small.chance_below - 1e-9


@settings(deadline=None, max_examples=40)
@given(found=checks, level=levels, prior=priors, same=st.booleans())
def test_one_more_check_without_a_find_never_lowers_the_confidence(
    table, found, level, prior, same
):
    now = weigh(found, level, prior, table("judgements")).chance_below
    more = [
        Found(found.soil or SOIL, found.pots, found.roots),
        Found(found.soil, found.pots or PotTest(0, 2000, 10, same), found.roots),
        Found(found.soil, found.pots, UngalledRoots((found.roots or ROOTS).n_plants + 1)),
    ]
    for one in more:
        assert weigh(one, level, prior, table("judgements")).chance_below >= now - 1e-9


def test_a_badly_handled_bag_counts_less(table):
    chances = [
        weigh(Found(SoilCount(0, 100, 10, grade)), 5, "seen_before", table("judgements"))
        for grade in "ABC"
    ]
    assert chances[0].chance_below > chances[1].chance_below > chances[2].chance_below


def test_every_check_is_told_as_a_reason():
    told = evidence_reasons(Found(SOIL, PotTest(4, 2000, 20), ROOTS))
    assert [one.code for one in told] == [
        "evidence_soil_none",
        "evidence_pots_some",
        "evidence_roots",
    ]
    assert [one.code for one in evidence_reasons(Found())] == ["evidence_nothing"]


@pytest.mark.parametrize(
    ("found", "level", "prior", "code"),
    [
        (Found(), 5, "hopeful", "unknown_prior"),
        (Found(), 0, "seen_before", "not_above_zero"),
        (Found(SoilCount(-1, 100, 10)), 5, "seen_before", "negative"),
        (Found(SoilCount(0, 0, 10)), 5, "seen_before", "not_above_zero"),
        (Found(pots=PotTest(0, 2000, 0)), 5, "seen_before", "not_above_zero"),
        (Found(roots=UngalledRoots(0)), 5, "seen_before", "not_above_zero"),
        (Found(SoilCount(10**9, 100, 400)), 5, "never_seen", "findings_impossible"),
    ],
)
def test_findings_that_cannot_be_are_refused(found, level, prior, code, table):
    with pytest.raises(DomainError, match=code):
        weigh(found, level, prior, table("judgements"))
