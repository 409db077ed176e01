"""Letting one more phone into an account: by a signed secret that is scanned, or by six digits.

Nothing is stored when a secret is made; its use is what is remembered.
"""

import secrets
from datetime import timedelta
from typing import Any
from uuid import UUID

from django.contrib.auth import get_user_model
from django.core import signing
from django.db import IntegrityError, transaction
from django.utils import timezone

from gardens.models import Helper, UsedPairing
from gardens.selectors.access import has_ended
from gardens.selectors.names import is_made_by_link
from gardens.services.accounts import check_tries, known_as, note_failure
from gardens.services.codes import find_code
from gardens.services.journal import locked
from gardens.services.shares import check_place

LIFETIME = timedelta(minutes=15)
SALT = "knotbed.pairing"
PAIRING = ":pair"


def mint_token(account: Any) -> str:
    """Return a secret that pairs one phone with the account within 15 minutes."""
    return signing.dumps([account.pk, secrets.token_urlsafe(32)], salt=SALT)


def pair(
    *, device: UUID, address: str | None, token: str | None = None, code: str | None = None
) -> Any | None:
    """Use a secret or a code up and return its account; None when it is used, old or damaged.

    Raises ``LinkFull`` when the account is a helper's and its link has no place for one more
    phone: then nothing is used up; and ``TooManyTries``.
    """
    check_tries(address, PAIRING)
    with transaction.atomic():
        account = _account_of(token) if code is None else _account_of_code(code)
        if account is not None:
            _take_places(account, device)
    if account is None:
        note_failure(address, PAIRING)
    return account


def _account_of(token: str | None) -> Any | None:
    try:
        account_id, nonce = signing.loads(token or "", salt=SALT, max_age=LIFETIME)
    except signing.BadSignature:
        return None
    account = get_user_model().objects.filter(pk=account_id, is_active=True).first()
    if account is None:
        return None
    UsedPairing.objects.filter(used_at__lt=timezone.now() - 2 * LIFETIME).delete()
    try:
        with transaction.atomic():
            UsedPairing.objects.create(nonce=nonce)
    except IntegrityError:
        return None
    return account


def _account_of_code(code: str) -> Any | None:
    found = find_code(code)
    if found is None:
        return None
    account = found.account
    found.delete()
    return account if account.is_active else None


def _take_places(account: Any, device: UUID) -> None:
    """Give the phone a place under every link its helper came in by and that still lives.

    Only an account that a link made takes places: a person's own may sign in anywhere.
    """
    if not is_made_by_link(known_as(account)):
        return
    mine = Helper.objects.filter(account=account, ended_at=None).select_related("share")
    shares = {one.share_id: one for one in mine.order_by("share_id")}
    for helper in shares.values():
        locked(helper.share.garden_id)
        share, now = helper.share, timezone.now()
        share.refresh_from_db()
        is_known = share.helpers.filter(account=account, device=device).exists()
        if not has_ended(share, now) and not is_known:
            check_place(share)
            share.helpers.create(account=account, device=device, name=helper.name)
