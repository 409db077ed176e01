"""What is said about the newest root check of a bed.

Not for the numbers themselves, nor for where in the bed the galls are.
"""

import math
from collections import Counter
from datetime import date

from gardens.domain.briefing.gathered import Check, part
from gardens.domain.briefing.lines import Because, Line, Teller
from gardens.domain.briefing.roots import Seen, ends_shown, more_to_dig
from gardens.domain.judgements import judged
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
        because=[_of_scale(seen.scale)] if seen.summary.n_rated else [],
        mean=seen.summary.mean,
        n=seen.summary.n_rated,
        stood=seen.n_stood,
        on=_day(seen.check),
        low=low,
        high=high,
    )


def _of_scale(scale: Scale) -> Because:
    unsure = " Its criteria are from memory; the original was not seen." * scale.from_memory
    return Because(f"Scale: {scale.name} ({scale.term}).{unsure}", (scale.source,))


def _galled_lines(seen: Seen, teller: Teller) -> list[Line]:
    found = seen.galled
    params = {"k": found.n_galled, "n": found.n_dug, "stood": found.n_plants}
    if found.code == "whole_bed":
        return [teller.line("galled_whole_bed", **params)]
    if found.low is None or found.high is None:
        return []
    ends = {"low": math.floor(round(100 * found.low, 6)), "high": _percent_up(found.high)}
    if found.code == "some_galled":
        return [teller.line("galled_some", **params, **ends)]
    if found.at_most is None:
        return [teller.line("galled_none_of_many", **params, **ends)]
    return [teller.line("galled_none_of_few", **params, at_most=found.at_most)]


def _percent_up(share: float) -> int:
    return math.ceil(round(100 * share, 6))


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
    is_over = until is not None and str(until) < today.isoformat()
    code = f"{more.code}_next_time" if is_over and more.code != "enough" else more.code
    return [
        teller.line(
            code,
            by=None if is_over or until is None or more.code == "enough" else str(until),
            more=more.n_more,
            total=more.n_in_total,
            least=int(judged(teller.judgements, "check_first_advice_plants")),
            width=judged(teller.judgements, "check_target_half_width"),
        )
    ]


def _watch_lines(seen: Seen, today: date, teller: Teller) -> list[Line]:
    lines, day = [], _day(seen.check)
    if seen.n_other_scale:
        lines.append(teller.line("other_scale_left_out", n=seen.n_other_scale))
    if seen.n_read_twice:
        lines.append(teller.line("read_twice", n=seen.n_read_twice))
    if seen.summary.n_dead or seen.summary.n_missing:
        n = {"dead": seen.summary.n_dead, "missing": seen.summary.n_missing}
        lines.append(teller.line("not_rated_apart", **n))
    lines += _look_alike_lines(seen.check, teller)
    if day > today:
        lines.append(teller.line("dated_ahead", on=day))
    if (today - day).days > judged(teller.judgements, "briefing_old_check_days"):
        lines.append(teller.line("check_old", on=day))
    return lines


def _look_alike_lines(check: Check, teller: Teller) -> list[Line]:
    noted = Counter(str(one.doc["look_alike"]) for one in check.ratings if one.doc["look_alike"])
    return [
        teller.look_alike_line(key, n)
        for key, n in sorted(noted.items(), key=lambda one: (-one[1], one[0]))
    ]


def _day(check: Check) -> date:
    return date.fromisoformat(check.on)
