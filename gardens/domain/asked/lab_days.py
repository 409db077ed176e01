"""Which day to post a bag of soil, for the next three weeks, with the reasons.

Holidays are typed: none is looked up here.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from datetime import date, timedelta

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.lab_bags import newest_bag
from gardens.domain.asked.lab_cores import dispute_rows
from gardens.domain.briefing.gathered import Doc
from gardens.domain.briefing.lines import MONTHS, WEEKDAYS, Because, Line, with_weekday
from gardens.domain.errors import DomainError
from gardens.domain.fields import Refusal, day
from gardens.domain.said import Said
from gardens.domain.shipping import ShipDay, rank_ship_days, read_courier, read_lab

N_NAMED = 3
WEEKS: Mapping[str, list[int]] = {
    "mon_fri": [0, 1, 2, 3, 4],
    "mon_thu": [0, 1, 2, 3],
    "tue_fri": [1, 2, 3, 4],
    "mon_sat": [0, 1, 2, 3, 4, 5],
}
CARRIER = [0, 1, 2, 3, 4]
_VERDICTS = {
    "good": "A good day",
    "hold": "Better wait",
    "never": "Not on this day",
}


def post_when(asked: Asked) -> Answer:
    """When to post a bag.

    Parameters
    ----------
    asked : Asked
        With ``works``, ``transit_days`` [d], ``to_door``, and maybe ``closed`` and
        ``lifted_on``; the lab's week and the day it was lifted come from the newest bag of
        ``bed`` or the labs in the records.

    Returns
    -------
    Answer
        The best days, and each of the next 21, best first.
    """
    lab = _lab(asked)
    week, closed, lifted = _week(asked, lab), _closed(asked), _lifted(asked)
    ranked = rank_ship_days(
        asked.today.isoformat(),
        read_lab(week, closed),
        read_courier(
            round(asked.given.number("transit_days")),
            asked.given.text("to_door") == "yes",
            CARRIER,
            closed,
        ),
        asked.teller.judgements,
        None if lifted is None else lifted.isoformat(),
    )
    lines = (
        _best_line(asked, ranked, lifted),
        _week_line(asked, week, lab),
        *([] if closed else [asked.teller.line("ship_holidays_unknown")]),
        _rules_line(asked, ranked),
        asked.teller.line("post_leave_in_bed" if lifted is None else "post_keep_bag"),
    )
    return Answer(lines, (*_day_rows(asked, ranked), *dispute_rows(asked, "bag")))


def _lab(asked: Asked) -> Doc | None:
    """The lab of the newest bag of the bed; else the one added last."""
    if asked.given.text("works") != "records":
        return None
    bag = newest_bag(asked, asked.bed(), lifted=False)
    if bag is not None and bag.lab is not None:
        return bag.lab
    labs = asked.garden.labs
    return labs[max(labs)] if labs else None


def _week(asked: Asked, lab: Doc | None) -> list[int]:
    if lab is None:
        return WEEKS.get(asked.given.text("works"), CARRIER)
    working = lab["working_days"]
    assert isinstance(working, list)
    return working


def _lifted(asked: Asked) -> date | None:
    """The day the soil was lifted: as typed, else that of a bag that was not sent."""
    if asked.given.has("lifted_on"):
        return asked.given.day("lifted_on")
    bag = newest_bag(asked, asked.bed())
    if bag is None or bag.sent_on is not None or bag.lifted_on is None:
        return None
    return None if bag.lifted_on > asked.today else bag.lifted_on


def _closed(asked: Asked) -> list[str]:
    """Days that were typed, each ``YYYY-MM-DD`` or a day and a month of the year to come."""
    parts = [one.strip() for one in re.split(r"[,;]", asked.given.text("closed"))]
    return [_one_day(one, asked.today).isoformat() for one in parts if one]


def _one_day(text: str, today: date) -> date:
    spoken = re.fullmatch(r"(\d{1,2})\.?\s+([A-Za-z]{3,})|([A-Za-z]{3,})\s+(\d{1,2})", text)
    try:
        if spoken is None:
            return date.fromisoformat(str(day(text)))
        number, name = int(spoken[1] or spoken[4]), (spoken[2] or spoken[3]).lower()
        (month,) = [n for n, one in enumerate(MONTHS, 1) if one.lower().startswith(name)]
        this_year = date(today.year, month, number)
        later = date(today.year + 1, month, number)
        return this_year if this_year >= today - timedelta(days=7) else later
    except (Refusal, ValueError):
        raise DomainError("asked_no_closed_day", field="closed", text=text[:40]) from None


def _best_line(asked: Asked, ranked: Sequence[ShipDay], lifted: date | None) -> Line:
    good = [one for one in ranked if one.verdict == "good"]
    hold = [one for one in ranked if one.verdict == "hold"]
    best = sorted((good or hold)[:N_NAMED], key=lambda one: one.ship_on)
    if not best:
        return asked.teller.line("post_no_day")
    code = ("post_lift_and_post" if lifted is None else "post_best") if good else "post_only_held"
    days = ", ".join(with_weekday(date.fromisoformat(one.ship_on)) for one in best)
    params: dict[str, object] = {"days": days} if lifted is None else {"days": days, "on": lifted}
    return asked.teller.say(Said(code, params), *best[0].reasons)


def _week_line(asked: Asked, week: Sequence[int], lab: Doc | None) -> Line:
    days = _days_said(sorted(week))
    if lab is not None:
        return asked.teller.line("post_week_of_lab", lab=lab["name"], days=days)
    chosen = asked.given.text("works") in WEEKS
    return asked.teller.line("post_week_chosen" if chosen else "post_week_assumed", days=days)


def _days_said(week: Sequence[int]) -> str:
    """Week days as people say them: a run by its ends."""
    if len(week) > 2 and week[-1] - week[0] == len(week) - 1:
        return f"{WEEKDAYS[week[0]]} to {WEEKDAYS[week[-1]]}"
    return ", ".join(WEEKDAYS[one] for one in week) or "no day"


def _day_rows(asked: Asked, ranked: Sequence[ShipDay]) -> tuple[Row, ...]:
    """One row for each day, best first; the days on which nobody takes it in one."""
    rests = [one for one in ranked if one.arrives_on is None]
    rows = [_day_row(asked, one) for one in ranked if one.arrives_on is not None]
    if rests:
        days = ", ".join(with_weekday(date.fromisoformat(one.ship_on)) for one in rests)
        rows.append(row("Days the carrier rests", {"Not on these": days}, ("shipping_practice",)))
    return tuple(rows)


def _day_row(asked: Asked, one: ShipDay) -> Row:
    told = [str(asked.teller.say(reason)["words"]) for reason in one.reasons]
    assert one.arrives_on is not None
    arrives = with_weekday(date.fromisoformat(one.arrives_on))
    label = f"{_VERDICTS[one.verdict]}; would arrive {arrives}"
    return row(with_weekday(date.fromisoformat(one.ship_on)), {label: " ".join(told)})


def _rules_line(asked: Asked, ranked: Sequence[ShipDay]) -> Line:
    """What the days below were judged by, each rule once."""
    codes = {said.code: said for one in ranked for said in one.reasons}
    told = [asked.teller.say(said) for said in codes.values()]
    rules = {str(one["words"]): one for line in told for one in _reasons(line)}
    because = [Because(words, _keys(one)) for words, one in rules.items()]
    return asked.teller.line("post_days_below", because=because)


def _reasons(line: Line) -> Sequence[Mapping[str, object]]:
    found = line["because"]
    assert isinstance(found, list)
    return found


def _keys(reason: Mapping[str, object]) -> tuple[str, ...]:
    found = reason["sources"]
    assert isinstance(found, list)
    return tuple(str(key) for key in found)


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"post_when": post_when}
