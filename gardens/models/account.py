"""Phones, used pairing codes, failed sign-ins: what is kept of an account beside Django's."""

from django.conf import settings
from django.db import models


class Device(models.Model):
    """A phone or computer that has signed in, under the name its owner gave it."""

    device = models.UUIDField()
    account = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="devices")
    name = models.CharField(max_length=80, default="", blank=True)
    first_seen_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["account", "device"], name="device_once_per_account")
        ]


class UsedPairing(models.Model):
    """A pairing code that was used; it is never taken again."""

    nonce = models.CharField(max_length=43, primary_key=True)
    used_at = models.DateTimeField(auto_now_add=True)


class FailedSignIn(models.Model):
    """A sign-in or pairing that was refused, so that guessing is slow."""

    address = models.GenericIPAddressField(null=True)
    tried_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        indexes = [models.Index(fields=["address", "tried_at"], name="failed_sign_in_recent")]
