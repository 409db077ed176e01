"""Two values for one field, kept side by side until a person picks one."""

from typing import ClassVar

from django.db import models

from gardens.models.constraints import one_of
from gardens.models.record import Record, plain
from gardens.models.wire import Whole


class Conflict(Record):
    """The value that stands (``kept``) and the one that came later (``other``)."""

    KIND: ClassVar[str] = "conflict"
    WIRE = (
        *plain("field", "kept", "other", "other_by", "other_at", "state", "closed_by"),
        Whole("of", {"kind": "of_kind", "id": "of_id"}),
    )

    of_kind = models.CharField(max_length=16)
    of_id = models.UUIDField(db_index=True)
    field = models.CharField(max_length=40)
    kept = models.JSONField(null=True)
    other = models.JSONField(null=True)
    other_by = models.CharField(max_length=240)
    other_at = models.DateTimeField(null=True)
    state = models.CharField(max_length=8, default="open")
    closed_by = models.CharField(max_length=240, default="", blank=True)

    class Meta(Record.Meta):
        constraints = one_of("conflict", state=("open", "kept", "taken"))
