"""Signing in and out of an account, and the phones that have done so.

Not for pairing codes: see ``pairing``.
"""

from datetime import timedelta
from typing import Any
from uuid import UUID

from django.contrib.auth import authenticate
from django.utils import timezone

from gardens.models import Device, FailedSignIn

TRIES = 10
WINDOW = timedelta(minutes=1)


class TooManyTries(Exception):
    """This address failed too often in the last minute."""


def check_tries(address: str | None) -> None:
    """Raise ``TooManyTries`` when an address has failed ten times within a minute."""
    since = timezone.now() - WINDOW
    if FailedSignIn.objects.filter(address=address, tried_at__gt=since).count() >= TRIES:
        raise TooManyTries


def note_failure(address: str | None) -> None:
    """Remember a failed try, and forget those that no longer count."""
    FailedSignIn.objects.filter(tried_at__lt=timezone.now() - WINDOW).delete()
    FailedSignIn.objects.create(address=address)


def sign_in(*, username: str, password: str, address: str | None) -> Any | None:
    """Return the account of this name and password, or None; raises ``TooManyTries``."""
    check_tries(address)
    account = authenticate(username=username, password=password)
    if account is None:
        note_failure(address)
    return account


def remember_device(*, account: Any, device: UUID, name: str) -> None:
    """Keep the name its owner gives a phone."""
    Device.objects.update_or_create(account=account, device=device, defaults={"name": name})


def author_name(account: Any, device: UUID) -> str:
    """Name who wrote something, with the phone, since one account may use several."""
    name = (
        Device.objects.filter(account=account, device=device).values_list("name", flat=True).first()
    )
    return f"{account.get_username()}, {name}" if name else str(account.get_username())
