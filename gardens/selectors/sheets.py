"""Finds the records each printed sheet rests on; what they mean on paper is ``gardens.sheets``'s.

Every function starts from a garden the asker may see. Something that is not there is a
``DomainError``, raised where the sheet is filled.
"""

from collections.abc import Iterable, Mapping
from datetime import datetime
from itertools import chain
from typing import Any
from uuid import UUID

from gardens.domain.errors import DomainError
from gardens.models import (
    Bed,
    GallRating,
    Garden,
    GardenDetails,
    LabProfile,
    Paper,
    Planting,
    Record,
    RootCheck,
    SoilSample,
)
from gardens.selectors.papers import find_papers, paper_path
from gardens.selectors.tables import read_table
from gardens.sheets import gather_check, gather_parcel
from gardens.sheets.gather_form import gather_form
from gardens.sheets.gather_pots import gather_pots
from gardens.sheets.values import BedMap, PotsSheet, RatingForm, Submission

Records = list[Mapping[str, Any]]


def gather_submission(
    garden: Garden, sample_ids: list[UUID], *, origin: str, now: datetime
) -> Submission:
    """Return one parcel; raises ``sheet_mixed`` when its samples go to different labs."""
    ids = [str(each) for each in sample_ids]
    records = _of_parcel(garden, sample_ids)
    return gather_parcel.gather_submission(records, ids, origin=origin, now=now)


def gather_filled_form(
    garden: Garden, sample_ids: list[UUID], *, origin: str, now: datetime
) -> tuple[bytes, Mapping[str, Any], Submission]:
    """Return the PDF of the lab's form, how it is filled, and the parcel."""
    ids = [str(each) for each in sample_ids]
    records = _of_parcel(garden, sample_ids)
    form, parcel = gather_form(records, ids, origin=origin, now=now)
    paper = Paper.objects.filter(garden=garden, id=form["paper"], deleted=False).first()
    if paper is None or not find_papers(garden.id, [paper.sha256]):
        raise DomainError("form_not_here")
    return paper_path(garden.id, paper.sha256).read_bytes(), form, parcel


def _of_parcel(garden: Garden, sample_ids: list[UUID]) -> Records:
    """Find what a parcel rests on."""
    samples = list(SoilSample.objects.filter(garden=garden, id__in=sample_ids))
    beds = {sample.bed for sample in samples}
    labs = {sample.lab_profile for sample in samples} - {None}
    return _as_they_travel(
        GardenDetails.objects.filter(garden=garden),
        samples,
        LabProfile.objects.filter(garden=garden, id__in=labs),
        Bed.objects.filter(garden=garden, id__in=beds),
        Planting.objects.filter(garden=garden, bed__in=beds),
    )


def gather_bed_map(garden: Garden, check_id: UUID, *, origin: str) -> BedMap:
    """Return one root check with the plants that were rated, in the order of rating."""
    checks = RootCheck.objects.filter(garden=garden, id=check_id)
    records = _as_they_travel(
        checks,
        GallRating.objects.filter(garden=garden, root_check=check_id),
    )
    records += _with_bed(garden, {check.planting for check in checks})
    scales = read_table("scales")
    return gather_check.gather_bed_map(records, str(check_id), origin=origin, scales=scales)


def gather_rating_form(garden: Garden, planting_id: UUID, gall_scale: str) -> RatingForm:
    """Return what a blank form for one planting shows."""
    records = _with_bed(garden, {planting_id})
    scales = read_table("scales")
    return gather_check.gather_rating_form(records, str(planting_id), gall_scale, scales=scales)


def gather_pots_sheet(garden: Garden, planting_id: UUID, *, origin: str) -> PotsSheet:
    """Return what the sheet of one pot test shows."""
    records = _with_bed(garden, {planting_id})
    samples = Planting.objects.filter(garden=garden, id=planting_id).values("pots_soil_sample")
    records += _as_they_travel(SoilSample.objects.filter(garden=garden, id__in=samples))
    judgements = read_table("judgements")
    return gather_pots(records, str(planting_id), origin=origin, judgements=judgements)


def _with_bed(garden: Garden, planting_ids: set[UUID]) -> Records:
    plantings = list(Planting.objects.filter(garden=garden, id__in=planting_ids))
    beds = Bed.objects.filter(garden=garden, id__in={planting.bed for planting in plantings})
    return _as_they_travel(GardenDetails.objects.filter(garden=garden), plantings, beds)


def _as_they_travel(*found: Iterable[Record]) -> Records:
    return [
        {"id": str(one.id), "kind": one.KIND, "deleted": one.deleted, "doc": one.doc}
        for one in chain(*found)
    ]
