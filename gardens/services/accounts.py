"""Signing in to an account, and what an account is called.

Not for its phones (see ``devices``), nor for pairing codes (see ``pairing``).
"""

import hashlib
from datetime import timedelta
from typing import Any
from uuid import uuid4

from django.contrib.auth import authenticate, get_user_model
from django.utils import timezone

from gardens.models import AccountName, FailedSignIn

TRIES = 10
# Many people may share an address, and one of them must not shut the others out too soon.
TRIES_OF_ALL = 100
WINDOW = timedelta(minutes=1)


class TooManyTries(Exception):
    """Too many tries from this address failed in the last minute."""


def check_tries(address: str | None, name: str) -> None:
    """Raise ``TooManyTries`` after ten failures of a name at an address, or a hundred in all."""
    since = timezone.now() - WINDOW
    failed = FailedSignIn.objects.filter(address=address, tried_at__gt=since)
    if failed.count() >= TRIES_OF_ALL:
        raise TooManyTries
    if failed.filter(name_hash=_hash_of(name)).count() >= TRIES:
        raise TooManyTries


def note_failure(address: str | None, name: str) -> None:
    """Remember a failed try, and forget those that no longer count."""
    FailedSignIn.objects.filter(tried_at__lt=timezone.now() - WINDOW).delete()
    FailedSignIn.objects.create(address=address, name_hash=_hash_of(name))


def _hash_of(name: str) -> str:
    return hashlib.sha256(name.encode()).hexdigest()


def sign_in(*, username: str, password: str, address: str | None) -> Any | None:
    """Return the account of this name and password, or None; raises ``TooManyTries``."""
    check_tries(address, username)
    account = authenticate(username=username, password=password)
    if account is None:
        note_failure(address, username)
    return account


def known_as(account: Any) -> AccountName:
    """Return what phones call the account by; made when first asked for, never changed."""
    named, _ = AccountName.objects.get_or_create(account=account)
    return named


def make_helpers_account(name: str) -> Any:
    """Make the account of a helper who opened a link: nobody can sign in to it by name."""
    accounts = get_user_model().objects
    account = accounts.create_user(f"link-{uuid4().hex}", password=None)
    AccountName.objects.create(account=account, helpers_name=name)
    return account
