"""The records of a garden: one frozen dataclass per kind, each field with its rule.

The field names are the wire names, the same in SQL, JSON and on the phone. Those of a
laboratory are in ``lab_kinds``. Not for storing, merging or asking who may see what.
"""

from copy import copy
from dataclasses import dataclass, field
from typing import Any

from gardens.domain import composites, lab_composites
from gardens.domain.fields import (
    EMAIL_LENGTH,
    NAME_LENGTH,
    NOTE_LENGTH,
    PHONE_LENGTH,
    Rule,
    day,
    flag,
    identifier,
    matching,
    maybe,
    moment,
    one_of,
    text,
    whole,
)

Parts = dict[str, Any]
Places = list[list[int]]

MOST_GALLS = 5000
LOOK_ALIKES = (
    "legume_nodules",
    "clubroot",
    "crown_gall",
    "false_root_knot",
    "cyst_nematode",
    "storage_swelling",
    "herbicide_injury",
    "unsure",
)


def must(rule: Rule, *, refers_to: str | None = None) -> Any:
    """Field that has to be there when a record is made.

    Parameters
    ----------
    rule : Rule
        For its value.
    refers_to : str or None
        Kind of the record it names by id.

    Returns
    -------
    Any
        A dataclass field.
    """
    return field(metadata={"rule": rule, "required": True, "refers_to": refers_to})


def may(rule: Rule, default: object = "", *, refers_to: str | None = None) -> Any:
    """Field that may be left out and then has its default.

    Parameters
    ----------
    rule : Rule
        For its value.
    default : object
        Its value when left out; lists and dicts are copied.
    refers_to : str or None
        Kind of the record it names by id.

    Returns
    -------
    Any
        A dataclass field.
    """
    about = {"rule": rule, "required": False, "refers_to": refers_to}
    return field(default_factory=lambda: copy(default), metadata=about)


def owned(default: object = None) -> Any:
    """Field only the server writes.

    Parameters
    ----------
    default : object
        Its value until the server writes one.

    Returns
    -------
    Any
        A dataclass field.
    """
    return field(default_factory=lambda: default, metadata={"server": True})


_note = text(NOTE_LENGTH)
_name = text(NAME_LENGTH, 1)
_phone = text(PHONE_LENGTH)
_email = text(EMAIL_LENGTH)
_crop_key = matching(r"[a-z0-9_]{0,40}", "not_a_key")


@dataclass(frozen=True, kw_only=True)
class Garden:
    """A garden and the grower it belongs to."""

    name: str = must(text(120, 1))
    place: str = may(text(120))
    time_zone: str = may(text(64, 1), "UTC")
    units: str = may(one_of(("metric", "us")), "metric")
    grower_name: str = may(text(NAME_LENGTH))
    grower_address: str = may(text(300))
    grower_phone: str = may(_phone)
    grower_email: str = may(_email)
    note: str = may(_note)


@dataclass(frozen=True, kw_only=True)
class Bed:
    """A piece of ground with a shape, kept over the years."""

    name: str = must(_name)
    shape: Parts = must(composites.shape)
    place: Parts = may(composites.place_in_garden, {"x_cm": 0, "y_cm": 0})
    depth_cm: int | None = may(maybe(whole(5, 200)), None)
    soil: str = may(text(200))
    archived: bool = may(flag, False)
    note: str = may(_note)


@dataclass(frozen=True, kw_only=True)
class Planting:
    """A crop in a bed between two days, and where each plant stands."""

    bed: str = must(identifier, refers_to="bed")
    crop: str = must(_name)
    crop_key: str = may(_crop_key)
    cultivar: str = may(text(80))
    resistance_code: str = may(text(40))
    grown: Parts = must(composites.grown)
    rows: Parts | None = may(maybe(composites.rows), None)
    plants: Places = must(composites.plants)
    pots: Parts | None = may(maybe(lab_composites.pots), None, refers_to="soil_sample")
    note: str = may(_note)


@dataclass(frozen=True, kw_only=True)
class RootCheck:
    """Digging and rating the roots of one planting on one day."""

    planting: str = must(identifier, refers_to="planting")
    checked_on: str = must(day)
    gall_scale: str = may(one_of(composites.GALL_SCALES), "pct10")
    rater: str = may(text(NAME_LENGTH))
    chosen: Parts = must(composites.chosen)
    n_plants_stood: int | None = may(maybe(whole(1, 2000)), None)
    note: str = may(_note)


@dataclass(frozen=True, kw_only=True)
class GallRating:
    """What was seen on the roots of one plant."""

    root_check: str = must(identifier, refers_to="root_check")
    place: Parts = must(composites.rating_place)
    reading: Parts = must(composites.reading)
    root_rot_pct: int | None = may(maybe(whole(0, 100)), None)
    look_alike: str | None = may(maybe(one_of(LOOK_ALIKES)), None)
    produce_damage: Parts | None = may(maybe(composites.produce_damage), None)
    n_galls: int | None = may(maybe(whole(0, MOST_GALLS)), None)
    rated_at: str = must(moment)
    note: str = may(_note)


@dataclass(frozen=True, kw_only=True)
class Photo:
    """A picture of another record; its bytes travel apart, under their hash."""

    of: Parts = must(composites.parts(kind=one_of(composites.PHOTO_SUBJECTS), id=identifier))
    sha256: str = must(matching(r"[0-9a-f]{64}", "not_a_hash"))
    n_bytes: int = must(whole(1, 8_000_000))
    mime: str = may(one_of(("image/jpeg", "image/heic")), "image/jpeg")
    width_px: int = must(whole(1, 10_000))
    height_px: int = must(whole(1, 10_000))
    taken_at: str = must(moment)
    blob: str = owned("pending")


@dataclass(frozen=True, kw_only=True)
class Conflict:
    """Two values for one field; the server makes it, a person closes it."""

    of: Parts = owned()
    field: str = owned("")
    kept: Any = owned()
    other: Any = owned()
    other_by: str = owned("")
    other_at: str | None = owned()
    state: str = may(one_of(("open", "kept", "taken")), "open")
    closed_by: str = may(text(NAME_LENGTH))


@dataclass(frozen=True, kw_only=True)
class Held:
    """A change that came after its author's link had ended; the server makes it."""

    op: str = owned("put")
    kind: str = owned("")
    of: Parts = owned()
    set: Parts | None = owned()
    base: int = owned(0)
    mid: str = owned("")
    by: str = owned("")
    by_device: str = owned("")
    at: str | None = owned()
    why: str = owned("link_ended")
    state: str = may(one_of(("waiting", "accepted", "declined")), "waiting")
    closed_by: str = may(text(NAME_LENGTH))
