"""How many plants to dig for a mean that is sure enough.

Not for soil cores: counts in soil vary in another way than grades do.
"""

import math
import statistics
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from gardens.domain.bounded import interval_at, spread_of
from gardens.domain.judgements import Table, judged
from gardens.domain.student import t_quantile

SURE = 0.975
MOST_PLANTS = 100_000


@dataclass(frozen=True)
class More:
    """How many more plants to dig.

    ``code`` is ``"too_early"``, ``"enough"`` or ``"dig_more"``; ``n_more`` and ``n_in_total``
    [plants, >= 0] are about right, no more: they are worked out again after every plant.
    """

    code: str
    n_more: int = 0
    n_in_total: int = 0


def plants_needed(grades: Sequence[float], half_width: float, n_plants: int | None = None) -> int:
    """Plants to dig in total until the interval of the mean is narrow enough.

    Parameters
    ----------
    grades : sequence of float
        Grades seen so far, two or more [one scale, 0..10].
    half_width : float
        Half the width the interval should have [same scale, above 0 and up to 5].
    n_plants : int or None
        Plants that stood in the bed [1, >= number seen]; None when nobody counted.

    Returns
    -------
    int
        [plants, 3..n_plants]

    Notes
    -----
    As if later plants had the mean and the spread of those seen. It is asked after every
    plant, and is only about right.

    References
    ----------
    our_bounded_interval

    Examples
    --------
    >>> plants_needed([0, 1, 1, 2, 3, 5], 1), plants_needed([0, 1, 1, 2, 3, 5], 1, 14)
    (13, 8)
    """
    mean, spread = statistics.fmean(grades), spread_of(grades)
    most = MOST_PLANTS if n_plants is None else n_plants

    def is_enough(n: int) -> bool:
        ends = interval_at(mean, spread, n, n_plants)
        return ends is None or (ends[1] - ends[0]) / 2 <= half_width

    return _first(3, most, is_enough)


def plants_for_spread(sd: float, half_width: float, n_plants: int | None = None) -> int:
    """Plants to plan for when nothing has been dug yet, from a guessed spread.

    Parameters
    ----------
    sd : float
        Guessed standard deviation of the grades [one scale, 0..5].
    half_width : float
        Half the width the interval should have [same scale, above 0].
    n_plants : int or None
        Plants that stand in the bed [1, >= 2]; None when nobody counted.

    Returns
    -------
    int
        [plants, 2..n_plants]

    Notes
    -----
    The classical t interval, for planning only.

    Examples
    --------
    >>> [plants_for_spread(sd, 1) for sd in (0.5, 1, 1.5, 2)]
    [4, 7, 12, 18]
    """
    most = MOST_PLANTS if n_plants is None else n_plants

    def is_enough(n: int) -> bool:
        left = 1.0 if n_plants is None else (n_plants - n) / n_plants
        return t_quantile(SURE, n - 1) * sd * math.sqrt(left / n) <= half_width

    return _first(2, most, is_enough)


def _first(least: int, most: int, is_enough: Callable[[int], bool]) -> int:
    """First number that is enough, where every larger one is too; ``most`` if none is."""
    low, high = least, min(2 * least, most)
    while high < most and not is_enough(high):
        low, high = high + 1, min(2 * high, most)
    while low < high:
        middle = (low + high) // 2
        if is_enough(middle):
            high = middle
        else:
            low = middle + 1
    return min(low, most)


def more_plants(grades: Sequence[float], table: Table, n_plants: int | None = None) -> More:
    """What to tell somebody who stands in the bed: dig more, or that is enough.

    Parameters
    ----------
    grades : sequence of float
        Grades seen so far, any number [one scale, 0..10].
    table : Mapping
        Content of ``fixtures/judgements.json``.
    n_plants : int or None
        Plants that stood in the bed [1, >= number seen]; None when nobody counted.

    Returns
    -------
    More
        No advice before a few plants are dug.

    References
    ----------
    our_bounded_interval
    """
    n = len(grades)
    if n_plants is not None and n >= n_plants:
        return More("enough", 0, n)
    if n < judged(table, "check_first_advice_plants"):
        return More("too_early")
    total = plants_needed(grades, judged(table, "check_target_half_width"), n_plants)
    return More("dig_more", total - n, total) if total > n else More("enough", 0, n)
