"""What is said about the soil samples of a bed: when to lift and send, and how a bag fared.

Not for what a laboratory found: nobody has typed that here.
"""

from collections.abc import Iterator, Sequence
from datetime import date

from gardens.domain.briefing.bags import Bag, journey_for, journey_of
from gardens.domain.briefing.lab_days import Setting, best_of, holiday_lines, named, ship_days
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.judgements import judged
from gardens.domain.said import Said
from gardens.domain.shipping import ShipDay
from gardens.domain.transit import Handling, handling


def sample_lines(bags: Sequence[Bag], setting: Setting, teller: Teller) -> list[Line]:
    """The lines about the samples of a bed.

    Parameters
    ----------
    bags : sequence of Bag
        Of one bed.
    setting : Setting
        The labs, the clock, the day and the holidays.
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        One for each bag that is planned, under way, or came in not long ago.
    """
    return [line for bag in bags for line in _lines(bag, setting, teller)]


def _lines(bag: Bag, setting: Setting, teller: Teller) -> Iterator[Line]:
    today = setting.today
    if bag.arrived_on is not None:
        if (today - bag.arrived_on).days <= judged(teller.judgements, "briefing_bag_days"):
            yield _arrived(bag, bag.arrived_on, teller)
    elif bag.sent_on is not None:
        late = (today - bag.sent_on).days > judged(teller.judgements, "bag_fresh_days")
        code = "sample_on_the_way_long" if late else "sample_on_the_way"
        yield teller.line(code, bag=bag.code, on=bag.sent_on)
    elif bag.lifted_on is not None:
        yield _unsent(bag, bag.lifted_on, setting, teller)
    else:
        yield _planned(bag, setting, teller)


def _arrived(bag: Bag, arrived_on: date, teller: Teller) -> Line:
    found = handling(journey_of(bag, teller.judgements, arrived_on), teller.judgements)
    params = {"bag": bag.code, "on": arrived_on, "grade": found.grade}
    return teller.say(Said("sample_arrived", params), *_reasons(found))


def _unsent(bag: Bag, lifted_on: date, setting: Setting, teller: Teller) -> Line:
    best, today = best_days(bag, setting, teller), setting.today
    ready = date.fromisoformat(best[0].arrives_on or best[0].ship_on) if best else today
    days = max(0, (ready - lifted_on).days)
    found = handling(journey_for(bag, teller.judgements, days), teller.judgements)
    params = {
        "bag": bag.code,
        "on": lifted_on,
        "n": max(0, (today - lifted_on).days),
        "grade": found.grade,
        "days": named(best),
    }
    if days > judged(teller.judgements, "bag_old_days"):
        return teller.say(Said("sample_unsent_old", params), *_reasons(found))
    code = "sample_unsent" if best else "sample_unsent_no_day"
    why = _why(bag, best, setting)
    return teller.say(Said(code, params), *why, *_reasons(found), by=_by(best))


def _planned(bag: Bag, setting: Setting, teller: Teller) -> Line:
    if bag.lab is None:
        return teller.line("sample_planned_no_lab", bag=bag.code)
    best = best_days(bag, setting, teller)
    if not best:
        return teller.line("sample_planned_no_day", bag=bag.code)
    said = Said("sample_planned", {"bag": bag.code, "days": named(best)})
    return teller.say(said, *_why(bag, best, setting), by=_by(best))


def best_days(bag: Bag, setting: Setting, teller: Teller) -> tuple[ShipDay, ...]:
    """The best of the next 21 days to send a bag.

    Parameters
    ----------
    bag : Bag
        Planned, or lifted and not sent.
    setting : Setting
        The day and the holidays.
    teller : Teller
        Has the judged values.

    Returns
    -------
    tuple of ShipDay
        Up to three, in the order of the calendar; none without a lab.
    """
    if bag.lab is None:
        return ()
    return best_of(ship_days(bag.lab, setting, teller, bag.lifted_on))


def _by(days: Sequence[ShipDay]) -> str | None:
    return days[0].ship_on if days else None


def _why(bag: Bag, days: Sequence[ShipDay], setting: Setting) -> tuple[Said, ...]:
    if not days or bag.lab is None:
        return ()
    return (*days[0].reasons, *holiday_lines(bag.lab, setting))


def _reasons(found: Handling) -> tuple[Said, ...]:
    return (found.said, *found.reasons)
