"""Fills the sheet of a parcel from the records of one garden, as they travel.

The server and the phone both print from here, so that the same records make the same page.
Not for deciding who may see a garden: whoever brings the records has done that.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from gardens.domain.clock import hour_there, zone_of
from gardens.domain.crop_history import CropHistory, crop_history, read_crop
from gardens.domain.errors import DomainError
from gardens.sheets.shelf import Doc, Shelf, places_of, units_of
from gardens.sheets.values import Grower, Lab, Sample, Submission


def gather_submission(
    records: Iterable[Mapping[str, Any]], sample_ids: Sequence[str], *, origin: str, now: datetime
) -> Submission:
    """One parcel to one lab, from records.

    Parameters
    ----------
    records : iterable of Mapping
        The garden with its samples, labs, beds and plantings; others do not matter.
    sample_ids : sequence of str
        One or more samples, in the order they are printed.
    origin : str
        Address of the server, without a slash at its end; the QR codes begin with it.
    now : datetime
        For a sample not lifted yet; any time zone.

    Returns
    -------
    Submission
        What ``submission_sheet`` prints.

    Raises
    ------
    DomainError
        ``not_found``, ``sheet_incomplete``, or ``sheet_mixed`` when the samples go to
        different labs.
    """
    shelf = Shelf(records)
    samples = [shelf.asked("soil_sample", each, "samples") for each in sample_ids]
    labs = {sample["lab_profile"] for sample in samples}
    if len(labs) > 1:
        raise DomainError("sheet_mixed", samples=[sample["code"] for sample in samples])
    sent = {sample["parcel"] and sample["parcel"]["sent_on"] for sample in samples}
    garden = shelf.garden()
    return Submission(
        grower=Grower(
            name=garden["grower_name"],
            address=garden["grower_address"],
            phone=garden["grower_phone"],
            email=garden["grower_email"],
            garden_name=garden["name"],
            garden_place=garden["place"],
        ),
        lab=_lab(shelf.find("lab_profile", labs.pop())),
        samples=tuple(_sample(shelf, each, origin, now) for each in sample_ids),
        sent_on=_day(sent.pop() if len(sent) == 1 else None),
        units=units_of(garden),
    )


def _sample(shelf: Shelf, each: str, origin: str, now: datetime) -> Sample:
    doc = shelf.asked("soil_sample", each, "samples")
    bed = shelf.needed("bed", doc["bed"], sample=doc["code"])
    zone = zone_of(shelf.garden()["time_zone"])
    lifted_at = doc["lifted_at"] and hour_there(zone, doc["lifted_at"])
    return Sample(
        code=doc["code"],
        link=f"{origin}/samples/{each}",
        bed_name=bed["name"],
        shape=bed["shape"],
        purpose=doc["purpose"],
        soil=bed["soil"],
        part=doc["part"],
        lifted_at=lifted_at,
        n_cores=doc["n_cores"],
        core_places=places_of(doc["core_places"]),
        depth=doc["depth"],
        moisture=doc["moisture"],
        soil_temperature_celsius=_celsius(doc["soil_temperature_celsius"]),
        has_roots=doc["has_roots"],
        good_or_poor=doc["good_or_poor"],
        symptom=doc["symptom"],
        symptom_pattern=doc["symptom_pattern"],
        irrigated=doc["irrigated"],
        treatments=doc["treatments"],
        crops=_crops(shelf, doc, lifted_at or now.astimezone(zone)),
        next_crop=doc["next_crop"],
        next_crop_on=_day(doc["next_crop_on"]),
        tests_wanted=tuple(doc["tests_wanted"]),
        extract_cm3_asked=doc["extract_cm3_asked"],
        **_custody(doc, zone),
        note=doc["note"],
    )


def _custody(doc: Doc, zone: ZoneInfo) -> dict[str, Any]:
    """Whose hands a bag went through, on the garden's own clock."""
    handed, parcel, packed = doc["handed_over"] or {}, doc["parcel"] or {}, doc["packed_at"]
    return {
        "packed_at": packed and hour_there(zone, packed),
        "handed_over_at": hour_there(zone, handed["at"]) if handed else None,
        "handed_over_to": handed.get("to", ""),
        "arrived_on": _day(parcel.get("arrived_on")),
        "extracted_on": _day(doc["extracted_on"]),
    }


def _crops(shelf: Shelf, sample: Doc, lifted_at: datetime) -> CropHistory:
    own = [each for each in shelf.all("planting") if each[1]["bed"] == sample["bed"]]
    crops = [read_crop(doc, each) for each, doc in own if not doc["pots"]]
    return crop_history(crops, lifted_at.date().isoformat(), sampled=sample["planting"])


def _lab(doc: Doc | None) -> Lab | None:
    if doc is None:
        return None
    typed = {name: doc[name] for name in Lab.__dataclass_fields__}
    return Lab(**typed | {"working_days": tuple(doc["working_days"])})


def _day(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)


def _celsius(typed: float | None) -> float | None:
    # JSON on the phone writes 18.0 as 18; both have to print the same.
    return None if typed is None else float(typed)
