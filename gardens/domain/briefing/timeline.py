"""A bag's way step by step, how its soil fares while time passes, and when a report is overdue.

What will be true later is worked out now, with the moment it begins, so that a phone with no
signal shows the right one. Not for what the report says.
"""

from collections.abc import Sequence
from datetime import UTC, date, datetime, time, timedelta

from gardens.domain.briefing.bags import Bag, journey_for
from gardens.domain.briefing.lab_days import Setting
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.briefing.reports import Report
from gardens.domain.judgements import judged
from gardens.domain.said import Said
from gardens.domain.transit import handling

STEPS = ("lifted", "packed", "handed_over", "received", "extracted", "reported")
_HELP_OVER = {"A": "bag_help_over_a", "B": "bag_help_over_b", "C": "bag_help_over_c"}
_STEP_WORDS = {
    "lifted": "lifting",
    "packed": "packing",
    "handed_over": "handing over",
    "received": "arrival",
    "extracted": "extraction",
}


def samples_told(
    bags: Sequence[Bag], reports: Sequence[Report], setting: Setting, teller: Teller
) -> list[dict[str, object]]:
    """The samples of a bed as they travel.

    Parameters
    ----------
    bags : sequence of Bag
        Of one bed, by the moment of lifting.
    reports : sequence of Report
        Of one bed, by day.
    setting : Setting
        The clock and the labs.
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of dict
        One for each bag.
    """
    return [_told(bag, reports, setting, teller) for bag in bags]


def _told(
    bag: Bag, reports: Sequence[Report], setting: Setting, teller: Teller
) -> dict[str, object]:
    own = [one for one in reports if one.bag.id == bag.id]
    reached = _moments(bag, own)
    late = overdue(bag, own, teller)
    return {
        "soil_sample": bag.id,
        "bag": bag.code,
        "step": next((step for step in reversed(STEPS) if reached[step]), None),
        "steps": _steps(reached, setting),
        "handling": _handling(bag, bool(own), setting, teller),
        "overdue": None if late is None else {"from_on": late[0].isoformat(), "line": late[1]},
    }


_Moments = dict[str, datetime | date | None]


def _moments(bag: Bag, reports: Sequence[Report]) -> _Moments:
    """When each step was reached: a moment, a day, or None."""
    return {
        "lifted": bag.lifted_at,
        "packed": bag.packed_at,
        "handed_over": bag.handed_over_at or bag.sent_on,
        "received": bag.arrived_on,
        "extracted": bag.extracted_on,
        "reported": reports[0].reported_on if reports else None,
    }


def _steps(reached: _Moments, setting: Setting) -> list[dict[str, object]]:
    told: list[dict[str, object]] = []
    before: tuple[str, datetime | date] | None = None
    for step in STEPS:
        when = reached[step]
        is_moment = isinstance(when, datetime)
        told.append(
            {
                "step": step,
                "at": _as_text(when) if isinstance(when, datetime) else None,
                "on": when.isoformat() if when is not None and not is_moment else None,
                "after": _after(before, when, setting),
            }
        )
        if when is not None:
            before = (step, when)
    return told


def _as_text(moment: datetime) -> str:
    in_utc = moment.astimezone(UTC)
    return in_utc.isoformat(timespec="milliseconds").replace("+00:00", "Z")


def _after(
    before: tuple[str, datetime | date] | None, when: datetime | date | None, setting: Setting
) -> str:
    """How long after the step before, in hours while both are moments."""
    if before is None or when is None:
        return ""
    step, earlier = before
    if isinstance(when, datetime) and isinstance(earlier, datetime):
        hours = round((when - earlier).total_seconds() / 3600)
        if 0 <= hours < 48:
            return f"{_many(hours, 'hour')} after {_STEP_WORDS[step]}"
    days = (_day(when, setting) - _day(earlier, setting)).days
    return "" if days < 0 else f"{_many(days, 'day')} after {_STEP_WORDS[step]}"


def _many(n: int, noun: str) -> str:
    return f"{n} {noun}" if n == 1 else f"{n} {noun}s"


def _day(when: datetime | date, setting: Setting) -> date:
    return when.astimezone(setting.zone).date() if isinstance(when, datetime) else when


def _handling(
    bag: Bag, is_reported: bool, setting: Setting, teller: Teller
) -> list[dict[str, object]]:
    """The grade of a bag from each day on at which it may get worse."""
    if bag.lifted_on is None or bag.lifted_at is None:
        return []
    if bag.extracted_on is not None or is_reported:
        until = bag.extracted_on or bag.arrived_on
        days = None if until is None else max(0, (until - bag.lifted_on).days)
        return [_grade(bag, days, bag.lifted_at, True, teller)]
    fresh, old = (int(judged(teller.judgements, f"bag_{age}_days")) for age in ("fresh", "old"))
    told = []
    for days in (0, fresh + 1, old + 1):
        day = bag.lifted_on + timedelta(days=days)
        begins = datetime.combine(day, time(), setting.zone) if days else bag.lifted_at
        told.append(_grade(bag, days, begins, False, teller))
        if told[-1]["grade"] == "C":
            break
    return told


def _grade(
    bag: Bag, days: int | None, begins: datetime, is_over: bool, teller: Teller
) -> dict[str, object]:
    found = handling(journey_for(bag, teller.judgements, days), teller.judgements)
    code = "bag_journey_over" if is_over else "bag_so_far"
    said = Said(code, {"grade": found.grade})
    return {
        "from_at": _as_text(begins),
        "grade": found.grade,
        "line": teller.say(said, found.said, *found.reasons),
        "help": teller.words(_help(bag, found.grade, is_over)),
    }


def _help(bag: Bag, grade: str, is_over: bool) -> str:
    """Code of the one step that would still help."""
    if is_over:
        return _HELP_OVER[grade]
    if bag.arrived_on is not None:
        return "bag_help_received"
    if bag.sent_on is not None:
        return "bag_help_handed_over"
    if grade == "C":
        return "bag_help_lift_again"
    return "bag_help_packed" if bag.packed_at is not None else "bag_help_lifted"


def overdue(bag: Bag, reports: Sequence[Report], teller: Teller) -> tuple[date, Line] | None:
    """From which day on a report is later than the lab's usual time.

    Parameters
    ----------
    bag : Bag
        The bag.
    reports : sequence of Report
        Its reports.
    teller : Teller
        Has the judged values.

    Returns
    -------
    (date, Line) or None
        None when a report is here, or the bag was not sent.
    """
    begun = bag.arrived_on or bag.sent_on
    if reports or begun is None:
        return None
    typed = None if bag.lab is None else bag.lab["usual_days"]
    usual = typed if isinstance(typed, int) else int(judged(teller.judgements, "lab_usual_days"))
    transit = 0 if bag.arrived_on else int(judged(teller.judgements, "briefing_transit_days"))
    due = begun + timedelta(days=usual + transit + 1)
    code = "report_overdue" if bag.arrived_on else "report_overdue_arrival_unknown"
    if not isinstance(typed, int):
        code = "report_overdue_usual_unknown"
    lab = str(bag.lab["name"]) if bag.lab else "the laboratory"
    told = {"bag": bag.code, "on": begun, "usual": usual, "lab": lab}
    return due, teller.say(Said(code, told), by=due.isoformat())
