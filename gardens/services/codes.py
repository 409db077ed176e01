"""Six digits that let one more phone into an account: for the app just put on the home screen.

Not for the long codes that are scanned: see ``pairing``.
"""

import secrets
from datetime import datetime, timedelta
from typing import Any

from django.db import transaction
from django.db.models import F
from django.utils import timezone
from django.utils.crypto import salted_hmac

from gardens.models import PairingCode

LIFETIME = timedelta(minutes=10)
# A wrong code does not say which one was meant, so it counts against every code that lives:
# a million codes and five tries, whoever tries and from however many addresses.
WRONG_TRIES = 5


@transaction.atomic
def make_code(account: Any) -> tuple[str, datetime]:
    """Return six digits and when they end; those the account had before end now."""
    now = timezone.now()
    PairingCode.objects.filter(account=account).delete()
    PairingCode.objects.filter(expires_at__lte=now).delete()
    code = f"{secrets.randbelow(1_000_000):06}"
    while PairingCode.objects.filter(code_hash=_hash_of(code)).exists():
        code = f"{secrets.randbelow(1_000_000):06}"
    expires_at = now + LIFETIME
    PairingCode.objects.create(code_hash=_hash_of(code), account=account, expires_at=expires_at)
    return code, expires_at


def find_code(code: str) -> PairingCode | None:
    """Return the code, locked, or count a wrong try and return None.

    Inside a transaction that is committed also when it is None.
    """
    alive = PairingCode.objects.filter(expires_at__gt=timezone.now(), n_wrong__lt=WRONG_TRIES)
    locked = list(alive.select_for_update().order_by("pk"))
    wanted = _hash_of(code)
    found = next((one for one in locked if secrets.compare_digest(one.code_hash, wanted)), None)
    if found is None:
        PairingCode.objects.filter(pk__in=[one.pk for one in locked]).update(
            n_wrong=F("n_wrong") + 1
        )
    return found


def _hash_of(code: str) -> str:
    return salted_hmac("knotbed.codes", code, algorithm="sha256").hexdigest()
