"""How easily a lab finds none, and how many there may still be when it does.

None recovered is never nothing there: ``none_recovered`` says so. Not for a count: that has an
interval.
"""

import math

from gardens.domain.count_interval import Examined
from gardens.domain.errors import DomainError

SURE = 0.95


def chance_of_none(density: float, examined: Examined, k: float | None = None) -> float:
    """Chance that a lab finds none though the bed has this many.

    Parameters
    ----------
    density : float
        d [J2 per 100 cm3, >= 0].
    examined : Examined
        What the lab looks at.
    k : float or None
        Clumping of the mixed sample, cores times k [1, > 0]; None for none (Poisson).

    Returns
    -------
    float
        [1, 0..1]

    Raises
    ------
    DomainError
        ``negative``.

    Notes
    -----
    (1 + mean/k)^-k with mean = d/100 V e f; exp(-mean) where nothing is clumped.

    References
    ----------
    negative_binomial, poisson

    Examples
    --------
    >>> round(chance_of_none(5, Examined(100, 0.35), 5), 7)
    0.2230135
    """
    if not density >= 0:
        raise DomainError("negative", density=density)
    mean = density * examined.exposure
    return math.exp(-mean) if k is None else math.exp(-k * math.log1p(mean / k))


def most_expected(k: float | None = None, sure: float = SURE) -> float:
    """Largest expected count at which none is still found one time in twenty.

    Parameters
    ----------
    k : float or None
        Clumping of the mixed sample [1, > 0]; None for none (Poisson).
    sure : float
        [1, above 0 and below 1]

    Returns
    -------
    float
        [nematodes, > 0]

    Raises
    ------
    DomainError
        ``not_a_share``.

    References
    ----------
    negative_binomial, poisson

    Examples
    --------
    >>> round(most_expected(), 7), round(most_expected(5), 6)
    (2.9957323, 4.102821)
    """
    if not 0 < sure < 1:
        raise DomainError("not_a_share", sure=sure)
    logged = -math.log1p(-sure)
    return logged if k is None else k * math.expm1(logged / k)


def most_when_none_recovered(
    examined: Examined, k: float | None = None, sure: float = SURE
) -> float:
    """Density that would still give none recovered one time in twenty.

    Parameters
    ----------
    examined : Examined
        What the lab looked at.
    k : float or None
        Clumping of the mixed sample [1, > 0]; None for none (Poisson).
    sure : float
        [1, above 0 and below 1]

    Returns
    -------
    float
        [J2 per 100 cm3, > 0]

    Notes
    -----
    One-sided. Print it as "<12", outward to a whole number, never as a count of nothing.

    References
    ----------
    negative_binomial, poisson

    Examples
    --------
    >>> round(most_when_none_recovered(Examined(100, 0.35), 5), 1)
    11.7
    """
    return most_expected(k, sure) / examined.exposure


def volume_to_ask(
    level: float, efficiency: float, k: float | None = None, counted_share: float = 1.0
) -> float:
    """Soil to extract so that none recovered means: below this level.

    Parameters
    ----------
    level : float
        The level that matters, from a lab or a table [J2 per 100 cm3, > 0].
    efficiency : float
        Share of the nematodes that comes out [1, above 0..1].
    k : float or None
        Clumping of the mixed sample [1, > 0]; None for none (Poisson).
    counted_share : float
        Share of the extract that is counted [1, above 0..1].

    Returns
    -------
    float
        [cm3, > 0]

    Raises
    ------
    DomainError
        ``not_above_zero`` or ``not_a_share``.

    References
    ----------
    negative_binomial, stirling_2025

    Examples
    --------
    >>> round(volume_to_ask(5, 0.35, 10)), round(volume_to_ask(5, 0.35, 5))
    (200, 234)
    """
    if not level > 0:
        raise DomainError("not_above_zero", level=level)
    return most_when_none_recovered(Examined(1.0, efficiency, counted_share), k) / level


def units_to_look_at(share: float, sure: float = SURE, efficiency: float = 1.0) -> float:
    """Units to look at to find one that has it, when a share of all have it.

    Parameters
    ----------
    share : float
        [1, above 0 and below 1]
    sure : float
        [1, above 0 and below 1]
    efficiency : float
        Chance that one that has it is recognised [1, above 0..1].

    Returns
    -------
    float
        [units, > 0]; round up.

    Raises
    ------
    DomainError
        ``not_a_share``.

    References
    ----------
    mcsorley_littell_1993, chen_2011_detection

    Examples
    --------
    >>> [math.ceil(units_to_look_at(0.05, sure)) for sure in (0.95, 0.99)]
    [59, 90]
    """
    if not (0 < share < 1 and 0 < sure < 1 and 0 < efficiency <= 1):
        raise DomainError("not_a_share", share=share, sure=sure, efficiency=efficiency)
    return math.log1p(-sure) / math.log1p(-share * efficiency)


def chance_of_finding(share: float, n_units: int, efficiency: float = 1.0) -> float:
    """Chance of finding at least one that has it among some units.

    Parameters
    ----------
    share : float
        Of all units that have it [1, above 0 and below 1].
    n_units : int
        [units, >= 0]
    efficiency : float
        Chance that one that has it is recognised [1, above 0..1].

    Returns
    -------
    float
        [1, 0..1]

    Raises
    ------
    DomainError
        ``not_a_share``.

    References
    ----------
    mcsorley_littell_1993, chen_2011_detection

    Examples
    --------
    >>> round(chance_of_finding(0.05, 59, 0.5), 5)
    0.77547
    """
    if not (0 < share < 1 and 0 < efficiency <= 1):
        raise DomainError("not_a_share", share=share, efficiency=efficiency)
    return -math.expm1(n_units * math.log1p(-share * efficiency))
