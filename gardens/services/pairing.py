"""Pairing codes: a signed secret that lets one more phone into an account, once.

Nothing is stored when a code is made; its use is what is remembered.
"""

import secrets
from datetime import timedelta
from typing import Any

from django.contrib.auth import get_user_model
from django.core import signing
from django.db import IntegrityError, transaction
from django.utils import timezone

from gardens.models import UsedPairing
from gardens.services.accounts import check_tries, note_failure

LIFETIME = timedelta(minutes=15)
SALT = "knotbed.pairing"


def mint_token(account: Any) -> str:
    """Return a code that pairs one phone with the account within 15 minutes."""
    return signing.dumps([account.pk, secrets.token_urlsafe(32)], salt=SALT)


def redeem_token(*, token: str, address: str | None) -> Any | None:
    """Use a code up and return its account; None when it is used, too old or damaged.

    Raises ``TooManyTries`` when the address has failed too often.
    """
    check_tries(address)
    account = _account_of(token)
    if account is None:
        note_failure(address)
    return account


def _account_of(token: str) -> Any | None:
    try:
        account_id, nonce = signing.loads(token, salt=SALT, max_age=LIFETIME)
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
