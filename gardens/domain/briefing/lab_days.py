"""The days of the laboratories: on which to lift and send soil, in the next three weeks.

Holidays come in as days by country: the server looks them up, the phone keeps them. Not for
what becomes of a bag on its way.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from gardens.domain.briefing.gathered import Doc
from gardens.domain.briefing.lines import Line, Teller, with_weekday
from gardens.domain.judgements import judged
from gardens.domain.said import Said
from gardens.domain.shipping import Courier, ShipDay, rank_ship_days, read_courier, read_lab

Holidays = Mapping[str, Sequence[str]]
N_SHOWN = 3
_WEEK = [0, 1, 2, 3, 4]


@dataclass(frozen=True)
class Setting:
    """What the way of a bag depends on beside the bag: labs by id, the clock, the day, holidays.

    ``holidays`` are days ``YYYY-MM-DD`` by the two letters of a country.
    """

    labs: Mapping[str, Doc]
    zone: ZoneInfo
    today: date
    holidays: Holidays


def ship_days(
    lab: Doc, setting: Setting, teller: Teller, lifted_on: date | None = None
) -> tuple[ShipDay, ...]:
    """The next 21 days for one lab, best first.

    Parameters
    ----------
    lab : Mapping
        Document of a lab profile.
    setting : Setting
        With the day to begin on and the holidays.
    teller : Teller
        Has the judged values.
    lifted_on : date or None
        Day the soil was lifted; None while it is in the bed.

    Returns
    -------
    tuple of ShipDay
        21 days.
    """
    working, own = lab["working_days"], lab["closed_on"]
    assert isinstance(working, list) and isinstance(own, list)
    public = list(setting.holidays.get(str(lab["country"]), ()))
    return rank_ship_days(
        setting.today.isoformat(),
        read_lab(working, [*own, *public]),
        _courier(lab["courier"], public, teller),
        teller.judgements,
        None if lifted_on is None or lifted_on > setting.today else lifted_on.isoformat(),
    )


def _courier(typed: object, public: list[str], teller: Teller) -> Courier:
    if not isinstance(typed, Mapping):
        transit = int(judged(teller.judgements, "briefing_transit_days"))
        return read_courier(transit, True, _WEEK, public)
    return read_courier(typed["transit_days"], typed["to_door"], typed["moves_on"], public)


def best_of(days: Sequence[ShipDay]) -> tuple[ShipDay, ...]:
    """The few days worth naming.

    Parameters
    ----------
    days : sequence of ShipDay
        Best first.

    Returns
    -------
    tuple of ShipDay
        Up to three, in the order of the calendar; days to hold only where none is good.
    """
    good = [day for day in days if day.verdict == "good"]
    hold = [day for day in days if day.verdict == "hold"]
    return tuple(sorted((good or hold)[:N_SHOWN], key=lambda day: day.ship_on))


def named(days: Sequence[ShipDay]) -> str:
    """Days as they are said.

    Parameters
    ----------
    days : sequence of ShipDay
        Any number.

    Returns
    -------
    str
        With their weekdays.
    """
    return ", ".join(with_weekday(date.fromisoformat(day.ship_on)) for day in days)


def holiday_lines(lab: Doc, setting: Setting) -> tuple[Said, ...]:
    """What is to be said of the holidays that were left out.

    Parameters
    ----------
    lab : Mapping
        Document of a lab profile.
    setting : Setting
        With the holidays.

    Returns
    -------
    tuple of Said
        One: that they are known, or that they are not.
    """
    country = str(lab["country"])
    if country in setting.holidays:
        return (Said("ship_holidays_known", {"country": country}),)
    return (Said("ship_holidays_unknown"),)


def labs_told(setting: Setting, teller: Teller) -> list[dict[str, object]]:
    """Each lab with its next three weeks, as they travel.

    Parameters
    ----------
    setting : Setting
        With the labs.
    teller : Teller
        Makes the reasons.

    Returns
    -------
    list of dict
        In the order of their ids.
    """
    return [_told(each, setting.labs[each], setting, teller) for each in sorted(setting.labs)]


def _told(each: str, lab: Doc, setting: Setting, teller: Teller) -> dict[str, object]:
    ranked = ship_days(lab, setting, teller)
    in_order = sorted(ranked, key=lambda day: day.ship_on)
    best = best_of(ranked)
    said = Said("lab_best_days", {"days": named(best)}) if best else Said("lab_no_day")
    lines: list[Line] = [teller.say(said, *(_why(best)), *holiday_lines(lab, setting))]
    return {
        "lab_profile": each,
        "name": lab["name"],
        "days": [_day(day, teller) for day in in_order],
        "lines": lines,
    }


def _why(best: Sequence[ShipDay]) -> tuple[Said, ...]:
    return best[0].reasons if best else ()


def _day(day: ShipDay, teller: Teller) -> dict[str, object]:
    return {
        "ship_on": day.ship_on,
        "arrives_on": day.arrives_on,
        "verdict": day.verdict,
        "rank": day.rank,
        "reasons": [one for said in day.reasons for one in teller.reasons(said)],
    }
