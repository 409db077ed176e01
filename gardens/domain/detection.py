"""What "none recovered" means: how easily a lab finds none, and how many there may still be.

None recovered is never nothing there. Not for a count: that has an interval.
"""

import math
from dataclasses import dataclass

from gardens.domain.count_interval import Examined, pooled_k
from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged
from gardens.domain.said import Said

SURE = 0.95


@dataclass(frozen=True)
class Ask:
    """What to ask a lab for before shipping [cm3, > 0].

    ``volume_cm3`` is the soil to extract for a middling lab, ``volume_if_poor_cm3`` for a poor
    one; ``is_more_than_least`` when the level needs more than labs usually take.
    """

    volume_cm3: float
    volume_if_poor_cm3: float
    is_more_than_least: bool


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


def none_recovered(
    table: Table, volume_cm3: float | None, n_cores: int | None, counted_share: float = 1.0
) -> Said:
    """What to say when a lab recovered none.

    Parameters
    ----------
    table : Mapping
        Content of ``fixtures/judgements.json``.
    volume_cm3 : float or None
        Soil the lab extracted [cm3, > 0]; None when the report does not say.
    n_cores : int or None
        Cores mixed in the sample [cores, >= 1]; None when nobody noted them.
    counted_share : float
        Share of the extract that was counted [1, above 0..1].

    Returns
    -------
    Said
        With the bound for a middling and for a poor extraction [J2 per 100 cm3]; without a
        number when volume or cores are unknown.

    References
    ----------
    negative_binomial, mcsorley_parrado_1987, mcsorley_frederick_1991

    Examples
    --------
    >>> none_recovered({}, None, 10).code
    'none_recovered_unknown'
    """
    if volume_cm3 is None or n_cores is None:
        return Said("none_recovered_unknown")
    k = pooled_k(n_cores, judged(table, "soil_cores_clumping_k"))
    bounds = [
        math.ceil(most_when_none_recovered(Examined(volume_cm3, e, counted_share), k))
        for e in (
            judged(table, "assay_efficiency_middle"),
            judged(table, "assay_efficiency_low"),
        )
    ]
    params = {"volume_cm3": f"{volume_cm3:g}", "n_cores": n_cores}
    return Said("none_recovered", {**params, "bound": bounds[0], "bound_if_poor": bounds[1]})


def soil_to_ask(level: float, n_cores: int, table: Table) -> Ask:
    """Soil to ask a lab to extract, before the sample is shipped.

    Parameters
    ----------
    level : float
        The level that matters, from a lab or a table [J2 per 100 cm3, > 0].
    n_cores : int
        Cores mixed in the sample [cores, >= 1].
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Ask
        Never less than the judged least volume.

    Notes
    -----
    Very sensitive vegetables may suffer below 5 per 100 cm3; where that needs more soil than
    a lab takes, a pot test of two litres finds more.

    References
    ----------
    negative_binomial, stirling_2025
    """
    k = pooled_k(n_cores, judged(table, "soil_cores_clumping_k"))
    least = judged(table, "soil_least_volume_cm3")
    middling = volume_to_ask(level, judged(table, "assay_efficiency_middle"), k)
    poor = volume_to_ask(level, judged(table, "assay_efficiency_low"), k)
    return Ask(max(least, middling), max(least, poor), poor > least)
