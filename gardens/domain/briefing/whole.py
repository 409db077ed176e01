"""What the beds say together: where to work last.

Not for a bed alone, nor for entries that could not be read.
"""

from collections.abc import Sequence
from datetime import date

from gardens.domain.bed_order import Order, Rated, bed_order
from gardens.domain.briefing.lines import Because, Line, Teller
from gardens.domain.briefing.roots import Seen, ends_shown
from gardens.domain.judgements import judged
from gardens.domain.said import Said, together

SCALE = "pct10"
MOST_NAMED = 3


def whole_lines(checked: Sequence[tuple[str, Seen]], teller: Teller) -> list[Line]:
    """Say which beds to work in last.

    Parameters
    ----------
    checked : sequence of (str, Seen)
        Name and newest check of each bed that has one.
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        One line, or none where no bed can be told from another.
    """
    rated = [one for name, seen in checked for one in _rated(name, seen)]
    if len(rated) < 2:
        return []
    season_days = judged(teller.judgements, "briefing_season_days")
    found = bed_order(rated, season_days)
    return [_line(found, teller)] if found else []


def _rated(name: str, seen: Seen) -> list[Rated]:
    mean, ends = seen.summary.mean, ends_shown(seen)
    if seen.sure.why == "whole_bed" and mean is not None:
        ends = [mean, mean]
    if seen.scale.key != SCALE or mean is None or ends is None:
        return []
    return [Rated(name, date.fromisoformat(seen.check.on), mean, *ends)]


def _line(found: Order, teller: Teller) -> Line:
    shown = [*found.last[:MOST_NAMED], *found.before[:MOST_NAMED]]
    means = Because(f"Mean grades: {'; '.join(map(_told, shown))}.", ("our_bounded_interval",))
    unsure = [Said("beds_in_between", {"n": found.n_unsure})] if found.n_unsure else []
    said = Said("beds_worked_last", {"last": _named(found.last), "before": _named(found.before)})
    return teller.say(said, *unsure, because=[means])


def _told(bed: Rated) -> str:
    if bed.low == bed.high:
        return f"{bed.name} {bed.mean:.1f}, every plant rated"
    return f"{bed.name} {bed.mean:.1f} ({bed.low:.1f} to {bed.high:.1f})"


def _named(beds: Sequence[Rated]) -> str:
    told = [one.name for one in beds[:MOST_NAMED]]
    if len(beds) > MOST_NAMED:
        told.append(f"{len(beds) - MOST_NAMED} more")
    return together(told)
