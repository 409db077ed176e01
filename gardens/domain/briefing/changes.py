"""What changed since the check before, and season after season, and how sure that is.

Not for saying what changed it: weather, crop and day changed too.
"""

from collections.abc import Sequence
from datetime import date

from gardens.domain import change_lines as change
from gardens.domain.briefing import remembered
from gardens.domain.briefing.gathered import Check
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.briefing.roots import Seen, look
from gardens.domain.briefing.seasons import crop_of, season_lines
from gardens.domain.change import Side
from gardens.domain.said import Said


def change_lines(checks: Sequence[Check], newest: Seen, teller: Teller) -> list[Line]:
    """Compare the newest check with the one before it, and the seasons with each other.

    Parameters
    ----------
    checks : sequence of Check
        Of one bed, by day.
    newest : Seen
        The newest with a rating.
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        A line for the two checks when there are two, and one for the seasons when enough fell
        one after the other. A check of the worst-looking plants is passed over for an older
        one of plants chosen without looking.
    """
    earlier = _to_compare(checks, newest, teller) if newest.summary.n_rated else None
    lines = [_line(earlier, newest, teller)] if earlier else []
    return [*lines, *season_lines(checks, teller)]


def _to_compare(checks: Sequence[Check], newest: Seen, teller: Teller) -> Seen | None:
    picked = None
    for check in reversed(checks):
        if check.on >= newest.check.on or not check.ratings:
            continue
        seen = look(check, teller)
        if not seen.summary.n_rated:
            continue
        if seen.how != "worst_looking" or newest.how == "worst_looking":
            return seen
        picked = picked or seen
    return picked


def _line(before: Seen, after: Seen, teller: Teller) -> Line:
    if before.scale.key != after.scale.key:
        scales = {"before": before.scale.name, "after": after.scale.name}
        return teller.say(Said("change_scales_differ", {"on": _day(before), **scales}))
    if (before.how == "worst_looking") != (after.how == "worst_looking"):
        return teller.say(Said("change_one_picked", {"on": _day(before)}))
    said = change.change_lines(remembered.verdict(side(before), side(after), teller.rules))
    more = [Said("change_between", {"before": _day(before), "after": _day(after)})]
    if crop_of(before) != crop_of(after):
        more.append(Said("change_crops_differ"))
    return teller.say(said[0], *more, *said[1:])


def side(seen: Seen) -> Side:
    """A check as one side of a comparison.

    Parameters
    ----------
    seen : Seen
        A root check.

    Returns
    -------
    Side
        One grade for each rated plant [its scale, 0..10].
    """
    return Side(
        grades=tuple(sorted(one.grade for one in seen.plants)),
        gall_scale=seen.scale.key,
        how=seen.how,
        n_plants=seen.n_stood,
        rater=str(seen.check.doc["rater"]).strip(),
    )


def _day(seen: Seen) -> date:
    return date.fromisoformat(seen.check.on)
