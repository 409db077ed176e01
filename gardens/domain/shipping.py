"""Which day to ship a bag of soil, for the next three weeks, with the reasons.

Holidays come in as days: whoever calls looks them up. Not for what a courier costs.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged
from gardens.domain.said import Said

N_DAYS = 21
WEDNESDAY, SATURDAY = 2, 5
_FARTHEST_DAYS = 60
_ONE = timedelta(days=1)
_MONDAY_TO_FRIDAY = frozenset(range(5))


@dataclass(frozen=True)
class Lab:
    """When a lab takes parcels: week days [0 Monday..6 Sunday], and days it is closed besides.

    ``closed_on`` holds public holidays and other closed days as ``YYYY-MM-DD``.
    """

    working_days: frozenset[int]
    closed_on: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Courier:
    """How a parcel travels.

    ``transit_days`` are days on which the courier moves, after the day it is handed over
    [d, 0..20]; ``moves_on`` week days [0..6]; ``to_door`` False when the lab must fetch
    it, which it is given a day for.
    """

    transit_days: int
    to_door: bool = True
    moves_on: frozenset[int] = frozenset(range(5))
    idle_on: frozenset[str] = frozenset()


@dataclass(frozen=True)
class ShipDay:
    """One day to ship on.

    ``verdict`` is ``"good"``, ``"hold"`` (it would arrive, but a better day is worth the wait)
    or ``"never"``; ``rank`` counts from 1, best first, None for never; ``arrives_on`` is None
    when the courier does not take it that day.
    """

    ship_on: str
    arrives_on: str | None
    verdict: str
    rank: int | None
    reasons: tuple[Said, ...]


def read_lab(working_days: list[int], closed_on: list[str]) -> Lab:
    """Lab from plain lists.

    Parameters
    ----------
    working_days : list of int
        Up to 7 week days, as in ``lab_profile.working_days`` [0 Monday..6 Sunday].
    closed_on : list of str
        Any number of days, ``YYYY-MM-DD``.

    Returns
    -------
    Lab
        The same as a plain value.
    """
    return Lab(frozenset(working_days), frozenset(closed_on))


def read_courier(
    transit_days: int, to_door: bool, moves_on: list[int], idle_on: list[str]
) -> Courier:
    """Courier from plain lists.

    Parameters
    ----------
    transit_days : int
        Days on which the courier moves [d, 0..20].
    to_door : bool
        Whether it is carried to the door of the lab.
    moves_on : list of int
        Up to 7 week days [0 Monday..6 Sunday].
    idle_on : list of str
        Any number of days on which it does not move, ``YYYY-MM-DD``.

    Returns
    -------
    Courier
        The same as a plain value.

    Raises
    ------
    DomainError
        ``transit_days_wrong``.
    """
    if not 0 <= transit_days <= 20:
        raise DomainError("transit_days_wrong", transit_days=transit_days)
    return Courier(transit_days, to_door, frozenset(moves_on), frozenset(idle_on))


def rank_ship_days(
    today: str, lab: Lab, courier: Courier, table: Table, lifted_on: str | None = None
) -> tuple[ShipDay, ...]:
    """The next 21 days, best first; days that would end at a closed door last.

    Parameters
    ----------
    today : str
        The first day to look at, ``YYYY-MM-DD``.
    lab : Lab
        When it takes parcels.
    courier : Courier
        How the parcel travels.
    table : Mapping
        Content of ``fixtures/judgements.json``.
    lifted_on : str or None
        Day the soil was lifted; None when it is still in the bed.

    Returns
    -------
    tuple of ShipDay
        21 days.

    Notes
    -----
    Labs ask for parcels early in the week, by Wednesday, and for soil that is not old. That a
    parcel may come a day late, and that carriers rest on holidays, is common practice without
    a source. Among equal days the earlier arrival wins, then the shorter ride.

    References
    ----------
    our_ship_ranking, ship_early_in_week, lab_handling_pages, shipping_practice

    Examples
    --------
    >>> lab, courier = read_lab([0, 1, 2, 3, 4], []), read_courier(1, True, [0, 1, 2, 3, 4], [])
    >>> rules = {"bag_fresh_days": {"value": 7, "range": [2, 14]},
    ...          "bag_old_days": {"value": 14, "range": [7, 60]}}
    >>> best = rank_ship_days("2031-08-07", lab, courier, rules)[0]  # a Thursday
    >>> best.ship_on, best.verdict, best.rank
    ('2031-08-11', 'good', 1)
    """
    first = date.fromisoformat(today)
    lifted = None if lifted_on is None else date.fromisoformat(lifted_on)
    looked = [_look(first + i * _ONE, lab, courier, table, lifted) for i in range(N_DAYS)]
    looked.sort(key=_order)
    n_possible = sum(day.verdict != "never" for day in looked)
    return tuple(
        ShipDay(
            day.ship_on, day.arrives_on, day.verdict, n if n <= n_possible else None, day.reasons
        )
        for n, day in enumerate(looked, start=1)
    )


def _order(day: ShipDay) -> tuple[int, str, int]:
    verdict = ("good", "hold", "never").index(day.verdict)
    return verdict, day.arrives_on or day.ship_on, -date.fromisoformat(day.ship_on).toordinal()


def _look(ship: date, lab: Lab, courier: Courier, table: Table, lifted: date | None) -> ShipDay:
    arrives = _arrival(ship, courier)
    if arrives is None:
        return ShipDay(ship.isoformat(), None, "never", None, (Said("ship_not_taken"),))
    refused = _refused(ship, arrives, lab, courier, lifted)
    if refused:
        return ShipDay(ship.isoformat(), arrives.isoformat(), "never", None, (refused,))
    too_old, not_fresh = _age(lifted, arrives, table)
    against = [*_waits(ship, arrives, lab, courier), *_late_in_week(ship, arrives, lab), *too_old]
    beside = [*(() if courier.to_door else (Said("ship_not_to_door"),)), *not_fresh]
    if against:
        verdict = "hold"
    else:
        verdict, beside = "good", [Said("ship_day_to_spare", {"arrives_on": arrives}), *beside]
    return ShipDay(ship.isoformat(), arrives.isoformat(), verdict, None, (*against, *beside))


def _age(lifted: date | None, arrives: date, table: Table) -> tuple[list[Said], list[Said]]:
    """What to say of soil that would be too old, and of soil that would not be fresh."""
    days = 0 if lifted is None else (arrives - lifted).days
    if days > judged(table, "bag_old_days"):
        return [Said("ship_soil_old", {"days": days})], []
    if days > judged(table, "bag_fresh_days"):
        return [], [Said("ship_soil_not_fresh", {"days": days})]
    return [], []


def _refused(
    ship: date, arrives: date, lab: Lab, courier: Courier, lifted: date | None
) -> Said | None:
    """Why this day can never be right."""
    if lifted is not None and ship < lifted:
        return Said("ship_before_lifting")
    if not _is_open(arrives, lab):
        return Said(f"ship_lab_closed_{_why_closed(arrives, lab)}", {"arrives_on": arrives})
    if not courier.to_door and not _is_open(arrives + _ONE, lab):
        return Said("ship_not_fetched", {"arrives_on": arrives, "closed_on": arrives + _ONE})
    return None


def _arrival(ship: date, courier: Courier) -> date | None:
    """Day the parcel is at the lab; None when nobody takes it on the day it is shipped."""
    if not _moves(ship, courier):
        return None
    day, left = ship, courier.transit_days
    for _ in range(_FARTHEST_DAYS):
        if left == 0:
            return day
        day += _ONE
        left -= _moves(day, courier)
    return None


def _moves(day: date, courier: Courier) -> bool:
    return day.weekday() in courier.moves_on and day.isoformat() not in courier.idle_on


def _is_open(day: date, lab: Lab) -> bool:
    return day.weekday() in lab.working_days and day.isoformat() not in lab.closed_on


def _why_closed(day: date, lab: Lab) -> str:
    return "holiday" if day.isoformat() in lab.closed_on else "weekday"


def _waits(ship: date, arrives: date, lab: Lab, courier: Courier) -> Iterator[Said]:
    """Closed days on the way, and the day after, should the parcel come late."""
    if arrives == ship:
        return
    days = [ship + i * _ONE for i in range(1, (arrives - ship).days)]
    idle = [day for day in days if not _moves(day, courier)]
    if any(day.weekday() >= SATURDAY for day in idle):
        yield Said("ship_over_weekend")
    if any(day.weekday() < SATURDAY for day in idle):
        yield Said("ship_over_holiday")
    after = arrives + _ONE
    if not _is_open(after, lab):
        yield Said("ship_no_day_to_spare", {"arrives_on": arrives, "closed_on": after})


def _late_in_week(ship: date, arrives: date, lab: Lab) -> Iterator[Said]:
    """The advice of labs that work from Monday to Friday; others have their own week."""
    if arrives > ship and ship.weekday() > WEDNESDAY and lab.working_days <= _MONDAY_TO_FRIDAY:
        yield Said("ship_late_in_week")
