"""The checks of a bed that speak of its soil, and how likely each finding is at a density.

Not for joining them: that is ``evidence``.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged
from gardens.domain.posterior import Likelihood


@dataclass(frozen=True)
class SoilCount:
    """A lab's count: what was counted, from how much soil and how many cores.

    ``counted`` [nematodes, >= 0], ``volume_cm3`` [cm3, > 0], ``n_cores`` [cores, >= 1],
    ``counted_share`` of the extract [1, above 0..1], ``grade`` of the bag's handling.
    """

    counted: int
    volume_cm3: float
    n_cores: int
    grade: str = "A"
    counted_share: float = 1.0


@dataclass(frozen=True)
class PotTest:
    """Seedlings grown in the soil: galls on all of them [galls, >= 0], soil [cm3, > 0], cores.

    ``same_bag`` when it was filled from the very mix the lab's sample came from.
    """

    galls: int
    volume_cm3: float
    n_cores: int
    same_bag: bool = False


@dataclass(frozen=True)
class UngalledRoots:
    """Plants of good hosts lifted without a gall [plants, >= 1].

    Resistant plants and non-hosts tell nothing and do not belong here; galled plants neither:
    the crop has multiplied the nematode, so they choose the prior instead.
    """

    n_plants: int


@dataclass(frozen=True)
class Found:
    """All checks of a bed; None for a check nobody made."""

    soil: SoilCount | None = None
    pots: PotTest | None = None
    roots: UngalledRoots | None = None


def check(found: Found) -> None:
    """Refuse numbers no check can have.

    Parameters
    ----------
    found : Found
        All checks of a bed.

    Raises
    ------
    DomainError
        ``negative`` or ``not_above_zero``.
    """
    asked = (*_of_soil(found.soil), *_of_pots(found.pots), *_of_roots(found.roots))
    if not all(found_so_many >= 0 for found_so_many, _ in asked):
        raise DomainError("negative")
    if not all(size > 0 for _, size in asked):
        raise DomainError("not_above_zero")


def _of_soil(soil: SoilCount | None) -> tuple[tuple[float, float], ...]:
    """What was found, beside each size it was found in."""
    if soil is None:
        return ()
    sizes = (soil.volume_cm3, soil.n_cores, soil.counted_share)
    return tuple((soil.counted, size) for size in sizes)


def _of_pots(pots: PotTest | None) -> tuple[tuple[float, float], ...]:
    return () if pots is None else ((pots.galls, pots.volume_cm3), (pots.galls, pots.n_cores))


def _of_roots(roots: UngalledRoots | None) -> tuple[tuple[float, float], ...]:
    return () if roots is None else ((0, roots.n_plants),)


def miss(name: str, found: Found, table: Table) -> float:
    """Chance that a check tells nothing.

    Parameters
    ----------
    name : str
        ``"soil"``, ``"pots"`` or ``"roots"``, a check that was made.
    found : Found
        All checks of a bed.
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    float
        [1, 0..1]; 0 for a check that found some: it worked.

    References
    ----------
    our_evidence_grid, our_handling_grade
    """
    if name == "soil":
        assert found.soil is not None
        grade = found.soil.grade.lower()
        return 0.0 if found.soil.counted else judged(table, f"bag_miss_{grade}")
    if name == "pots":
        assert found.pots is not None
        return 0.0 if found.pots.galls else judged(table, "bioassay_miss")
    return judged(table, "roots_miss")


def likelihoods(found: Found, kept: Sequence[str], table: Table) -> tuple[Likelihood, ...]:
    """Chance of what was found at any density, for the checks that worked.

    Parameters
    ----------
    found : Found
        All checks of a bed.
    kept : sequence of str
        The checks taken to have worked, up to three.
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    tuple of callable
        Each takes a density [J2 per 100 cm3, > 0].

    Notes
    -----
    Counts are negative binomial with cores times k, averaged over the share a lab may
    recover; n plants without a gall have (1 + c d / k)^(-k n).

    References
    ----------
    our_evidence_grid, negative_binomial, stirling_2025
    """
    made: list[Likelihood] = []
    soil = found.soil if "soil" in kept else None
    pots = found.pots if "pots" in kept else None
    if soil and pots and pots.same_bag and not soil.counted and not pots.galls:
        # One mix has its luck once: its two findings of none are one, of their joint exposure.
        made.append(_soil(soil, table, beside=_pot_exposure(pots, table)))
        pots = None
    elif soil:
        made.append(_soil(soil, table))
    if pots:
        made.append(_pots(pots, table))
    if "roots" in kept and found.roots:
        made.append(_roots(found.roots, table))
    return tuple(made)


def _soil(soil: SoilCount, table: Table, beside: float = 0.0) -> Likelihood:
    k = soil.n_cores * judged(table, "soil_cores_clumping_k")
    weighted = [
        (judged(table, f"assay_efficiency_{how}_weight"), judged(table, f"assay_efficiency_{how}"))
        for how in ("low", "middle", "high")
    ]
    seen = soil.volume_cm3 / 100 * soil.counted_share
    total = sum(weight for weight, _ in weighted)

    def likelihood(density: float) -> float:
        chances = (
            weight * _clumped(soil.counted, density * (seen * efficiency + beside), k)
            for weight, efficiency in weighted
        )
        return sum(chances) / total

    return likelihood


def _pots(pots: PotTest, table: Table) -> Likelihood:
    k = pots.n_cores * judged(table, "soil_cores_clumping_k")
    exposure = _pot_exposure(pots, table)
    return lambda density: _clumped(pots.galls, density * exposure, k)


def _pot_exposure(pots: PotTest, table: Table) -> float:
    return pots.volume_cm3 / 100 * judged(table, "bioassay_efficiency")


def _roots(roots: UngalledRoots, table: Table) -> Likelihood:
    k, galls = judged(table, "roots_clumping_k"), judged(table, "roots_galls_per_j2")
    return lambda density: math.exp(-k * roots.n_plants * math.log1p(galls * density / k))


def _clumped(counted: int, mean: float, k: float) -> float:
    """Chance of a count under the negative binomial."""
    ways = math.lgamma(counted + k) - math.lgamma(k) - math.lgamma(counted + 1)
    logged = ways - k * math.log1p(mean / k)
    return math.exp(logged + counted * math.log(mean / (mean + k)) if counted else logged)
