"""Digging up roots: the check, the rating of each plant, and photos of what was seen."""

from typing import ClassVar

from django.db import models
from django.db.models import Q

from gardens.domain.composites import GALL_SCALES, PHOTO_SUBJECTS
from gardens.models.constraints import in_order, one_of, together, within
from gardens.models.record import Record, plain
from gardens.models.wire import Whole


class RootCheck(Record):
    """Digging and rating the roots of one planting on one day."""

    KIND: ClassVar[str] = "root_check"
    WIRE = (
        *plain("planting", "checked_on", "gall_scale", "rater", "n_plants_stood", "note"),
        Whole("chosen", {"how": "chosen_how", "every_k": "chosen_every_k"}),
    )

    planting = models.UUIDField(db_index=True)
    checked_on = models.DateField()
    gall_scale = models.CharField(max_length=8, default="pct10")
    rater = models.CharField(max_length=80, default="", blank=True)
    chosen_how = models.CharField(max_length=16)
    chosen_every_k = models.IntegerField(null=True)
    n_plants_stood = models.IntegerField(null=True)
    note = models.TextField(default="", blank=True)

    class Meta(Record.Meta):
        constraints = [
            *one_of(
                "root_check",
                gall_scale=GALL_SCALES,
                chosen_how=("all", "every_kth", "worst_looking", "random"),
            ),
            *within("root_check", chosen_every_k=(2, 50), n_plants_stood=(1, 2000)),
            models.CheckConstraint(
                condition=Q(chosen_how="every_kth", chosen_every_k__isnull=False)
                | (~Q(chosen_how="every_kth") & Q(chosen_every_k__isnull=True)),
                name="root_check_every_k_only_with_every_kth",
            ),
        ]


class GallRating(Record):
    """What was seen on the roots of one plant; the grade never travels without its scale."""

    KIND: ClassVar[str] = "gall_rating"
    WIRE = (
        *plain("root_check", "root_rot_pct", "look_alike", "n_galls", "rated_at", "note"),
        Whole("place", {"x_cm": "place_x_cm", "y_cm": "place_y_cm", "plant": "place_plant"}),
        Whole(
            "reading",
            {
                "state": "state",
                "grade": "grade",
                "gall_scale": "gall_scale",
                "trace_only": "trace_only",
            },
        ),
        Whole(
            "produce_damage",
            {"n_examined": "n_examined", "n_damaged": "n_damaged", "signs": "damage_signs"},
        ),
    )

    root_check = models.UUIDField(db_index=True)
    place_x_cm = models.IntegerField()
    place_y_cm = models.IntegerField()
    place_plant = models.IntegerField(null=True)
    state = models.CharField(max_length=8)
    grade = models.SmallIntegerField(null=True)
    gall_scale = models.CharField(max_length=8)
    trace_only = models.BooleanField(default=False)
    root_rot_pct = models.SmallIntegerField(null=True)
    look_alike = models.CharField(max_length=24, null=True)
    n_examined = models.IntegerField(null=True)
    n_damaged = models.IntegerField(null=True)
    damage_signs = models.CharField(max_length=200, null=True)
    n_galls = models.IntegerField(null=True)
    rated_at = models.DateTimeField()
    note = models.TextField(default="", blank=True)

    class Meta(Record.Meta):
        constraints = [
            *one_of("gall_rating", gall_scale=GALL_SCALES, state=("rated", "missing", "dead")),
            *within(
                "gall_rating",
                grade=(0, 10),
                root_rot_pct=(0, 100),
                place_x_cm=(0, 5000),
                place_y_cm=(0, 5000),
                place_plant=(1, 400),
                n_examined=(1, 1000),
                n_damaged=(0, 1000),
                n_galls=(0, 5000),
            ),
            models.CheckConstraint(
                condition=Q(state="rated", grade__isnull=False)
                | (~Q(state="rated") & Q(grade__isnull=True)),
                name="gall_rating_grade_only_when_rated",
            ),
            models.CheckConstraint(
                condition=Q(trace_only=False) | Q(grade__isnull=False, grade__gte=1),
                name="gall_rating_one_gall_is_never_grade_0",
            ),
            in_order("gall_rating", "n_damaged", "n_examined"),
            together("gall_rating", "damage", "n_examined", "n_damaged", "damage_signs"),
        ]


class Photo(Record):
    """A photo of something in the garden; its bytes arrive after this record."""

    KIND: ClassVar[str] = "photo"
    WIRE = (
        *plain("sha256", "n_bytes", "mime", "width_px", "height_px", "taken_at", "blob"),
        Whole("of", {"kind": "of_kind", "id": "of_id"}),
    )

    of_kind = models.CharField(max_length=16)
    of_id = models.UUIDField(db_index=True)
    sha256 = models.CharField(max_length=64)
    n_bytes = models.IntegerField()
    mime = models.CharField(max_length=32, default="image/jpeg")
    width_px = models.IntegerField()
    height_px = models.IntegerField()
    taken_at = models.DateTimeField()
    blob = models.CharField(max_length=8, default="pending")

    class Meta(Record.Meta):
        indexes = [
            *Record.Meta.indexes,
            models.Index(fields=["garden", "sha256"], name="photo_by_hash"),
        ]
        constraints = [
            *one_of("photo", of_kind=PHOTO_SUBJECTS, blob=("pending", "stored", "refused")),
            *within("photo", n_bytes=(1, 8_000_000), width_px=(1, 10_000), height_px=(1, 10_000)),
        ]
