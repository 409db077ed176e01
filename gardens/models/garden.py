"""A garden: whose it is, where its journal stands, and what its grower says about it."""

from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import Q

from gardens.models.constraints import one_of
from gardens.models.record import Record, plain

FIRST_TAG = "0" * 16


class Garden(models.Model):
    """Whose garden it is and where its journal stands; its row is the lock of every change."""

    id = models.UUIDField(primary_key=True)
    owner = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="gardens")
    head = models.PositiveBigIntegerField(default=0)
    tag = models.CharField(max_length=16, default=FIRST_TAG)
    purged_below = models.PositiveBigIntegerField(default=0)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(purged_below__lte=models.F("head")), name="garden_purged_up_to_head"
            )
        ]

    @property
    def mark(self) -> str:
        """Number and tag of the newest change, as phones keep it."""
        return f"{self.head}.{self.tag}"


class GardenDetails(Record):
    """The record of kind ``garden``: its name, its place and its grower."""

    KIND: ClassVar[str] = "garden"
    WIRE = plain(
        "name",
        "place",
        "time_zone",
        "units",
        "grower_name",
        "grower_address",
        "grower_phone",
        "grower_email",
        "note",
    )

    name = models.CharField(max_length=120)
    place = models.CharField(max_length=120, default="", blank=True)
    time_zone = models.CharField(max_length=64, default="UTC")
    units = models.CharField(max_length=8, default="metric")
    grower_name = models.CharField(max_length=80, default="", blank=True)
    grower_address = models.CharField(max_length=300, default="", blank=True)
    grower_phone = models.CharField(max_length=40, default="", blank=True)
    grower_email = models.CharField(max_length=254, default="", blank=True)
    note = models.TextField(default="", blank=True)

    class Meta(Record.Meta):
        constraints = one_of("garden", units=("metric", "us"))
