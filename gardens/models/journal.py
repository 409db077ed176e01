"""The journal: every change ever taken, in order, never edited."""

from django.conf import settings
from django.db import models


class JournalEntry(models.Model):
    """One change: it answers repeats, holds the old values and proves the order."""

    garden = models.ForeignKey("gardens.Garden", models.CASCADE, related_name="journal")
    mid = models.UUIDField()
    seq = models.PositiveBigIntegerField()
    tag = models.CharField(max_length=16)
    device = models.UUIDField(null=True)
    actor = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.SET_NULL, null=True, related_name="+"
    )
    # Who made the change, where that is not an account here: it came in a file from elsewhere.
    author = models.CharField(max_length=240, default="", blank=True)
    op = models.CharField(max_length=8)
    kind = models.CharField(max_length=16)
    record = models.UUIDField()
    body = models.JSONField()
    body_hash = models.CharField(max_length=64)
    prev = models.JSONField(default=dict)
    status = models.CharField(max_length=12)
    # What was answered besides status and seq: fields kept aside and their conflict records.
    answer = models.JSONField(default=dict)
    claimed_at = models.DateTimeField(null=True)
    received_at = models.DateTimeField()
    # How far the phone's clock was behind ours, when that was more than two minutes.
    skew_seconds = models.BigIntegerField(null=True)

    class Meta:
        indexes = [models.Index(fields=["garden", "record", "seq"], name="journal_of_record")]
        constraints = [
            models.UniqueConstraint(fields=["garden", "mid"], name="journal_mid_once"),
            models.UniqueConstraint(fields=["garden", "seq"], name="journal_seq_once"),
        ]
