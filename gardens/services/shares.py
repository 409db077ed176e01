"""Links for helpers: the owner makes and ends them, a helper comes in by one.

The secret of a link is 256 random bits and is kept as a hash only, so nobody can look it up later.
Not for what somebody who came in may do: see ``gardens.selectors.access``.
"""

import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from gardens.models import AccountName, Garden, Helper, Share
from gardens.selectors.access import Access, Asker, access_to, has_ended
from gardens.selectors.names import names_in, shown_name
from gardens.services.accounts import check_tries, make_helpers_account, note_failure
from gardens.services.journal import locked

# No name an account can have, so that nobody is shut out by it.
JOINING = ":join"
LONGEST_NAME = 80


class NoSuchShare(Exception):
    """The garden has no such link, or no such phone came in by one."""


class LinkEnded(Exception):
    """No link has this secret, or it lets nobody in any more; the asker never learns which."""


class LinkFull(Exception):
    """As many phones as the link is for have come in by it."""


@dataclass(frozen=True)
class Made:
    """A new link and its secret, which is told once."""

    share: Share
    secret: str


@dataclass(frozen=True)
class Joined:
    """Whose account came in, to which garden, and what may be done there."""

    account: Any
    garden: Garden
    access: Access


def make_share(*, garden: Garden, account: Any, **wanted: Any) -> Made:
    """Make a link with this ``role``, ``label``, ``expires_at`` and ``max_devices``."""
    secret = secrets.token_urlsafe(32)
    share = Share.objects.create(
        garden=garden, made_by=account, secret_hash=_hash_of(secret), **wanted
    )
    return Made(share, secret)


@transaction.atomic
def end_share(*, garden_id: UUID, share_id: UUID, refuse_later: bool) -> None:
    """End a link for everybody who came in by it; raises ``NoSuchShare``."""
    garden = locked(garden_id)
    _end(Share.objects.filter(garden=garden, id=share_id).first(), refuse_later)


@transaction.atomic
def end_helper(*, garden_id: UUID, helper_id: UUID, refuse_later: bool) -> None:
    """End what one phone may do; raises ``NoSuchShare``."""
    garden = locked(garden_id)
    _end(Helper.objects.filter(share__garden=garden, id=helper_id).first(), refuse_later)


def _end(found: Share | Helper | None, refuse_later: bool) -> None:
    """Ending twice moves no date; refusing what comes later can only be added."""
    if found is None:
        raise NoSuchShare
    found.ended_at = found.ended_at or timezone.now()
    found.refuses_later = found.refuses_later or refuse_later
    found.save(update_fields=["ended_at", "refuses_later"])


def join(
    *, secret: str, account: Any | None, device: UUID, name: str, address: str | None
) -> Joined:
    """Let a phone in by a link: under the account it is signed in with, else one made for it.

    Raises ``LinkEnded``, ``LinkFull`` or ``TooManyTries``.
    """
    check_tries(address, JOINING)
    try:
        with transaction.atomic():
            return _join(secret, account, device, name, timezone.now())
    except LinkEnded:
        note_failure(address, JOINING)
        raise


def _join(secret: str, account: Any | None, device: UUID, name: str, now: datetime) -> Joined:
    share = Share.objects.filter(secret_hash=_hash_of(secret)).first()
    garden = None if share is None else locked(share.garden_id)
    if share is None or garden is None:
        raise LinkEnded
    share.refresh_from_db()  # it may have ended while we waited for the garden
    if has_ended(share, now):
        raise LinkEnded
    if account is None or garden.owner_id != account.pk:
        account = _admit(share, garden, account, device, name).account
    access = access_to(garden, Asker(account, device, now))
    assert access is not None
    return Joined(account, garden, access)


def _admit(share: Share, garden: Garden, account: Any | None, device: UUID, name: str) -> Helper:
    helper = _came_before(share, account, device)
    if helper is None:
        check_place(share)
        name = _told_apart(garden, account, name)
        account = account or make_helpers_account(name)
        return Helper.objects.create(share=share, account=account, device=device, name=name)
    if helper.ended_at is not None:
        raise LinkEnded
    name = _told_apart(garden, helper.account, name)
    if helper.name != name:
        helper.name = name
        helper.save(update_fields=["name"])
        # What the phone is told of itself has to be the name its readings are told under.
        named = AccountName.objects.filter(account=helper.account).exclude(helpers_name="")
        named.update(helpers_name=name)
    return helper


def _told_apart(garden: Garden, account: Any | None, name: str) -> str:
    """Number a name that somebody else in the garden has: two readings by "Ana" are no pair."""
    names = names_in(garden)
    names.setdefault(garden.owner_id, shown_name(garden.owner, names))
    mine = None if account is None else account.pk
    taken = {other.casefold() for key, other in names.items() if key != mine}
    told, nth = name, 1
    while told.casefold() in taken:
        nth += 1
        told = f"{name[: LONGEST_NAME - len(f' ({nth})')]} ({nth})"
    return told


def _came_before(share: Share, account: Any | None, device: UUID) -> Helper | None:
    """A phone that opens its link again is the same helper.

    Without a session only an account that a link made is given back: it has no other way in, and
    a person's own account has a password.
    """
    same = share.helpers.filter(device=device).select_related("account")
    if account is not None:
        return same.filter(account=account).first()
    made = AccountName.objects.exclude(helpers_name="").values("account_id")
    return same.filter(account__in=made).first()


def check_place(share: Share) -> None:
    """Raise ``LinkFull`` unless one more phone may come in; the garden has to be locked.

    A phone that was ended keeps its place: else it could come back under another number.
    """
    if share.helpers.count() >= share.max_devices:
        raise LinkFull


def _hash_of(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()
