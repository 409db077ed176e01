"""How far two estimates lie apart, and how often one plant is less galled than another.

Not for saying whether a treatment worked: that needs the verdict and an untreated bed.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from gardens.domain.bounded import Interval
from gardens.domain.student import t_quantile

SURE = 0.975


@dataclass(frozen=True)
class Estimate:
    """A value and its 95 % interval, all in one unit."""

    value: float
    low: float
    high: float


def apart(first: Estimate, second: Estimate) -> Estimate:
    """First minus second, with an interval made from theirs.

    Parameters
    ----------
    first, second : Estimate
        Two estimates that do not share plants [one unit].

    Returns
    -------
    Estimate
        [same unit]

    Notes
    -----
    The method of variance estimates recovery (MOVER): each end borrows the two lengths that
    matter for it, so lopsided intervals stay lopsided.

    References
    ----------
    newcombe_1998_difference, zou_donner_2008

    Examples
    --------
    >>> found = apart(Estimate(0.9, 0.59585, 0.98212), Estimate(0.3, 0.10779, 0.60322))
    >>> round(found.low, 3), round(found.high, 3)
    (0.171, 0.809)
    """
    value = first.value - second.value
    down = math.hypot(first.value - first.low, second.high - second.value)
    up = math.hypot(first.high - first.value, second.value - second.low)
    return Estimate(value, value - down, value + up)


def chance_of_lower(before: Sequence[float], after: Sequence[float]) -> Estimate | None:
    """Chance that a plant taken after is less galled than one taken before.

    Parameters
    ----------
    before, after : sequence of float
        Grades of two checks, any number [one scale].

    Returns
    -------
    Estimate or None
        [1, 0..1]; equal grades count half. None with fewer than three plants in all or with an
        empty check.

    Notes
    -----
    Newcombe's method 5 with Student's t. Does not need equal steps between grades, so where it
    and the drop of the mean disagree, this one is to be preferred.

    References
    ----------
    newcombe_2006

    Examples
    --------
    >>> found = chance_of_lower([8, 7, 9], [2, 0, 3])
    >>> found.value, round(found.low, 6), found.high
    (1.0, 0.336576, 1.0)
    """
    m, n = len(before), len(after)
    if not m or not n or m + n < 3:
        return None
    pairs = [(b > a) + (b == a) / 2 for b in before for a in after]
    value = sum(pairs) / (m * n)
    q, half_n = t_quantile(SURE, m + n - 2), (m + n) / 2 - 1

    def is_outside(t: float) -> bool:
        spread = 1 + half_n * (1 - t) / (2 - t) + half_n * t / (1 + t)
        return abs(t - value) > q * math.sqrt(t * (1 - t) * spread / (m * n))

    low = _edge(0.0, value, is_outside) if value > 0 else 0.0
    return Estimate(value, low, _edge(1.0, value, is_outside) if value < 1 else 1.0)


def _edge(outside: float, inside: float, is_outside: Callable[[float], bool]) -> float:
    for _ in range(60):
        middle = (outside + inside) / 2
        if is_outside(middle):
            outside = middle
        else:
            inside = middle
    return inside


def interval_of(ends: Interval | None, value: float) -> Estimate:
    """Estimate from a value and its interval; without one the value is taken as known.

    Parameters
    ----------
    ends : (float, float) or None
        Low and high end [unit of the value]; None when every plant of the bed was dug.
    value : float
        [any unit]

    Returns
    -------
    Estimate
        [same unit]
    """
    low, high = ends or (value, value)
    return Estimate(value, low, high)
