"""A bag of soil on its way from the bed to the laboratory, as it was noted.

Not for what the laboratory found in it (see ``reports``).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from gardens.domain.briefing.gathered import Doc, Entry
from gardens.domain.clock import day_there
from gardens.domain.codes import as_printed
from gardens.domain.judgements import Table, judged
from gardens.domain.transit import Journey


@dataclass(frozen=True)
class Warmth:
    """How warm and cold a bag got [degrees C], None for what nobody measured."""

    warmest_celsius: float | None = None
    coldest_celsius: float | None = None
    in_sun: bool = False


@dataclass(frozen=True)
class Bag:
    """A bag of soil as it was noted; None for what nobody noted.

    ``n_cores`` [cores, >= 1]; ``soil_celsius`` is that of the ground when it was lifted
    [degrees C]; ``is_part`` when only a part of the bed is in it. ``sent_on`` is the day it was
    handed over when nobody noted the day it was sent.
    """

    id: str
    code: str
    purpose: str
    lifted_at: datetime | None
    lifted_on: date | None
    packed_at: datetime | None
    handed_over_at: datetime | None
    sent_on: date | None
    arrived_on: date | None
    extracted_on: date | None
    moisture: str | None
    warmth: Warmth
    soil_celsius: float | None
    n_cores: int | None
    is_part: bool
    lab_id: str
    lab: Doc | None
    next_crop: str


def read_bag(sample: Entry, labs: Mapping[str, Doc], zone: ZoneInfo) -> Bag:
    """A bag from its record.

    Parameters
    ----------
    sample : Entry
        A soil sample.
    labs : Mapping
        Documents of the lab profiles, by id.
    zone : ZoneInfo
        The garden's clock.

    Returns
    -------
    Bag
        Days are those of the garden's clock.
    """
    doc = sample.doc
    moved, handed, warmth = (_parts(doc, name) for name in ("parcel", "handed_over", "warmth"))
    lifted, handed_at = doc["lifted_at"], handed.get("at")
    celsius, cores = doc["soil_temperature_celsius"], doc["n_cores"]
    assert celsius is None or isinstance(celsius, int | float)
    assert cores is None or isinstance(cores, int)
    handed_on = day_there(zone, str(handed_at)) if handed_at else None
    return Bag(
        id=sample.id,
        code=as_printed(str(doc["code"])),
        purpose=str(doc["purpose"]),
        lifted_at=_moment(lifted),
        lifted_on=day_there(zone, str(lifted)) if lifted else None,
        packed_at=_moment(doc["packed_at"]),
        handed_over_at=_moment(handed_at),
        sent_on=_day(moved.get("sent_on")) or handed_on,
        arrived_on=_day(moved.get("arrived_on")),
        extracted_on=_day(doc["extracted_on"]),
        moisture=None if doc["moisture"] is None else str(doc["moisture"]),
        warmth=_warmth(warmth),
        soil_celsius=celsius,
        n_cores=cores,
        is_part=doc["part"] is not None,
        lab_id=str(doc["lab_profile"] or ""),
        lab=labs.get(str(doc["lab_profile"])),
        next_crop=str(doc["next_crop"]),
    )


def bags_of(samples: Sequence[Entry], labs: Mapping[str, Doc], zone: ZoneInfo) -> list[Bag]:
    """The bags of a bed, by the moment of lifting; those still to be lifted last.

    Parameters
    ----------
    samples : sequence of Entry
        Of one bed.
    labs : Mapping
        Documents of the lab profiles, by id.
    zone : ZoneInfo
        The garden's clock.

    Returns
    -------
    list of Bag
        One for each sample.
    """
    in_order = sorted(samples, key=lambda one: (str(one.doc["lifted_at"] or "9"), one.id))
    return [read_bag(one, labs, zone) for one in in_order]


def _parts(doc: Doc, name: str) -> Mapping[str, object]:
    found = doc[name]
    return found if isinstance(found, Mapping) else {}


def _moment(value: object) -> datetime | None:
    return datetime.fromisoformat(str(value)) if value else None


def _day(value: object) -> date | None:
    return date.fromisoformat(str(value)) if value else None


def _warmth(parts: Mapping[str, object]) -> Warmth:
    ends = []
    for name in ("warmest_celsius", "coldest_celsius"):
        value = parts.get(name)
        assert value is None or isinstance(value, int | float)
        ends.append(value)
    return Warmth(ends[0], ends[1], bool(parts.get("in_sun")))


def journey_of(bag: Bag | None, table: Table, today: date) -> Journey:
    """What the records tell of a bag's way.

    Parameters
    ----------
    bag : Bag or None
        None when nothing was noted.
    table : Mapping
        Content of ``fixtures/judgements.json``.
    today : date
        The day, for a bag that waits.

    Returns
    -------
    Journey
        A bag was at least as warm as the ground it came from, so where nobody measured, warm
        ground counts; cool ground says nothing of the way.
    """
    if bag is None:
        return Journey()
    return journey_for(bag, table, _days(bag, today))


def journey_for(bag: Bag, table: Table, days: float | None) -> Journey:
    """A bag's way, had it taken so long.

    Parameters
    ----------
    bag : Bag
        The bag.
    table : Mapping
        Content of ``fixtures/judgements.json``.
    days : float or None
        From lifting to extraction [d, >= 0]; None when that is not known.

    Returns
    -------
    Journey
        With the warmth of the ground where the bag's own was not measured.
    """
    ground, most = bag.soil_celsius, judged(table, "bag_warm_celsius")
    warmest = bag.warmth.warmest_celsius
    if warmest is None and ground is not None and ground > most:
        warmest = ground
    coldest = bag.warmth.coldest_celsius
    if warmest is not None and coldest is not None:
        coldest = min(warmest, coldest)
    return Journey(days, warmest, coldest, bag.moisture, bag.warmth.in_sun)


def _days(bag: Bag, today: date) -> int | None:
    """Days from the bed to the extraction, or until today while it waits to be sent."""
    until = bag.extracted_on or bag.arrived_on or (today if bag.sent_on is None else None)
    if bag.lifted_on is None or until is None:
        return None
    return max(0, (until - bag.lifted_on).days)
