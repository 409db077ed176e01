from datetime import UTC, date, datetime
from uuid import UUID, uuid4

import pytest
from django.db import IntegrityError, transaction

from gardens.models import (
    AssayReport,
    Bed,
    Conflict,
    GallRating,
    Garden,
    GardenDetails,
    JournalEntry,
    LabProfile,
    Paper,
    Photo,
    Planting,
    RootCheck,
    SoilSample,
)

DAY, EARLIER = date(2031, 6, 14), date(2031, 6, 13)
NOON = datetime(2031, 6, 14, 12, tzinfo=UTC)

# What the database takes; each line below changes it into something it has to refuse.
GOOD = {
    GardenDetails: {"name": "Behind the mill"},
    Bed: {"name": "North bed", "shape_type": "rectangle", "width_cm": 120, "length_cm": 400},
    Planting: {"bed": uuid4(), "crop": "Okra", "grown_from_on": DAY},
    RootCheck: {"planting": uuid4(), "checked_on": DAY, "chosen_how": "all"},
    GallRating: {
        "root_check": uuid4(),
        "place_x_cm": 1,
        "place_y_cm": 1,
        "state": "rated",
        "grade": 3,
        "gall_scale": "pct10",
        "rated_at": NOON,
    },
    Photo: {
        "of_kind": "bed",
        "of_id": uuid4(),
        "sha256": "a" * 64,
        "n_bytes": 1,
        "width_px": 1,
        "height_px": 1,
        "taken_at": NOON,
    },
    SoilSample: {"bed": uuid4(), "code": "K7M2Q", "purpose": "diagnose"},
    LabProfile: {"name": "Vento Norte Soil Bench"},
    AssayReport: {"soil_sample": uuid4(), "reported_on": DAY},
    Paper: {
        "of_kind": "lab_profile",
        "of_id": uuid4(),
        "name": "form.pdf",
        "sha256": "a" * 64,
        "n_bytes": 1,
    },
    Conflict: {"of_kind": "bed", "of_id": uuid4(), "field": "name", "other_by": "x"},
}
REFUSED = [
    (GardenDetails, {"units": "imperial"}),
    (Bed, {"shape_type": "circle"}),
    (Bed, {"width_cm": 19}),
    (Bed, {"length_cm": 5001}),
    (Bed, {"width_cm": None}),
    (Bed, {"shape_type": "outline"}),
    (Bed, {"outline_points_cm": [[0, 0], [9, 0], [9, 9]]}),
    (Bed, {"depth_cm": 4}),
    (Bed, {"place_x_cm": -1}),
    (Planting, {"grown_to_on": EARLIER}),
    (Planting, {"n_rows": 0, "row_spacing_cm": 30, "plant_spacing_cm": 30}),
    (Planting, {"n_rows": 2}),
    (RootCheck, {"gall_scale": "own"}),
    (RootCheck, {"chosen_how": "some"}),
    (RootCheck, {"chosen_how": "every_kth"}),
    (RootCheck, {"chosen_every_k": 3}),
    (RootCheck, {"n_plants_stood": 0}),
    (GallRating, {"grade": 11}),
    (GallRating, {"grade": -1}),
    (GallRating, {"grade": None}),
    (GallRating, {"state": "dead"}),
    (GallRating, {"state": "unsure", "grade": None}),
    (GallRating, {"grade": 0, "trace_only": True}),
    (GallRating, {"state": "missing", "grade": None, "trace_only": True}),
    (GallRating, {"gall_scale": "own"}),
    (GallRating, {"root_rot_pct": 101}),
    (GallRating, {"root_rot_pct": -1}),
    (GallRating, {"n_examined": 5, "n_damaged": 6, "damage_signs": ""}),
    (GallRating, {"n_examined": 0, "n_damaged": 0, "damage_signs": ""}),
    (GallRating, {"n_examined": 5}),
    (GallRating, {"place_plant": 0}),
    (Photo, {"of_kind": "garden"}),
    (Photo, {"blob": "lost"}),
    (Photo, {"n_bytes": 0}),
    (Photo, {"width_px": 10_001}),
    (SoilSample, {"purpose": "curious"}),
    (SoilSample, {"n_cores": 0}),
    (SoilSample, {"depth_from_cm": 20, "depth_to_cm": 20}),
    (SoilSample, {"depth_from_cm": 20}),
    (SoilSample, {"soil_temperature_celsius": 61}),
    (SoilSample, {"part_x_cm": 1}),
    (SoilSample, {"sent_on": DAY, "arrived_on": EARLIER}),
    (SoilSample, {"arrived_on": DAY}),
    (SoilSample, {"handed_over_at": NOON}),
    (SoilSample, {"coldest_celsius": 9, "warmest_celsius": 8}),
    (SoilSample, {"extract_cm3_asked": 0}),
    (Planting, {"n_pots": 4}),
    (Planting, {"n_pots": 4, "blank_pot": 5, "soil_cm3_per_pot": 700}),
    (GallRating, {"n_galls": -1}),
    (LabProfile, {"usual_days": 0}),
    (LabProfile, {"transit_days": 2}),
    (LabProfile, {"form_paper": UUID(int=1)}),
    (AssayReport, {"counted_pct": 50}),
    (AssayReport, {"examined_soil": "250 cc", "counted_pct": 101}),
    (Paper, {"of_kind": "bed"}),
    (Paper, {"n_bytes": 10_000_001}),
    (Paper, {"blob": "lost"}),
    (Conflict, {"state": "solved"}),
]


