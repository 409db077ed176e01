"""What changed between the two newest checks of a bed, and how sure that is.

Not for saying what changed it: weather, crop and day changed too.
"""

from collections.abc import Mapping, Sequence
from datetime import date

from gardens.domain.briefing import remembered
from gardens.domain.briefing.gathered import Check
from gardens.domain.briefing.lines import Because, Line, Teller
from gardens.domain.briefing.roots import Seen, look
from gardens.domain.change import Side, Verdict

_EITHER_WAY = ("few_parted", "points_that_way", "clear")


def change_lines(
    checks: Sequence[Check], newest: Seen, tables: Mapping[str, object], teller: Teller
) -> list[Line]:
    """Compare the newest check with the one before it.

    Parameters
    ----------
    checks : sequence of Check
        Of one bed, by day.
    newest : Seen
        The newest with a rating.
    tables : Mapping
        Content of every table of ``fixtures`` by the stem of its name.
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        One line, or none when there is nothing to compare.
    """
    if not newest.summary.n_rated:
        return []
    for check in reversed(checks):
        if check.on < newest.check.on and check.ratings:
            earlier = look(check, tables)
            if earlier.summary.n_rated:
                return [_line(earlier, newest, teller)]
    return []


def _line(before: Seen, after: Seen, teller: Teller) -> Line:
    days = {"before_on": _day(before), "after_on": _day(after)}
    if before.scale.key != after.scale.key:
        names = {"before_scale": before.scale.name, "after_scale": after.scale.name}
        return teller.line("change_scales_differ", **days, **names)
    found = remembered.verdict(_side(before), _side(after), teller.rules)
    code = f"change_{found.code}"
    if found.code in _EITHER_WAY:
        code += "_rose" if found.direction == "rose" else "_fell"
    return teller.line(
        code,
        because=_crops(before, after, teller) + _raters(found, teller),
        **days,
        **_numbers(found),
        n_before=before.summary.n_rated,
        n_after=after.summary.n_rated,
        mean_before=before.summary.mean,
        mean_after=after.summary.mean,
    )


def _numbers(found: Verdict) -> dict[str, object]:
    """How far the mean moved and between what, said as a fall or as a rise [grades]."""
    drop = found.drop
    if drop is None:
        return {}
    rise = found.direction == "rose"
    value, low, high = (-drop.value, -drop.high, -drop.low) if rise else (
        drop.value,
        drop.low,
        drop.high,
    )
    lower = found.lower.value if found.lower else 0.5
    of_ten = round(10 * (1 - lower if rise else lower))
    return {
        "moved": value,
        "least": low,
        "most": high,
        "most_fall": max(0.0, drop.high),
        "most_rise": max(0.0, -drop.low),
        "of_ten": of_ten,
    }


def _crops(before: Seen, after: Seen, teller: Teller) -> list[Because]:
    crops = {str(one.check.planting.doc["crop"]).strip().lower() for one in (before, after)}
    return teller.reasons("crops_differ") if len(crops) > 1 else []


def _raters(found: Verdict, teller: Teller) -> list[Because]:
    return teller.reasons(found.withheld) if found.withheld else []


def _side(seen: Seen) -> Side:
    return Side(
        grades=tuple(sorted(one.grade for one in seen.plants)),
        gall_scale=seen.scale.key,
        how=seen.how,
        n_plants=seen.n_stood,
        rater=str(seen.check.doc["rater"]).strip(),
    )


def _day(seen: Seen) -> date:
    return date.fromisoformat(seen.check.on)
