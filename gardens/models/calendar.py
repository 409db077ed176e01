"""The secret address under which a person's calendar program finds what is due."""

import hashlib

from django.conf import settings
from django.db import models


class CalendarAddress(models.Model):
    """One address a person; only its hash is kept, so a copy of the database opens none."""

    account = models.OneToOneField(
        settings.AUTH_USER_MODEL, models.CASCADE, primary_key=True, related_name="+"
    )
    secret_sha256 = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField()


def hash_of(secret: str) -> str:
    """Return what is kept of a secret. It is long and random, so a plain hash is enough."""
    return hashlib.sha256(secret.encode()).hexdigest()