@pytest.fixture
def garden(grower):
    return Garden.objects.create(id=uuid4(), owner=grower)


def add(garden, model, **changed):
    return model.objects.bulk_create(
        [model(id=uuid4(), garden=garden, seq=1, **{**GOOD[model], **changed})]
    )


@pytest.mark.parametrize("model", GOOD, ids=lambda model: model.__name__)
def test_the_database_takes_what_is_right(garden, model):
    add(garden, model)
    assert model.objects.count() == 1


@pytest.mark.parametrize(
    ("model", "changed"), REFUSED, ids=[f"{m.__name__} {c}" for m, c in REFUSED]
)
def test_the_database_itself_refuses_what_cannot_be(garden, model, changed):
    with pytest.raises(IntegrityError), transaction.atomic():
        add(garden, model, **changed)


def test_the_edges_themselves_are_taken(garden):
    add(garden, GallRating, grade=0)
    add(garden, GallRating, grade=10, root_rot_pct=100, trace_only=True)
    add(garden, GallRating, n_examined=5, n_damaged=5, damage_signs="")
    add(garden, Planting, grown_to_on=DAY)
    add(garden, SoilSample, sent_on=DAY, arrived_on=DAY)
    add(
        garden,
        Bed,
        shape_type="outline",
        width_cm=None,
        length_cm=None,
        outline_points_cm=[[0, 0], [90, 0], [90, 90]],
    )


@pytest.mark.parametrize("same", ["mid", "seq"])
def test_no_change_and_no_number_is_journalled_twice(garden, same):
    about = {
        "tag": "0" * 16,
        "op": "put",
        "kind": "bed",
        "record": uuid4(),
        "body": {},
        "body_hash": "",
        "status": "applied",
        "received_at": NOON,
    }
    first = {"mid": uuid4(), "seq": 1}
    JournalEntry.objects.create(garden=garden, **first, **about)
    with pytest.raises(IntegrityError), transaction.atomic():
        JournalEntry.objects.create(
            garden=garden, **{"mid": uuid4(), "seq": 2, same: first[same]}, **about
        )


def test_a_purge_never_goes_beyond_the_head(garden):
    with pytest.raises(IntegrityError), transaction.atomic():
        Garden.objects.filter(id=garden.id).update(purged_below=1)
