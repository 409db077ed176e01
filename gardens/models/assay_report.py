"""What a laboratory wrote about a bag, and the papers that belong to the garden's records."""

from typing import ClassVar

from django.db import models

from gardens.domain.composites import PAPER_SUBJECTS
from gardens.domain.lab_kinds import MOST_PAPER_BYTES
from gardens.models.constraints import one_of, within
from gardens.models.record import Record, plain
from gardens.models.wire import Whole


class AssayReport(Record):
    """One letter of a laboratory about one bag of soil."""

    KIND: ClassVar[str] = "assay_report"
    WIRE = (
        *plain(
            "soil_sample",
            "lab_profile",
            "reported_on",
            "method",
            "found",
            "species_id",
            "hazard",
            "comments",
            "note",
        ),
        Whole("examined", {"soil": "examined_soil", "counted_pct": "counted_pct"}),
    )

    soil_sample = models.UUIDField(db_index=True)
    lab_profile = models.UUIDField(null=True)
    reported_on = models.DateField()
    method = models.CharField(max_length=200, default="", blank=True)
    examined_soil = models.CharField(max_length=60, null=True)
    counted_pct = models.IntegerField(null=True)
    found = models.JSONField(default=list)
    species_id = models.CharField(max_length=200, default="", blank=True)
    hazard = models.CharField(max_length=400, default="", blank=True)
    comments = models.TextField(default="", blank=True)
    note = models.TextField(default="", blank=True)

    class Meta(Record.Meta):
        constraints = [
            *within("assay_report", counted_pct=(1, 100)),
            models.CheckConstraint(
                condition=models.Q(counted_pct__isnull=True)
                | models.Q(examined_soil__isnull=False),
                name="assay_report_counted_only_of_examined",
            ),
        ]


class Paper(Record):
    """A PDF that belongs to another record; its bytes arrive after this record."""

    KIND: ClassVar[str] = "paper"
    WIRE = (
        *plain("name", "sha256", "n_bytes", "blob"),
        Whole("of", {"kind": "of_kind", "id": "of_id"}),
    )

    of_kind = models.CharField(max_length=16)
    of_id = models.UUIDField(db_index=True)
    name = models.CharField(max_length=80)
    sha256 = models.CharField(max_length=64)
    n_bytes = models.IntegerField()
    blob = models.CharField(max_length=8, default="pending")

    class Meta(Record.Meta):
        indexes = [
            *Record.Meta.indexes,
            models.Index(fields=["garden", "sha256"], name="paper_by_hash"),
        ]
        constraints = [
            *one_of("paper", of_kind=PAPER_SUBJECTS, blob=("pending", "stored", "refused")),
            *within("paper", n_bytes=(1, MOST_PAPER_BYTES)),
        ]
