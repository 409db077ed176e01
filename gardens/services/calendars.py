"""Making and ending the secret address of a person's calendar.

Not for what stands in it: that is read when a calendar program asks.
"""

import secrets
from datetime import datetime
from typing import Any

from gardens.models import CalendarAddress
from gardens.models.calendar import hash_of

SECRET_BYTES = 32  # 43 signs in an address


def make_address(*, account: Any, now: datetime) -> str:
    """Make a new secret, end the one before, and return it: it is shown once."""
    secret = secrets.token_urlsafe(SECRET_BYTES)
    CalendarAddress.objects.update_or_create(
        account=account, defaults={"secret_sha256": hash_of(secret), "made_at": now}
    )
    return secret


def end_address(*, account: Any) -> None:
    """End the address; a calendar program that asks again finds nothing."""
    CalendarAddress.objects.filter(account=account).delete()
