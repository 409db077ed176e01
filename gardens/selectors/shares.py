"""The links of a garden with the phones that came in by them, for its owner."""

from typing import Any

from gardens.models import Device, Garden, Helper, Share


def list_shares(garden: Garden) -> list[dict[str, Any]]:
    """Return every link of a garden, ended ones too, newest first."""
    shares = list(garden.shares.order_by("-made_at").prefetch_related("helpers"))
    accounts = {one.account_id for share in shares for one in share.helpers.all()}
    names = {
        (account, device): name
        for account, device, name in Device.objects.filter(account__in=accounts).values_list(
            "account_id", "device", "name"
        )
    }
    return [told_share(share, names) for share in shares]


def told_share(share: Share, device_names: dict[Any, str]) -> dict[str, Any]:
    """Return a link as its owner reads it; its secret is not among it."""
    helpers = sorted(share.helpers.all(), key=lambda one: one.joined_at)
    return {
        "id": str(share.id),
        "role": share.role,
        "label": share.label,
        "made_at": share.made_at,
        "expires_at": share.expires_at,
        "max_devices": share.max_devices,
        "ended_at": share.ended_at,
        "refuses_later": share.refuses_later,
        "helpers": [_told_helper(one, device_names) for one in helpers],
    }


def _told_helper(helper: Helper, device_names: dict[Any, str]) -> dict[str, Any]:
    return {
        "id": str(helper.id),
        "name": helper.name,
        "device_name": device_names.get((helper.account_id, helper.device), ""),
        "joined_at": helper.joined_at,
        "last_seen_at": helper.last_seen_at,
        "ended_at": helper.ended_at,
    }
