"""Links that let helpers into a garden, and the phones that came in by them.

Not synced records: the owner reads and writes them online.
"""

from uuid import uuid4

from django.conf import settings
from django.db import models
from django.utils import timezone

from gardens.models.constraints import one_of, within

MOST_DEVICES = 50


class Share(models.Model):
    """A link: what it lets one do, until when, on how many phones; its secret is only a hash."""

    id = models.UUIDField(primary_key=True, default=uuid4, editable=False)
    garden = models.ForeignKey("gardens.Garden", models.CASCADE, related_name="shares")
    role = models.CharField(max_length=8)
    label = models.CharField(max_length=80, default="", blank=True)
    secret_hash = models.CharField(max_length=64, unique=True)
    expires_at = models.DateTimeField(null=True)
    max_devices = models.PositiveSmallIntegerField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+"
    )
    made_at = models.DateTimeField(default=timezone.now)
    ended_at = models.DateTimeField(null=True)
    refuses_later = models.BooleanField(default=False)

    class Meta:
        constraints = [
            *one_of("share", role=("viewer", "rater", "editor")),
            *within("share", max_devices=(1, MOST_DEVICES)),
        ]


class Helper(models.Model):
    """One phone that came in by a link, under the name its person gave."""

    id = models.UUIDField(primary_key=True, default=uuid4, editable=False)
    share = models.ForeignKey(Share, models.CASCADE, related_name="helpers")
    account = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="helpings")
    device = models.UUIDField()
    name = models.CharField(max_length=80)
    joined_at = models.DateTimeField(default=timezone.now)
    last_seen_at = models.DateTimeField(default=timezone.now)
    ended_at = models.DateTimeField(null=True)
    refuses_later = models.BooleanField(default=False)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["share", "account", "device"], name="helper_once_per_share"
            )
        ]
