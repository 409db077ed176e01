"""What is said about the soil samples of a bed: when to lift and send, and how a bag fared.

Not for what a laboratory found: nobody has typed that here.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from gardens.domain.briefing.gathered import Doc, Entry
from gardens.domain.briefing.lines import Line, Teller, with_weekday
from gardens.domain.clock import day_there
from gardens.domain.judgements import judged
from gardens.domain.said import Said
from gardens.domain.shipping import ShipDay, rank_ship_days, read_courier, read_lab
from gardens.domain.transit import Handling, Journey, handling

N_SHOWN = 3
_WEEK = [0, 1, 2, 3, 4]


@dataclass(frozen=True)
class Bag:
    """A sample's bag on one day; days are None until they have come."""

    shown_code: str
    lifted_on: date | None
    sent_on: date | None
    arrived_on: date | None
    moisture: str | None
    lab: Doc | None


def sample_lines(
    samples: Sequence[Entry],
    labs: Mapping[str, Doc],
    zone: ZoneInfo,
    today: date,
    teller: Teller,
) -> list[Line]:
    """The lines about the samples of a bed.

    Parameters
    ----------
    samples : sequence of Entry
        Of one bed, by id.
    labs : Mapping
        Documents of the lab profiles, by id.
    zone : ZoneInfo
        The garden's clock.
    today : date
        The day of the briefing, on that clock.
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        One for each bag that is planned, under way, or came in not long ago.
    """
    return [line for one in samples for line in _lines(_bag(one.doc, labs, zone), today, teller)]


def _bag(doc: Doc, labs: Mapping[str, Doc], zone: ZoneInfo) -> Bag:
    code, parcel, lifted = str(doc["code"]), doc["parcel"], doc["lifted_at"]
    moved = parcel if isinstance(parcel, Mapping) else {}
    return Bag(
        shown_code=f"{code[:4]}-{code[4:]}",
        lifted_on=day_there(zone, str(lifted)) if lifted else None,
        sent_on=_day(moved.get("sent_on")),
        arrived_on=_day(moved.get("arrived_on")),
        moisture=None if doc["moisture"] is None else str(doc["moisture"]),
        lab=labs.get(str(doc["lab_profile"])),
    )


def _day(value: object) -> date | None:
    return None if value is None else date.fromisoformat(str(value))


def _lines(bag: Bag, today: date, teller: Teller) -> Iterator[Line]:
    if bag.arrived_on is not None:
        if (today - bag.arrived_on).days <= judged(teller.judgements, "briefing_bag_days"):
            yield _arrived(bag, bag.arrived_on, teller)
    elif bag.sent_on is not None:
        late = (today - bag.sent_on).days > judged(teller.judgements, "bag_fresh_days")
        code = "sample_on_the_way_long" if late else "sample_on_the_way"
        yield teller.line(code, bag=bag.shown_code, on=bag.sent_on)
    elif bag.lifted_on is not None:
        yield _unsent(bag, bag.lifted_on, today, teller)
    else:
        yield _planned(bag, today, teller)


def _arrived(bag: Bag, arrived_on: date, teller: Teller) -> Line:
    days = None if bag.lifted_on is None else max(0, (arrived_on - bag.lifted_on).days)
    found = handling(Journey(days=days, moisture=bag.moisture), teller.judgements)
    params = {"bag": bag.shown_code, "on": arrived_on, "grade": found.grade}
    return teller.say(Said("sample_arrived", params), *_reasons(found))


def _unsent(bag: Bag, lifted_on: date, today: date, teller: Teller) -> Line:
    best = _best_days(bag, today, lifted_on, teller)
    ready = _day(best[0].arrives_on) if best else today
    days = max(0, ((ready or today) - lifted_on).days)
    found = handling(Journey(days=days, moisture=bag.moisture), teller.judgements)
    params = {
        "bag": bag.shown_code,
        "on": lifted_on,
        "n": max(0, (today - lifted_on).days),
        "grade": found.grade,
        "days": _said(best),
    }
    if days > judged(teller.judgements, "bag_old_days"):
        return teller.say(Said("sample_unsent_old", params), *_reasons(found))
    code = "sample_unsent" if best else "sample_unsent_no_day"
    return teller.say(Said(code, params), *_why(best), *_reasons(found), by=_by(best))


def _planned(bag: Bag, today: date, teller: Teller) -> Line:
    if bag.lab is None:
        return teller.line("sample_planned_no_lab", bag=bag.shown_code)
    best = _best_days(bag, today, None, teller)
    if not best:
        return teller.line("sample_planned_no_day", bag=bag.shown_code)
    said = Said("sample_planned", {"bag": bag.shown_code, "days": _said(best)})
    return teller.say(said, *_why(best), by=_by(best))


def _best_days(
    bag: Bag, today: date, lifted_on: date | None, teller: Teller
) -> tuple[ShipDay, ...]:
    """The best of the next 21 days, in the order of the calendar; none without a lab."""
    if bag.lab is None:
        return ()
    working = bag.lab["working_days"]
    assert isinstance(working, list)
    transit = int(judged(teller.judgements, "briefing_transit_days"))
    ranked = rank_ship_days(
        today.isoformat(),
        read_lab(working, []),
        read_courier(transit, True, _WEEK, []),
        teller.judgements,
        None if lifted_on is None or lifted_on > today else lifted_on.isoformat(),
    )
    good = [day for day in ranked if day.verdict == "good"]
    hold = [day for day in ranked if day.verdict == "hold"]
    return tuple(sorted((good or hold)[:N_SHOWN], key=lambda day: day.ship_on))


def _said(days: Sequence[ShipDay]) -> str:
    return ", ".join(with_weekday(date.fromisoformat(day.ship_on)) for day in days)


def _by(days: Sequence[ShipDay]) -> str | None:
    return days[0].ship_on if days else None


def _why(days: Sequence[ShipDay]) -> tuple[Said, ...]:
    return (*days[0].reasons, Said("ship_holidays_unknown")) if days else ()


def _reasons(found: Handling) -> tuple[Said, ...]:
    return (found.said, *found.reasons)
