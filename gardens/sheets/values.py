"""What each sheet is given: plain values, already read and translated into local time.

Empty text and None are welcome everywhere: they print as a line to write on. Not for
reading records; whoever prints fills these from them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from gardens.domain.crop_history import CropGrown, CropHistory
from gardens.domain.galling import Reading
from gardens.domain.scales import Scale

Paper = Literal["a4", "letter"]
Units = Literal["metric", "us"]


@dataclass(frozen=True, kw_only=True)
class Grower:
    """Who sends the parcel: the grower fields of ``garden``."""

    name: str = ""
    address: str = ""
    phone: str = ""
    email: str = ""
    garden_name: str = ""
    garden_place: str = ""


@dataclass(frozen=True, kw_only=True)
class Lab:
    """Who gets the parcel: the fields of ``lab_profile``."""

    name: str = ""
    address: str = ""
    phone: str = ""
    email: str = ""
    account_number: str = ""
    reporting_unit: str = ""
    working_days: tuple[int, ...] = ()
    parcel_wishes: str = ""


@dataclass(frozen=True, kw_only=True)
class Sample:
    """One bag of soil: the fields of ``soil_sample`` with what its bed and plantings add.

    ``code`` has five signs, without the hyphen. ``link`` is the address the QR opens,
    ``<origin>/samples/<id>``. ``shape``, ``part`` and ``depth`` are the wire composites.
    ``lifted_at`` is in the garden's own time zone. ``crops`` comes from
    ``domain.crop_history.crop_history`` for the day the soil was lifted.
    """

    code: str
    link: str
    bed_name: str
    shape: Mapping[str, object]
    purpose: str
    soil: str = ""
    part: Mapping[str, int] | None = None
    lifted_at: datetime | None = None
    n_cores: int | None = None
    core_places: tuple[tuple[int, int], ...] = ()
    depth: Mapping[str, int] | None = None
    moisture: str | None = None
    soil_temperature_celsius: float | None = None
    has_roots: bool | None = None
    good_or_poor: str | None = None
    symptom: str = ""
    symptom_pattern: str | None = None
    irrigated: bool | None = None
    treatments: str = ""
    crops: CropHistory = CropHistory((), ())
    next_crop: str = ""
    next_crop_on: date | None = None
    tests_wanted: tuple[str, ...] = ()
    extract_cm3_asked: int | None = None
    packed_at: datetime | None = None
    handed_over_at: datetime | None = None
    handed_over_to: str = ""
    arrived_on: date | None = None
    extracted_on: date | None = None
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class Submission:
    """One parcel to one lab; ``lab`` is None when no lab is chosen yet."""

    grower: Grower
    lab: Lab | None
    samples: tuple[Sample, ...]
    sent_on: date | None = None
    units: Units = "metric"


@dataclass(frozen=True, kw_only=True)
class Mark:
    """One rated plant on the map: ``gall_rating.place`` and ``.reading``."""

    x_cm: int
    y_cm: int
    plant: int | None
    reading: Reading
    trace_only: bool = False


@dataclass(frozen=True, kw_only=True)
class BedMap:
    """One root check drawn: the bed, its plants and their grades.

    ``chosen`` is the wire composite ``root_check.chosen``; ``plants`` are the positions of
    the planting, in digging order. ``link`` (may be "") is the address of the check.
    """

    garden_name: str
    bed_name: str
    shape: Mapping[str, object]
    crop: CropGrown
    checked_on: date
    scale: Scale
    chosen: Mapping[str, object]
    marks: tuple[Mark, ...]
    plants: tuple[tuple[int, int], ...] = ()
    n_plants_stood: int | None = None
    rater: str = ""
    note: str = ""
    link: str = ""
    units: Units = "metric"


@dataclass(frozen=True, kw_only=True)
class RatingForm:
    """A blank sheet to rate one planting on paper; no positions give 20 free rows."""

    garden_name: str
    bed_name: str
    shape: Mapping[str, object]
    crop: CropGrown
    scale: Scale
    plants: tuple[tuple[int, int], ...] = ()
    units: Units = "metric"


@dataclass(frozen=True, kw_only=True)
class PotsSheet:
    """A pot test to set up: how many pots, of which bed's soil, and when to look.

    ``link`` is the address of the planting.
    """

    garden_name: str
    bed_name: str
    crop: str
    n_pots: int
    blank_pot: int | None
    soil_cm3_per_pot: int
    sown_on: date
    ready_from_on: date
    ready_to_on: date
    link: str
    bag_code: str = ""
