"""Names, phones, pairing codes, failed sign-ins: kept of an account beside Django's."""

from uuid import uuid4

from django.conf import settings
from django.db import models
from django.utils import timezone


class AccountName(models.Model):
    """What phones call an account by: the same nowhere else, as the number of its row would be.

    A phone files an account's data under this, also after its server was made anew or another
    one answers at the same address.
    """

    account = models.OneToOneField(
        settings.AUTH_USER_MODEL, models.CASCADE, primary_key=True, related_name="+"
    )
    name = models.UUIDField(default=uuid4, unique=True, editable=False)
    # The name a helper gave when a link made the account; such an account has no password.
    helpers_name = models.CharField(max_length=80, default="", blank=True)


class Device(models.Model):
    """A phone or computer that has signed in, under the name its owner gave it."""

    device = models.UUIDField()
    account = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="devices")
    name = models.CharField(max_length=80, default="", blank=True)
    first_seen_at = models.DateTimeField(auto_now_add=True)
    last_seen_at = models.DateTimeField(default=timezone.now)
    # Of its session, so that it can be ended from another phone; empty when signed out.
    session_key = models.CharField(max_length=40, default="", blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["account", "device"], name="device_once_per_account")
        ]


class UsedPairing(models.Model):
    """A pairing code that was used; it is never taken again."""

    nonce = models.CharField(max_length=43, primary_key=True)
    used_at = models.DateTimeField(auto_now_add=True)


class PairingCode(models.Model):
    """Six digits that let one more phone into an account, for somebody who cannot scan."""

    # Keyed with the server's secret: six digits under a bare hash could be tried out at leisure.
    code_hash = models.CharField(max_length=64, unique=True)
    account = models.OneToOneField(settings.AUTH_USER_MODEL, models.CASCADE, related_name="+")
    expires_at = models.DateTimeField()
    n_wrong = models.PositiveSmallIntegerField(default=0)


class FailedSignIn(models.Model):
    """A sign-in or pairing that was refused, so that guessing is slow."""

    address = models.GenericIPAddressField(null=True)
    # SHA-256 of the name that was typed, since people type passwords there by mistake.
    name_hash = models.CharField(max_length=64, default="", blank=True)
    tried_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        indexes = [models.Index(fields=["address", "tried_at"], name="failed_sign_in_recent")]
