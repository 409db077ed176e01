"""What is believed of the density in a bed, on a grid: before and after a finding.

Only the arithmetic; what counts as a finding, and what it is worth, is in ``evidence``.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import accumulate

from gardens.domain.errors import DomainError

N_POINTS = 401
LEAST, MOST = 0.01, 10_000.0
_STEP = math.log(MOST / LEAST) / (N_POINTS - 1)
# Densities even in their logarithm [J2 per 100 cm3].
DENSITIES = tuple(LEAST * math.exp(_STEP * i) for i in range(N_POINTS))

Likelihood = Callable[[float], float]


@dataclass(frozen=True)
class Prior:
    """Belief before any check: median [J2 per 100 cm3, > 0] and spread [sd of ln, > 0]."""

    median: float
    spread: float


@dataclass(frozen=True)
class Belief:
    """Belief in each of the densities, as what lies up to it [1, 0..1], 401 values."""

    below: tuple[float, ...]

    def chance_below(self, density: float) -> float:
        """Chance that the bed is below a density.

        Parameters
        ----------
        density : float
            [J2 per 100 cm3, > 0]

        Returns
        -------
        float
            [1, 0..1]
        """
        if density <= LEAST:
            return 0.0
        at = math.log(density / LEAST) / _STEP
        before = int(at)
        if before >= N_POINTS - 1:
            return 1.0
        low, high = self.below[before], self.below[before + 1]
        return low + (at - before) * (high - low)

    def most(self, share: float) -> float:
        """Density below which a share of the belief lies.

        Parameters
        ----------
        share : float
            [1, above 0 and below 1]

        Returns
        -------
        float
            [J2 per 100 cm3, 0.01..10000]
        """
        after = next(i for i, below in enumerate(self.below) if below >= share)
        if after == 0:
            return LEAST
        low, high = self.below[after - 1], self.below[after]
        return DENSITIES[after - 1] * math.exp(_STEP * (share - low) / (high - low))


def belief(prior: Prior, likelihoods: tuple[Likelihood, ...] = ()) -> Belief:
    """Belief in the densities, after some findings.

    Parameters
    ----------
    prior : Prior
        Belief before them, log-normal.
    likelihoods : tuple of callable
        Chance of each finding at a density [J2 per 100 cm3], any number.

    Returns
    -------
    Belief
        By the trapezium rule on a grid even in ln d.

    Raises
    ------
    DomainError
        ``not_above_zero``; ``findings_impossible`` when nothing is left of the belief.

    References
    ----------
    our_evidence_grid

    Examples
    --------
    >>> round(belief(Prior(5, 2.5)).chance_below(5), 3)
    0.497
    """
    if not (prior.median > 0 and prior.spread > 0):
        raise DomainError("not_above_zero", median=prior.median, spread=prior.spread)
    middle = math.log(prior.median)
    weights = []
    for density in DENSITIES:
        weight = math.exp(-0.5 * ((math.log(density) - middle) / prior.spread) ** 2)
        for likelihood in likelihoods:
            weight *= likelihood(density)
        weights.append(weight)
    areas = accumulate((a + b for a, b in zip(weights, weights[1:], strict=False)), initial=0.0)
    reached = list(areas)
    if not reached[-1] > 0:
        raise DomainError("findings_impossible")
    return Belief(tuple(area / reached[-1] for area in reached))


def mixed(parts: list[tuple[float, Belief]]) -> Belief:
    """Average of some beliefs.

    Parameters
    ----------
    parts : list of (float, Belief)
        One or more, each with its weight [1, >= 0]; the weights add up to 1.

    Returns
    -------
    Belief
        Their weighted mean.

    Examples
    --------
    >>> one = belief(Prior(5, 2))
    >>> mixed([(0.5, one), (0.5, one)]) == one
    True
    """
    shares = zip(*(one.below for _, one in parts), strict=True)
    weights = [weight for weight, _ in parts]
    return Belief(
        tuple(sum(w * share for w, share in zip(weights, row, strict=True)) for row in shares)
    )
