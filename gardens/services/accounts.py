"""Signing in and out of an account, and the phones that have done so.

Not for pairing codes: see ``pairing``.
"""

import hashlib
from datetime import timedelta
from typing import Any
from uuid import UUID

from django.contrib.auth import authenticate
from django.utils import timezone

from gardens.models import AccountName, Device, FailedSignIn

TRIES = 10
# Many people may share an address, and one of them must not shut the others out too soon.
TRIES_OF_ALL = 100
WINDOW = timedelta(minutes=1)


class TooManyTries(Exception):
    """Too many tries from this address failed in the last minute."""


def check_tries(address: str | None, name: str | None = None) -> None:
    """Raise ``TooManyTries`` after ten failures of a name at an address, or a hundred in all."""
    since = timezone.now() - WINDOW
    failed = FailedSignIn.objects.filter(address=address, tried_at__gt=since)
    if failed.count() >= TRIES_OF_ALL:
        raise TooManyTries
    if name is not None and failed.filter(name_hash=_hash_of(name)).count() >= TRIES:
        raise TooManyTries


def note_failure(address: str | None, name: str | None = None) -> None:
    """Remember a failed try, and forget those that no longer count."""
    FailedSignIn.objects.filter(tried_at__lt=timezone.now() - WINDOW).delete()
    name_hash = "" if name is None else _hash_of(name)
    FailedSignIn.objects.create(address=address, name_hash=name_hash)


def _hash_of(name: str) -> str:
    return hashlib.sha256(name.encode()).hexdigest()


def sign_in(*, username: str, password: str, address: str | None) -> Any | None:
    """Return the account of this name and password, or None; raises ``TooManyTries``."""
    check_tries(address, username)
    account = authenticate(username=username, password=password)
    if account is None:
        note_failure(address, username)
    return account


def name_of(account: Any) -> UUID:
    """Return what phones call the account by; made when first asked for, never changed."""
    named, _ = AccountName.objects.get_or_create(account=account)
    return named.name


def remember_device(*, account: Any, device: UUID, name: str) -> None:
    """Keep the name its owner gives a phone."""
    Device.objects.update_or_create(account=account, device=device, defaults={"name": name})


def author_name(account: Any, device: UUID) -> str:
    """Name who wrote something, with the phone, since one account may use several."""
    name = (
        Device.objects.filter(account=account, device=device).values_list("name", flat=True).first()
    )
    return f"{account.get_username()}, {name}" if name else str(account.get_username())
