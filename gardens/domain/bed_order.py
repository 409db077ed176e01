"""Which beds to work in last, because their roots were galled more than those of the others.

Not for how many nematodes a bed holds: a crop that galls little can hide many.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta


@dataclass(frozen=True)
class Rated:
    """A bed by its newest root check: mean grade and the ends of its interval [pct10, 0..10].

    ``low`` and ``high`` are the mean itself where the whole bed was rated.
    """

    name: str
    on: date
    mean: float
    low: float
    high: float


@dataclass(frozen=True)
class Order:
    """Beds to work in ``last``, most galled first, and those to work in ``before``.

    ``n_unsure`` are beds that cannot be told from both [beds, >= 0].
    """

    last: tuple[Rated, ...]
    before: tuple[Rated, ...]
    n_unsure: int


def bed_order(beds: Sequence[Rated], season_days: float) -> Order | None:
    """Part the more galled beds of a garden from the less galled.

    Parameters
    ----------
    beds : sequence of Rated
        Any number, in any order.
    season_days : float
        How far before the newest check another one still counts [days, above 0].

    Returns
    -------
    Order or None
        Only beds whose intervals lie apart; None when no two do.

    Notes
    -----
    Intervals that lie apart are a stricter demand than a test of the difference. Other crops
    and other days are set beside each other, which is good enough to choose where to go first
    and for nothing else.

    References
    ----------
    our_bounded_interval

    Examples
    --------
    >>> day = date(2031, 8, 3)
    >>> found = bed_order([Rated("A", day, 1, 0.4, 2), Rated("B", day, 5, 4, 6)], 300)
    >>> [one.name for one in found.last], [one.name for one in found.before]
    (['B'], ['A'])
    """
    newest = max((one.on for one in beds), default=date.min)
    counted = [one for one in beds if newest - one.on <= timedelta(days=season_days)]
    ranked = sorted(counted, key=lambda one: (-one.mean, one.name))
    before = tuple(one for one in ranked if one.high < ranked[0].low)
    if not before:
        return None
    line = max(one.high for one in before)
    last = tuple(one for one in ranked if one.low > line)
    return Order(last, before, len(ranked) - len(last) - len(before))
