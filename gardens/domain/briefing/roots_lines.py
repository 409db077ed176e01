"""What is said about the newest root check of a bed.

Not for the numbers themselves, nor for where in the bed the galls are.
"""

from datetime import date

from gardens.domain.briefing.gathered import Check, part
from gardens.domain.briefing.lines import Because, Line, Teller
from gardens.domain.briefing.roots import Seen, ends_shown, more_to_dig
from gardens.domain.check_lines import incidence_line, more_line
from gardens.domain.judgements import judged
from gardens.domain.look_alikes import look_alikes_noted
from gardens.domain.produce import produce_damage
from gardens.domain.scales import Scale


def roots_lines(seen: Seen, today: date, teller: Teller) -> list[Line]:
    """The lines about a check.

    Parameters
    ----------
    seen : Seen
        The check.
    today : date
        The day of the briefing.
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        The mean first, then what to do, then what to watch.
    """
    return [
        _mean_line(seen, teller),
        *_galled_lines(seen, teller),
        *_produce_lines(seen.check, teller),
        *_more_lines(seen, today, teller),
        *_watch_lines(seen, today, teller),
    ]


def _mean_line(seen: Seen, teller: Teller) -> Line:
    low, high = ends_shown(seen) or (0.0, 0.0)
    return teller.line(
        f"roots_{seen.sure.why}",
        because=[of_scale(seen.scale)] if seen.summary.n_rated else [],
        mean=seen.summary.mean,
        n=seen.summary.n_rated,
        stood=seen.n_stood or seen.n_laid_out or "an uncounted number",
        on=_day(seen.check),
        low=low,
        high=high,
    )


def of_scale(scale: Scale) -> Because:
    """Which scale a figure is on, as a reason.

    Parameters
    ----------
    scale : Scale
        The scale of a check.

    Returns
    -------
    Because
        With its source, and whether its criteria are from memory.
    """
    unsure = " Its criteria are from memory; the original was not seen." * scale.from_memory
    return Because(f"Scale: {scale.name} ({scale.term}).{unsure}", (scale.source,))


def _galled_lines(seen: Seen, teller: Teller) -> list[Line]:
    if seen.galled.code in ("none_rated", "picked"):
        return []
    return [teller.say(incidence_line(seen.galled))]


def _produce_lines(check: Check, teller: Teller) -> list[Line]:
    parts = [
        part(one.doc, "produce_damage")
        for one in check.ratings
        if one.doc["produce_damage"] is not None
    ]
    found = produce_damage(parts)
    if not found.n_examined:
        return []
    return [teller.line("produce_damaged", k=found.n_damaged, n=found.n_examined)]


def _more_lines(seen: Seen, today: date, teller: Teller) -> list[Line]:
    more = more_to_dig(seen, teller)
    if more is None or not seen.summary.n_rated:
        return []
    until = part(seen.check.planting.doc, "grown")["to_on"]
    if until is None or str(until) >= today.isoformat():
        return [teller.say(more_line(more), by=None if until is None else str(until))]
    if more.code != "dig_more":
        return []
    return [teller.line("more_next_time", n_in_total=more.n_in_total)]


def _watch_lines(seen: Seen, today: date, teller: Teller) -> list[Line]:
    lines, day = [], _day(seen.check)
    if seen.n_other_scale:
        lines.append(teller.line("other_scale_left_out", n=seen.n_other_scale))
    if seen.n_read_twice:
        lines.append(teller.line("read_twice", n=seen.n_read_twice))
    if seen.summary.n_dead or seen.summary.n_missing:
        dead, missing = seen.summary.n_dead, seen.summary.n_missing
        lines.append(teller.line("not_rated_apart", dead=dead, missing=missing))
    lines += _look_alike_lines(seen, teller)
    if day > today:
        lines.append(teller.line("dated_ahead", on=day))
    if (today - day).days > judged(teller.judgements, "briefing_old_check_days"):
        lines.append(teller.line("check_old", on=day))
    return lines


def _look_alike_lines(seen: Seen, teller: Teller) -> list[Line]:
    noted = (one.doc["look_alike"] for one in seen.check.ratings)
    keys = [str(key) for key in noted if key is not None]
    return [
        teller.line(
            "look_alike_noted",
            because=[Because(one.look_alike.tell_tale, one.look_alike.sources)],
            n=one.n_plants,
            name=one.look_alike.name,
        )
        for one in look_alikes_noted(keys, teller.rows("look_alikes"))
    ]


def _day(check: Check) -> date:
    return date.fromisoformat(check.on)
