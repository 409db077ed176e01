"""All that is due in a garden, day by day, for the calendar.

The same thing keeps its ``uid`` while its day moves. Not for making the lines: they were made
where their subject is.
"""

from collections.abc import Iterable, Sequence
from datetime import date

from gardens.domain.briefing.bags import Bag
from gardens.domain.briefing.gathered import Bed
from gardens.domain.briefing.lab_days import Setting
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.briefing.pots import Pots, ready_days
from gardens.domain.briefing.reports import Report
from gardens.domain.briefing.samples import best_days
from gardens.domain.briefing.timeline import overdue

Due = dict[str, object]


def due_of_bed(
    bed: Bed,
    bags: Sequence[Bag],
    reports: Sequence[Report],
    pots: Sequence[Pots],
    setting: Setting,
    teller: Teller,
) -> list[Due]:
    """What is due for one bed beside the lines of the bed itself.

    Parameters
    ----------
    bed : Bed
        The bed.
    bags : sequence of Bag
        Its samples.
    reports : sequence of Report
        Its reports.
    pots : sequence of Pots
        Its pot tests.
    setting : Setting
        The labs, the clock, the day and the holidays.
    teller : Teller
        Makes the sentences.

    Returns
    -------
    list of dict
        By day.
    """
    found = [one for bag in bags for one in _of_bag(bed, bag, reports, setting, teller)]
    found += [_of_pots(bed, one, teller) for one in pots if one.check is None]
    return sorted(found, key=_order)


def due_lines(bed: Bed, lines: Iterable[Line]) -> list[Due]:
    """Lines of a bed that have a day, as things due.

    Parameters
    ----------
    bed : Bed
        The bed.
    lines : iterable of Line
        Those that are not about a sample: samples have days of their own.

    Returns
    -------
    list of dict
        One for each line with a day.
    """
    dated = [one for one in lines if one["by"] is not None and one["about"] != "sample"]
    return [_due(f"{bed.id}-{one['code']}", str(one["by"]), None, bed, one) for one in dated]


def _of_bag(
    bed: Bed, bag: Bag, reports: Sequence[Report], setting: Setting, teller: Teller
) -> list[Due]:
    own = [one for one in reports if one.bag.id == bag.id]
    late = overdue(bag, own, teller)
    if late is not None:
        return [_due(f"{bag.id}-overdue", late[0].isoformat(), None, bed, late[1])]
    if own or bag.sent_on is not None or bag.arrived_on is not None:
        return []
    best = best_days(bag, setting, teller)
    if not best:
        return []
    code = "due_lift_and_send" if bag.lifted_on is None else "due_send"
    lab = str(bag.lab["name"]) if bag.lab else ""
    line = teller.line(code, bag=bag.code, bed=bed.doc["name"], lab=lab)
    return [_due(f"{bag.id}-send", best[0].ship_on, None, bed, line)]


def _of_pots(bed: Bed, pots: Pots, teller: Teller) -> Due:
    first, last = ready_days(pots, teller)
    line = teller.line("due_wash_pots", bed=bed.doc["name"], crop=pots.planting.doc["crop"])
    return _due(f"{pots.planting.id}-pots", first.isoformat(), last, bed, line)


def _due(uid: str, on: str, until: date | None, bed: Bed, line: Line) -> Due:
    return {
        "uid": uid,
        "on": on,
        "until_on": None if until is None else until.isoformat(),
        "bed": bed.id,
        "about": line["about"],
        "code": line["code"],
        "words": line["words"],
    }


def _order(one: Due) -> tuple[str, str]:
    return str(one["on"]), str(one["uid"])
