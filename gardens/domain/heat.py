"""The heat clock: how long a nematode needs in warm soil.

Not for mixing: a base temperature and its sum of degree-days come from one paper and stay
together. Holds where warmth is what limits the nematode; dry soil and a bad host slow it.
"""

import datetime
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class HeatSum:
    """One published pair of base [degrees C] and sum [degree-days], and what it spans.

    ``span`` is ``"to_egg_laying"``, ``"egg_to_juvenile"`` or ``"generation"``; ``species`` a
    short name such as ``"Mi"``.
    """

    key: str
    species: str
    span: str
    base_celsius: float
    degree_days: float
    host: str
    source: str | None
    from_memory: bool


@dataclass(frozen=True)
class Reached:
    """When one sum is full: the day, how many days that took, and by which published pair."""

    heat_sum: HeatSum
    reached_on: str
    n_days: int


def read_heat_sums(table: Iterable[Mapping[str, object]]) -> tuple[HeatSum, ...]:
    """The published pairs of the table.

    Parameters
    ----------
    table : iterable of Mapping
        Content of ``fixtures/heat_sums.json``.

    Returns
    -------
    tuple of HeatSum
        One for each row, in the order of the table.
    """
    return tuple(
        HeatSum(
            key=str(row["key"]),
            species=str(row["species"]),
            span=str(row["span"]),
            base_celsius=_number(row["base_celsius"]),
            degree_days=_number(row["degree_days"]),
            host=str(row["host"]),
            source=None if row["source"] is None else str(row["source"]),
            from_memory=bool(row["from_memory"]),
        )
        for row in table
    )


def _number(value: object) -> float:
    assert isinstance(value, int | float)
    return float(value)


def days_at(heat_sum: HeatSum, soil_temperature_celsius: float) -> float | None:
    """Days one sum takes in soil of a steady temperature.

    Parameters
    ----------
    heat_sum : HeatSum
        A published pair.
    soil_temperature_celsius : float
        [degrees C, -10..60]; straight only up to about 30.

    Returns
    -------
    float or None
        [d, > 0]; None at or below the base, where it never comes to an end.

    References
    ----------
    gine_2021_bean, uc_degree_days

    Examples
    --------
    *M. incognita* on bean, a whole cycle, at 20, 25 and 30 degrees:

    >>> bean = HeatSum("b", "Mi", "generation", 11.1, 476, "bean", "gine_2021_bean", False)
    >>> [round(days_at(bean, t), 1) for t in (20, 25, 30)]
    [53.5, 34.2, 25.2]
    """
    above = soil_temperature_celsius - heat_sum.base_celsius
    return heat_sum.degree_days / above if above > 0 else None


def degree_days(
    daily_celsius: Iterable[float], base_celsius: float, top_celsius: float = math.inf
) -> float:
    """Degree-days of a row of daily mean temperatures.

    Parameters
    ----------
    daily_celsius : iterable of float
        Mean soil temperature of each day, any number of days [degrees C, -10..60].
    base_celsius : float
        Below it nothing is gained [degrees C].
    top_celsius : float
        Above it no more is gained [degrees C, above the base].

    Returns
    -------
    float
        [degree-days, >= 0]

    References
    ----------
    mcsorley_frederick_1995

    Examples
    --------
    >>> round(degree_days([26.65] * 62, 10))
    1032
    """
    gained = (min(each, top_celsius) - base_celsius for each in daily_celsius)
    return math.fsum(max(0.0, each) for each in gained)


def days_until(
    daily_celsius: Sequence[float],
    base_celsius: float,
    wanted_degree_days: float,
    top_celsius: float = math.inf,
) -> int | None:
    """Days until a sum of degree-days is full.

    Parameters
    ----------
    daily_celsius : sequence of float
        Mean soil temperature of each day from the first on, any number [degrees C, -10..60].
    base_celsius : float
        [degrees C]
    wanted_degree_days : float
        [degree-days, >= 0]
    top_celsius : float
        Above it no more is gained [degrees C, above the base].

    Returns
    -------
    int or None
        Whole days, the one on which it fills included [d, >= 0]; None when the row of days
        ends first.

    Examples
    --------
    >>> days_until([20.0] * 90, 10, 600), days_until([20.0] * 59, 10, 600)
    (60, None)
    """
    left = wanted_degree_days
    for n_days, each in enumerate(daily_celsius, start=1):
        left -= max(0.0, min(each, top_celsius) - base_celsius)
        if left <= 1e-9:
            return n_days
    return None


def degree_days_of_hours(degree_hours: float) -> float:
    """Degree-hours as degree-days.

    Parameters
    ----------
    degree_hours : float
        [degree-hours, any]

    Returns
    -------
    float
        [degree-days]

    References
    ----------
    vrain_1978_threshold

    Examples
    --------
    >>> round(degree_days_of_hours(8500), 1), degree_days_of_hours(11250)
    (354.2, 468.75)
    """
    return degree_hours / 24


def when_reached(
    heat_sums: Iterable[HeatSum], daily_celsius: Sequence[float], from_on: str, top_celsius: float
) -> tuple[Reached, ...]:
    """The day each published sum is full, earliest first.

    Parameters
    ----------
    heat_sums : iterable of HeatSum
        Any number of pairs, for one span.
    daily_celsius : sequence of float
        Mean soil temperature of each day from ``from_on`` on, any number [degrees C, -10..60].
    from_on : str
        The first day counted, ``YYYY-MM-DD``.
    top_celsius : float
        Above it no more is gained [degrees C]; a judgement.

    Returns
    -------
    tuple of Reached
        Without those that are not full when the row of days ends.

    Examples
    --------
    >>> pair = HeatSum("u", "Mi", "generation", 10, 600, "", "uc_degree_days", False)
    >>> [(r.reached_on, r.n_days) for r in when_reached([pair], [20.0] * 90, "2031-06-01", 32)]
    [('2031-07-30', 60)]
    """
    found = []
    for each in heat_sums:
        n_days = days_until(daily_celsius, each.base_celsius, each.degree_days, top_celsius)
        if n_days is not None:
            found.append(Reached(each, day_after(from_on, max(0, n_days - 1)), n_days))
    return tuple(sorted(found, key=lambda one: (one.n_days, one.heat_sum.key)))


def day_after(from_on: str, n_days: int) -> str:
    """The day some days after a day.

    Parameters
    ----------
    from_on : str
        ``YYYY-MM-DD``
    n_days : int
        [d, any]

    Returns
    -------
    str
        ``YYYY-MM-DD``

    Examples
    --------
    >>> day_after("2032-02-28", 2)
    '2032-03-01'
    """
    first = datetime.date.fromisoformat(from_on)
    return (first + datetime.timedelta(days=n_days)).isoformat()
