"""Are counts clumped, even or as chance would have it: galled plants per metre, J2 per core.

Not for 0-to-10 grades: a scale with two ends has a spread of its own that says nothing here.
"""

import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from gardens.domain.gamma import gamma_share


@dataclass(frozen=True)
class Clumping:
    """Counts of one kind in equal units, and how clumped they are.

    ``ratio`` is variance over mean (1 by chance), ``chance`` two-sided, of a ratio so far from
    1; ``crowding`` how many others share a unit with one, on average; ``patchiness`` is
    crowding over mean; ``morisita`` the index of that name; ``k`` of the negative binomial, by
    moments, None when the counts are not clumped [all 1].
    """

    mean: float
    ratio: float
    chi_squared: float
    chance: float
    crowding: float
    patchiness: float
    morisita: float | None
    k: float | None


def clumping(counts: Sequence[int]) -> Clumping | None:
    """How clumped counts are.

    Parameters
    ----------
    counts : sequence of int
        Two or more counts of equal units [1, >= 0].

    Returns
    -------
    Clumping or None
        None for fewer than two units, or when nothing was counted in any of them.

    References
    ----------
    student_1907, lloyd_1967, morisita_1959

    Examples
    --------
    >>> round(clumping([0, 0, 1, 5, 2, 0, 8, 1]).crowding, 7)
    5.0829832
    """
    n, total = len(counts), sum(counts)
    if n < 2 or total == 0:
        return None
    mean, variance = total / n, float(statistics.variance(counts))
    ratio = variance / mean
    crowding = mean + ratio - 1
    pairs = sum(x * (x - 1) for x in counts)
    return Clumping(
        mean=mean,
        ratio=ratio,
        chi_squared=(n - 1) * ratio,
        chance=_two_sided((n - 1) * ratio, n - 1),
        crowding=crowding,
        patchiness=crowding / mean,
        morisita=n * pairs / (total * (total - 1)) if total > 1 else None,
        k=mean * mean / (variance - mean) if variance > mean else None,
    )


def census_crowding(counts: Sequence[int]) -> float | None:
    """How many others share a unit with one, when every unit there is was counted.

    Parameters
    ----------
    counts : sequence of int
        Counts of all units [1, >= 0].

    Returns
    -------
    float or None
        [1, >= 0]; None when nothing was counted.

    References
    ----------
    lloyd_1967

    Examples
    --------
    >>> round(census_crowding([0, 0, 1, 5, 2, 0, 8, 1]), 7)
    4.5882353
    """
    total = sum(counts)
    return sum(x * (x - 1) for x in counts) / total if total else None


def _two_sided(chi_squared: float, degrees: int) -> float:
    below = gamma_share(degrees / 2, chi_squared / 2)
    return min(1.0, 2 * min(below, 1 - below))
