"""What every synced record has, whatever its kind.

Not for the order of changes: that is the journal's.
"""

from collections.abc import Mapping
from typing import Any, ClassVar

from django.conf import settings
from django.db import models

from gardens.models.wire import Plain, Whole, to_columns, to_doc


class Record(models.Model):
    """One record of a garden: its newest state, at the number of its newest change."""

    KIND: ClassVar[str]
    WIRE: ClassVar[tuple[Plain | Whole, ...]]

    id = models.UUIDField(primary_key=True)
    garden = models.ForeignKey("gardens.Garden", models.CASCADE, related_name="+")
    seq = models.PositiveBigIntegerField()
    # Field by field: which change set it last, and from which device.
    fver = models.JSONField(default=dict)
    deleted = models.BooleanField(default=False)
    created_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+"
    )
    # Who made it, where that is not an account here: it came in a file from elsewhere.
    author = models.CharField(max_length=240, default="", blank=True)
    device = models.UUIDField(null=True)

    class Meta:
        abstract = True
        indexes = [models.Index(fields=["garden", "seq"], name="%(class)s_feed")]

    @property
    def doc(self) -> dict[str, Any]:
        """The record's fields as they travel."""
        return to_doc(self, self.WIRE)

    def take(self, doc: Mapping[str, Any]) -> None:
        """Set the columns of the fields that ``doc`` holds."""
        for column, value in to_columns(type(self), self.WIRE, doc).items():
            setattr(self, column, value)

    @classmethod
    def columns(cls) -> list[str]:
        """The columns a later change may rewrite."""
        return [column for each in cls.WIRE for column in each.columns] + [
            "seq",
            "fver",
            "deleted",
        ]


def plain(*names: str) -> tuple[Plain, ...]:
    """Wire fields that are one column each."""
    return tuple(Plain(name) for name in names)
