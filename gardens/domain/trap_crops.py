"""When a trap crop must come out, and the row of daily temperatures that says so.

Not for deciding whether to grow one: a trap crop left past its day multiplies nematodes.
"""

import datetime
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from gardens.domain.errors import DomainError
from gardens.domain.heat import HeatSum, Reached, day_after, days_until, when_reached
from gardens.domain.judgements import Table, judged

MOST_DAYS = 3660


@dataclass(frozen=True)
class LiftBy:
    """The latest day to lift a trap crop with all its roots, and what set it.

    ``limit`` is ``"heat"`` or ``"longest_days"``; ``by_source`` holds when the first eggs are
    laid by each published pair, earliest first, so that disagreement shows.
    """

    lift_on: str
    n_days: int
    limit: str
    by_source: tuple[Reached, ...]


def daily_from_monthly(
    monthly_celsius: Sequence[float], from_on: str, n_days: int
) -> tuple[float, ...]:
    """A row of daily temperatures from twelve monthly means.

    Parameters
    ----------
    monthly_celsius : sequence of float
        Twelve mean soil temperatures, January first [degrees C, -10..60].
    from_on : str
        First day, ``YYYY-MM-DD``.
    n_days : int
        How many days [d, 0..3660].

    Returns
    -------
    tuple of float
        One temperature a day [degrees C].

    Raises
    ------
    DomainError
        ``not_twelve_months`` or ``too_many_days``.

    Notes
    -----
    Every day of a month counts as the month's mean: plain, and the mean stays what it was.

    Examples
    --------
    >>> months = [5, 6, 9, 13, 17, 21, 24, 24, 20, 15, 9, 6]
    >>> daily_from_monthly(months, "2031-05-30", 4)
    (17, 17, 21, 21)
    """
    if len(monthly_celsius) != 12:
        raise DomainError("not_twelve_months", count=len(monthly_celsius))
    if not 0 <= n_days <= MOST_DAYS:
        raise DomainError("too_many_days", n_days=n_days, max=MOST_DAYS)
    first = datetime.date.fromisoformat(from_on)
    days = (first + datetime.timedelta(days=ahead) for ahead in range(n_days))
    return tuple(monthly_celsius[day.month - 1] for day in days)


def lift_trap_crop_by(
    heat_sums: Iterable[HeatSum], daily_celsius: Sequence[float], planted_on: str, judgements: Table
) -> LiftBy:
    """The latest day to lift a trap crop, before what it caught lays eggs.

    Parameters
    ----------
    heat_sums : iterable of HeatSum
        Any number of pairs; only those to egg-laying are used. Give all species that may be
        in the bed: the fastest sets the day.
    daily_celsius : sequence of float
        Mean soil temperature of each day from planting on [degrees C, -10..60]; at least as
        many as the longest time tried.
    planted_on : str
        Day the crop is sown or set out, ``YYYY-MM-DD``: some may enter a root that day.
    judgements : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    LiftBy
        The earlier of the heat and the longest time tried in the field.

    Raises
    ------
    DomainError
        ``too_few_days``.

    Notes
    -----
    Only a share of the sum is waited for (a judgement): hosts differ, soil is warmer near the
    top, and 6 to 10 % of roots in beds already had eggs on days 30 to 32. A trap crop left
    past its day multiplies nematodes.

    References
    ----------
    cuadra_2000_trap_crops, davila_negron_okra, gine_2021_bean

    Examples
    --------
    >>> from gardens.domain.heat import HeatSum
    >>> table = {"heat_top_celsius": {"value": 32, "range": [28, 35]},
    ...     "trap_lift_share": {"value": 0.8, "range": [0.5, 1]},
    ...     "trap_longest_days": {"value": 30, "range": [14, 42]}}
    >>> okra = HeatSum("o", "Mi", "to_egg_laying", 9.8, 300, "okra", "davila", False)
    >>> found = lift_trap_crop_by([okra], [25.0] * 60, "2031-06-01", table)
    >>> found.lift_on, found.n_days, found.limit
    ('2031-06-16', 15, 'heat')
    """
    top, share = judged(judgements, "heat_top_celsius"), judged(judgements, "trap_lift_share")
    longest = int(judged(judgements, "trap_longest_days"))
    if len(daily_celsius) < longest:
        raise DomainError("too_few_days", n_days=len(daily_celsius), min=longest)
    pairs = [each for each in heat_sums if each.span == "to_egg_laying"]
    filling = [
        days_until(daily_celsius, each.base_celsius, share * each.degree_days, top)
        for each in pairs
    ]
    n_days = min([longest, *(days - 1 for days in filling if days is not None)])
    return LiftBy(
        lift_on=day_after(planted_on, n_days),
        n_days=n_days,
        limit="heat" if n_days < longest else "longest_days",
        by_source=when_reached(pairs, daily_celsius, planted_on, top),
    )
