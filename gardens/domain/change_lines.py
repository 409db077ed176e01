"""What to say about a change between two checks, in lines.

Not for deciding it: that is the verdict.
"""

import statistics

from gardens.domain.change import Side, Verdict, falling_seasons, one_in_by_chance
from gardens.domain.difference import Estimate
from gardens.domain.judgements import Table, judged
from gardens.domain.said import Said, shown, shown_high, shown_low

ENOUGH_TO_SEE = 8
ABOUT_AT_MOST = 9


def change_lines(
    found: Verdict, bias_difference: float | None = None, beyond: Estimate | None = None
) -> tuple[Said, ...]:
    """Lines for a verdict: what changed, how surely, and what else changed.

    Parameters
    ----------
    found : Verdict
        On two checks of one bed.
    bias_difference : float or None
        As given to the verdict [grades].
    beyond : Estimate or None
        How much more the treated bed fell than an untreated one [the scale]; None when there
        was no untreated bed.

    Returns
    -------
    tuple of Said
        One to four, the verdict first.
    """
    lines = [_verdict_line(found)]
    if found.code in ("clear", "points_that_way") and found.lower:
        lines.append(_chance_line(found.direction, found.lower.value))
    if found.withheld:
        bias = {} if bias_difference is None else {"bias": shown(abs(bias_difference))}
        lines.append(Said(f"change_{found.withheld}", bias))
    if found.code == "cannot_tell" and _fewer(found) < ENOUGH_TO_SEE:
        lines.append(Said("change_dig_eight"))
    if found.code in ("too_few", "picked"):
        return tuple(lines)
    return (*lines, beyond_line(beyond) if beyond else Said("change_no_comparison"))


def _fewer(found: Verdict) -> int:
    return min(len(found.before.grades), len(found.after.grades))


def _verdict_line(found: Verdict) -> Said:
    if found.code == "too_few":
        listed = {"before": _listed(found.before), "after": _listed(found.after)}
        return Said("change_too_few", listed)
    params: dict[str, object] = {
        "n_before": len(found.before.grades),
        "n_after": len(found.after.grades),
        "mean_before": _mean(found.before),
        "mean_after": _mean(found.after),
    }
    if found.code == "picked":
        return Said("change_picked", params)
    if found.drop:
        params |= _turned(found.drop, found.direction)
    if found.chance:
        params["one_in"] = round(1 / found.chance)
    return Said(f"change_{found.code}_{found.direction}", params)


def _listed(side: Side) -> str:
    return ", ".join(f"{grade:g}" for grade in side.grades) or "–"


def _mean(side: Side) -> float | None:
    return shown(statistics.fmean(side.grades)) if side.grades else None


def _turned(drop: Estimate, direction: str) -> dict[str, object]:
    """Size of the change and its ends, so that a rise is told in numbers above 0."""
    if direction == "rose":
        drop = Estimate(-drop.value, -drop.high, -drop.low)
    ends = {"low": shown_low(drop.low), "high": shown_high(drop.high)}
    return {"size": shown(drop.value), "other_way": shown_high(max(0.0, -drop.low)), **ends}


def _chance_line(direction: str, lower: float) -> Said:
    share, way = (1 - lower, "higher") if direction == "rose" else (lower, "lower")
    times = round(10 * share)
    if times > ABOUT_AT_MOST:
        return Said(f"change_{way}_nearly_always")
    return Said(f"change_{way}_about", {"times": times})


def beyond_line(beyond: Estimate, is_withheld: bool = False) -> Said:
    """Said about a treated bed beside one left as it was.

    Parameters
    ----------
    beyond : Estimate
        How much more the treated bed fell [the scale, -20..20].
    is_withheld : bool
        Whether something stands in the way of calling it settled.

    Returns
    -------
    Said
        Told as better or worse, so that a bed that rose less is not said to have fallen.
    """
    leaves_out_0 = beyond.low > 0 or beyond.high < 0
    settled = "not_settled"
    if leaves_out_0:
        settled = "withheld" if is_withheld else "settled"
    way = "more" if beyond.value >= 0 else "less"
    params = _turned(beyond, "fell" if way == "more" else "rose")
    return Said(f"change_beyond_{way}_{settled}", params)


def season_line(means: list[float], table: Table) -> Said | None:
    """A line about many falling seasons.

    Parameters
    ----------
    means : list of float
        Mean grade of each season, oldest first, any number [one scale].
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Said or None
        None before enough seasons have fallen one after the other.
    """
    n = falling_seasons(means)
    if n < judged(table, "seasons_least"):
        return None
    return Said("change_seasons_fell", {"n": n, "one_in": one_in_by_chance(n)})
