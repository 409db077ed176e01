"""The phones of an account that are signed in, and how others are told of them."""

from typing import Any
from uuid import UUID

from gardens.models import Device


def list_devices(account: Any, this: UUID | None) -> list[dict[str, Any]]:
    """Return the phones that are signed in, last seen first; ``this`` is the one that asks."""
    signed_in = Device.objects.filter(account=account).exclude(session_key="")
    return [
        {
            "device": str(one.device),
            "name": one.name,
            "first_seen_at": one.first_seen_at,
            "last_seen_at": one.last_seen_at,
            "is_this": one.device == this,
        }
        for one in signed_in.order_by("-last_seen_at", "id")
    ]


def device_name(account: Any, device: UUID) -> str:
    """Return the name its owner gave a phone; empty when it has none."""
    mine = Device.objects.filter(account=account, device=device)
    return mine.values_list("name", flat=True).first() or ""
