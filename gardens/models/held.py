"""A change that arrived after the link of whoever made it had ended, until somebody decides."""

from typing import ClassVar

from django.db import models

from gardens.models.constraints import one_of
from gardens.models.record import Record, plain
from gardens.models.wire import Whole


class Held(Record):
    """The change as it was sent, not yet applied; ``by`` and ``at`` say who made it and when."""

    KIND: ClassVar[str] = "held"
    WIRE = (
        *plain("op", "kind", "set", "base", "mid", "by", "by_device", "at", "why"),
        *plain("state", "closed_by"),
        Whole("of", {"kind": "of_kind", "id": "of_id"}),
    )

    op = models.CharField(max_length=8)
    kind = models.CharField(max_length=16)
    of_kind = models.CharField(max_length=16)
    of_id = models.UUIDField(db_index=True)
    set = models.JSONField(null=True)
    base = models.PositiveBigIntegerField(default=0)
    mid = models.UUIDField()
    by = models.CharField(max_length=240)
    by_device = models.CharField(max_length=80, default="", blank=True)
    at = models.DateTimeField(null=True)
    why = models.CharField(max_length=12, default="link_ended")
    state = models.CharField(max_length=8, default="waiting")
    closed_by = models.CharField(max_length=240, default="", blank=True)

    class Meta(Record.Meta):
        constraints = one_of(
            "held",
            op=("put", "patch", "delete"),
            why=("link_ended",),
            state=("waiting", "accepted", "declined"),
        )
