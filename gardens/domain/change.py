"""Did it work: one bed before and after, alone or beside a bed left as it was.

Not for counts of nematodes in soil: their ratio is a matter of efficacy.
"""

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from gardens.domain.bounded import mean_interval
from gardens.domain.difference import Estimate, apart, chance_of_lower, interval_of
from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged
from gardens.domain.ranks import exact_rank_test

LEAST_PLANTS = 3


@dataclass(frozen=True)
class Side:
    """One root check to be compared: a grade per plant, and how the plants were chosen.

    ``n_plants`` stood in the bed [plants, None when nobody counted]; ``rater`` is the name
    written down, ``""`` when none was.
    """

    grades: tuple[float, ...]
    gall_scale: str
    how: str = "random"
    n_plants: int | None = None
    rater: str = ""


@dataclass(frozen=True)
class Verdict:
    """What two checks of a bed say about the change between them.

    ``code`` is ``"too_few"``, ``"picked"``, ``"few_parted"`` or ``"few_mixed"`` (three or four
    plants), ``"cannot_tell"``, ``"points_that_way"`` or ``"clear"``; ``direction`` is
    ``"fell"``, ``"rose"`` or ``"same"``. ``withheld`` tells why "clear" is not said:
    ``"raters_differ"``, ``"raters_unknown"`` or None.
    """

    code: str
    direction: str
    before: Side
    after: Side
    drop: Estimate | None = None
    lower: Estimate | None = None
    chance: float | None = None
    withheld: str | None = None


def mean_drop(before: Side, after: Side) -> Estimate | None:
    """How far the mean grade fell from one check to the next.

    Parameters
    ----------
    before, after : Side
        Two checks on one scale.

    Returns
    -------
    Estimate or None
        Before minus after [the scale, -10..10]; None when a check has fewer than three plants.

    Raises
    ------
    DomainError
        ``scales_differ``.

    References
    ----------
    our_bounded_interval, newcombe_1998_difference, zou_donner_2008

    Examples
    --------
    >>> found = mean_drop(Side((8, 7, 9), "pct10"), Side((2, 0, 3), "pct10"))
    >>> round(found.value, 4), round(found.low, 4), round(found.high, 4)
    (6.3333, 1.2143, 8.2881)
    """
    if before.gall_scale != after.gall_scale:
        raise DomainError(
            "scales_differ", gall_scales=sorted({before.gall_scale, after.gall_scale})
        )
    if min(len(before.grades), len(after.grades)) < LEAST_PLANTS:
        return None
    return apart(_mean(before), _mean(after))


def _mean(side: Side) -> Estimate:
    ends = mean_interval(side.grades, side.n_plants)
    return interval_of(ends, statistics.fmean(side.grades))


def beyond_untreated(treated: tuple[Side, Side], untreated: tuple[Side, Side]) -> Estimate | None:
    """How much more the treated bed fell than the bed left as it was.

    Parameters
    ----------
    treated, untreated : (Side, Side)
        Before and after of each bed, all on one scale.

    Returns
    -------
    Estimate or None
        [the scale, -20..20]; None when a check has fewer than three plants.

    Raises
    ------
    DomainError
        ``scales_differ``.

    Notes
    -----
    With few plants it usually says nothing sure. It speaks about these two beds only: plants of
    one bed share everything else.

    References
    ----------
    zou_donner_2008
    """
    if treated[0].gall_scale != untreated[0].gall_scale:
        scales = sorted({treated[0].gall_scale, untreated[0].gall_scale})
        raise DomainError("scales_differ", gall_scales=scales)
    fell, fell_anyway = mean_drop(*treated), mean_drop(*untreated)
    return apart(fell, fell_anyway) if fell and fell_anyway else None


def verdict(
    before: Side, after: Side, table: Table, bias_difference: float | None = None
) -> Verdict:
    """What may be said about the change between two checks.

    Parameters
    ----------
    before, after : Side
        Two checks on one scale.
    table : Mapping
        Content of ``fixtures/judgements.json``.
    bias_difference : float or None
        How much higher the second rater rates than the first, from practice photos [grades];
        None when nobody measured it. Only asked for when two raters are named.

    Returns
    -------
    Verdict
        "Clear" only when the interval of the drop leaves out 0 and the exact rank test agrees.

    Raises
    ------
    DomainError
        ``scales_differ``.

    Notes
    -----
    With three and three plants the smallest exact chance there is is 1 in 10, so nothing can
    be clear. Weather, crop and date change too; only an untreated bed shows how much.

    References
    ----------
    mann_whitney_1947, newcombe_2006, zou_donner_2008
    """
    drop = mean_drop(before, after)
    test = exact_rank_test(before.grades, after.grades)
    direction = _direction(before, after)
    if "worst_looking" in (before.how, after.how):
        return Verdict("picked", direction, before, after)
    if drop is None or test is None:
        return Verdict("too_few", direction, before, after)
    lower = chance_of_lower(before.grades, after.grades)
    code, withheld = _code(before, after, drop, test.chance, table), None
    if code == "clear":
        withheld = _withheld(before, after, drop, bias_difference)
        code = "points_that_way" if withheld else "clear"
    return Verdict(code, direction, before, after, drop, lower, test.chance, withheld)


def _direction(before: Side, after: Side) -> str:
    if not before.grades or not after.grades:
        return "same"
    change = statistics.fmean(after.grades) - statistics.fmean(before.grades)
    return "same" if change == 0 else "fell" if change < 0 else "rose"


def _code(before: Side, after: Side, drop: Estimate, chance: float, table: Table) -> str:
    if min(len(before.grades), len(after.grades)) < judged(table, "verdict_least_plants"):
        is_parted = min(before.grades) > max(after.grades) or min(after.grades) > max(before.grades)
        return "few_parted" if is_parted else "few_mixed"
    leaves_out_0 = drop.low > 0 or drop.high < 0
    is_rare = chance <= judged(table, "verdict_most_chance")
    if leaves_out_0 and is_rare:
        return "clear"
    return "points_that_way" if leaves_out_0 or is_rare else "cannot_tell"


def _withheld(before: Side, after: Side, drop: Estimate, bias: float | None) -> str | None:
    if not before.rater or not after.rater or before.rater == after.rater:
        return None
    if bias is None:
        return "raters_unknown"
    return "raters_differ" if abs(bias) > abs(drop.value) / 2 else None


def one_in_by_chance(n_seasons: int) -> int:
    """One in how many: chance alone lets the means of so many seasons fall every time.

    Parameters
    ----------
    n_seasons : int
        Seasons, each lower than the one before [1, >= 1].

    Returns
    -------
    int
        [1, >= 1]

    Examples
    --------
    >>> one_in_by_chance(4)
    24
    """
    return math.factorial(n_seasons)


def falling_seasons(means: Sequence[float]) -> int:
    """Seasons at the end of a bed's record in which the mean fell every time.

    Parameters
    ----------
    means : sequence of float
        Mean grade of each season, oldest first, any number [one scale].

    Returns
    -------
    int
        [seasons, 0..number given]; a single season counts as 1.

    Notes
    -----
    Four falling seasons happen by chance 1 time in 24, so a trend is not spoken of before
    five.

    Examples
    --------
    >>> falling_seasons([3, 6, 5, 2])
    3
    """
    run = 0
    for earlier, later in zip([math.inf, *means], means, strict=False):
        run = run + 1 if later < earlier else 1
    return run
