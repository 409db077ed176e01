"""Fills the map of a root check and the blank form from the records of one garden.

The server and the phone both print from here, so that the same records make the same page.
Not for deciding who may see a garden: whoever brings the records has done that.
"""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from gardens.domain.crop_history import read_crop
from gardens.domain.galling import plant_key, read_reading
from gardens.domain.scales import read_scale
from gardens.sheets.shelf import Doc, Shelf, places_of, units_of
from gardens.sheets.values import BedMap, Mark, RatingForm


def gather_bed_map(
    records: Iterable[Mapping[str, Any]],
    check_id: str,
    *,
    origin: str,
    scales: Mapping[str, Any],
) -> BedMap:
    """One root check with the plants that were rated, in the order of rating.

    Parameters
    ----------
    records : iterable of Mapping
        The garden, the check, its planting, its bed and its ratings; others do not matter.
    check_id : str
        Root check to draw.
    origin : str
        Address of the server, without a slash at its end.
    scales : Mapping
        Table ``scales``.

    Returns
    -------
    BedMap
        What ``bed_map`` prints.

    Raises
    ------
    DomainError
        ``not_found`` or ``sheet_incomplete``.
    """
    shelf = Shelf(records)
    check = shelf.asked("root_check", check_id, "root_check")
    planting = shelf.needed("planting", check["planting"])
    bed = shelf.needed("bed", planting["bed"])
    ratings = [(doc["rated_at"], each, doc) for each, doc in shelf.all("gall_rating")]
    return BedMap(
        garden_name=shelf.garden()["name"],
        bed_name=bed["name"],
        shape=bed["shape"],
        crop=read_crop(planting, check["planting"]),
        checked_on=date.fromisoformat(check["checked_on"]),
        scale=read_scale(check["gall_scale"], scales),
        chosen=check["chosen"],
        marks=tuple(_mark(doc) for *_, doc in sorted(ratings) if doc["root_check"] == check_id),
        plants=places_of(planting["plants"]),
        n_plants_stood=check["n_plants_stood"],
        rater=check["rater"],
        note=check["note"],
        link=f"{origin}/checks/{check_id}",
        units=units_of(shelf.garden()),
    )


def gather_rating_form(
    records: Iterable[Mapping[str, Any]],
    planting_id: str,
    gall_scale: str,
    *,
    scales: Mapping[str, Any],
) -> RatingForm:
    """What a blank form for one planting shows.

    Parameters
    ----------
    records : iterable of Mapping
        The garden, the planting and its bed; others do not matter.
    planting_id : str
        Planting to rate.
    gall_scale : str
        Key of a scale in the table.
    scales : Mapping
        Table ``scales``.

    Returns
    -------
    RatingForm
        What ``rating_form`` prints.

    Raises
    ------
    DomainError
        ``not_found`` or ``sheet_incomplete``.
    """
    shelf = Shelf(records)
    planting = shelf.asked("planting", planting_id, "planting")
    bed = shelf.needed("bed", planting["bed"])
    return RatingForm(
        garden_name=shelf.garden()["name"],
        bed_name=bed["name"],
        shape=bed["shape"],
        crop=read_crop(planting, planting_id),
        scale=read_scale(gall_scale, scales),
        plants=places_of(planting["plants"]),
        units=units_of(shelf.garden()),
    )


def _mark(doc: Doc) -> Mark:
    return Mark(
        x_cm=doc["place"]["x_cm"],
        y_cm=doc["place"]["y_cm"],
        plant=doc["place"]["plant"],
        reading=read_reading(doc["reading"], plant_key(doc["place"])),
        trace_only=doc["reading"]["trace_only"],
    )
