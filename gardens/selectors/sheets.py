"""Gathers what each printed sheet needs, as plain values of ``gardens.sheets.values``.

Every function starts from a garden the asker may see. Something that is not there is a
``DomainError``: ``not_found`` for what was asked for, ``sheet_incomplete`` for what it rests on.
"""

from datetime import datetime
from typing import TypeVar
from uuid import UUID
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from gardens.domain.crop_history import CropHistory, crop_history, read_crop
from gardens.domain.errors import DomainError
from gardens.domain.galling import plant_key, read_reading
from gardens.domain.scales import Scale, read_scale
from gardens.models import (
    Bed,
    GallRating,
    Garden,
    GardenDetails,
    LabProfile,
    Planting,
    Record,
    RootCheck,
    SoilSample,
)
from gardens.selectors.tables import read_table
from gardens.sheets.values import BedMap, Grower, Lab, Mark, RatingForm, Sample, Submission

Kind = TypeVar("Kind", bound=Record)
Places = tuple[tuple[int, int], ...]


def gather_submission(
    garden: Garden, sample_ids: list[UUID], *, origin: str, now: datetime
) -> Submission:
    """Return one parcel; raises ``sheet_mixed`` when its samples go to different labs."""
    samples = [_find(SoilSample, garden, each, "samples") for each in sample_ids]
    labs = {sample.lab_profile for sample in samples}
    if len(labs) > 1:
        raise DomainError("sheet_mixed", samples=[sample.code for sample in samples])
    sent = {sample.sent_on for sample in samples}
    details = _details(garden)
    return Submission(
        grower=Grower(
            name=details.grower_name,
            address=details.grower_address,
            phone=details.grower_phone,
            email=details.grower_email,
            garden_name=details.name,
            garden_place=details.place,
        ),
        lab=_lab(garden, labs.pop()),
        samples=tuple(_sample(garden, each, details, origin, now) for each in samples),
        sent_on=sent.pop() if len(sent) == 1 else None,
        units="us" if details.units == "us" else "metric",
    )


def gather_bed_map(garden: Garden, check_id: UUID, *, origin: str) -> BedMap:
    """Return one root check with the plants that were rated, in the order of rating."""
    check = _find(RootCheck, garden, check_id, "root_check")
    planting = _needed(Planting, garden, check.planting, "planting")
    bed = _needed(Bed, garden, planting.bed, "bed")
    details = _details(garden)
    ratings = GallRating.objects.filter(garden=garden, root_check=check.id, deleted=False)
    return BedMap(
        garden_name=details.name,
        bed_name=bed.name,
        shape=bed.doc["shape"],
        crop=read_crop(planting.doc, str(planting.id)),
        checked_on=check.checked_on,
        scale=_scale(check.gall_scale),
        chosen=check.doc["chosen"],
        marks=tuple(_mark(each) for each in ratings.order_by("rated_at", "id")),
        plants=_places(planting.plants),
        n_plants_stood=check.n_plants_stood,
        rater=check.rater,
        note=check.note,
        link=f"{origin}/checks/{check.id}",
        units="us" if details.units == "us" else "metric",
    )


def gather_rating_form(garden: Garden, planting_id: UUID, gall_scale: str) -> RatingForm:
    """Return what a blank form for one planting shows."""
    planting = _find(Planting, garden, planting_id, "planting")
    bed = _needed(Bed, garden, planting.bed, "bed")
    details = _details(garden)
    return RatingForm(
        garden_name=details.name,
        bed_name=bed.name,
        shape=bed.doc["shape"],
        crop=read_crop(planting.doc, str(planting.id)),
        scale=_scale(gall_scale),
        plants=_places(planting.plants),
        units="us" if details.units == "us" else "metric",
    )


def _find(model: type[Kind], garden: Garden, each: UUID, asked_by: str) -> Kind:
    found = model.objects.filter(garden=garden, id=each, deleted=False).first()
    if found is None:
        raise DomainError("not_found", field=asked_by, id=str(each))
    return found


def _needed(model: type[Kind], garden: Garden, each: UUID, what: str) -> Kind:
    # A deleted bed still had its name and shape when the roots were dug.
    found = model.objects.filter(garden=garden, id=each).first()
    if found is None:
        raise DomainError("sheet_incomplete", missing=what)
    return found


def _details(garden: Garden) -> GardenDetails:
    return GardenDetails.objects.get(garden=garden)


def _scale(gall_scale: str) -> Scale:
    return read_scale(gall_scale, read_table("scales"))


def _places(points: list[list[int]]) -> Places:
    return tuple((x, y) for x, y in points)


def _mark(rating: GallRating) -> Mark:
    return Mark(
        x_cm=rating.place_x_cm,
        y_cm=rating.place_y_cm,
        plant=rating.place_plant,
        reading=read_reading(rating.doc["reading"], plant_key(rating.doc["place"])),
        trace_only=rating.trace_only,
    )


def _lab(garden: Garden, lab_id: UUID | None) -> Lab | None:
    found = LabProfile.objects.filter(garden=garden, id=lab_id, deleted=False).first()
    if found is None:
        return None
    return Lab(
        name=found.name,
        address=found.address,
        phone=found.phone,
        email=found.email,
        account_number=found.account_number,
        reporting_unit=found.reporting_unit,
        working_days=tuple(found.working_days),
        parcel_wishes=found.parcel_wishes,
    )


def _sample(
    garden: Garden, sample: SoilSample, details: GardenDetails, origin: str, now: datetime
) -> Sample:
    bed = Bed.objects.filter(garden=garden, id=sample.bed).first()
    if bed is None:
        raise DomainError("sheet_incomplete", sample=sample.code, missing="bed")
    zone = _zone(details.time_zone)
    doc = sample.doc
    return Sample(
        code=sample.code,
        link=f"{origin}/samples/{sample.id}",
        bed_name=bed.name,
        shape=bed.doc["shape"],
        purpose=sample.purpose,
        soil=bed.soil,
        part=doc["part"],
        lifted_at=sample.lifted_at and sample.lifted_at.astimezone(zone),
        n_cores=sample.n_cores,
        core_places=_places(sample.core_places),
        depth=doc["depth"],
        moisture=sample.moisture,
        soil_temperature_celsius=sample.soil_temperature_celsius,
        has_roots=sample.has_roots,
        good_or_poor=sample.good_or_poor,
        symptom=sample.symptom,
        symptom_pattern=sample.symptom_pattern,
        irrigated=sample.irrigated,
        treatments=sample.treatments,
        crops=_crops(garden, sample, (sample.lifted_at or now).astimezone(zone)),
        next_crop=sample.next_crop,
        next_crop_on=sample.next_crop_on,
        tests_wanted=tuple(sample.tests_wanted),
        note=sample.note,
    )


def _crops(garden: Garden, sample: SoilSample, lifted_at: datetime) -> CropHistory:
    plantings = Planting.objects.filter(garden=garden, bed=sample.bed, deleted=False)
    crops = [read_crop(planting.doc, str(planting.id)) for planting in plantings]
    sampled = str(sample.planting) if sample.planting else None
    return crop_history(crops, lifted_at.date().isoformat(), sampled=sampled)


def _zone(name: str) -> ZoneInfo:
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        # A phone may send any text here; a sheet in UTC is better than none.
        return ZoneInfo("UTC")
