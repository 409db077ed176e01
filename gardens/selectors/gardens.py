"""The gardens of an account, each with what may be done in it, and the day it is there."""

from datetime import datetime
from typing import Any
from uuid import UUID

from gardens.domain.clock import zone_of
from gardens.domain.roles import rights_of
from gardens.models import Garden, GardenDetails
from gardens.models.wire import moment_text
from gardens.selectors.access import Access, Asker, access_to_all


def today_in(garden: Garden, now: datetime) -> str:
    """Return the day on the garden's clock, ``YYYY-MM-DD``."""
    own = GardenDetails.objects.filter(garden=garden).values_list("time_zone", flat=True).first()
    return now.astimezone(zone_of(own or "UTC")).date().isoformat()


def name_of_garden(garden: Garden) -> str:
    """Return what its grower calls it; empty before its record has arrived."""
    names = GardenDetails.objects.filter(garden=garden, id=garden.id)
    return names.values_list("name", flat=True).first() or ""


def list_gardens(asker: Asker) -> list[dict[str, Any]]:
    """Return name, mark and rights in each garden of the asker, oldest first.

    One whose link has ended is among them while it still takes what was made before.
    """
    listed = {
        garden_id: (garden, access)
        for garden_id, (garden, access) in access_to_all(asker).items()
        if access.is_live or access.takes_later(asker.now)
    }
    names: dict[UUID, str] = dict(
        GardenDetails.objects.filter(id__in=listed).values_list("id", "name")
    )
    return [
        {
            "id": str(garden_id),
            "name": names.get(garden_id, ""),
            "head": garden.mark,
            **_standing(access),
        }
        for garden_id, (garden, access) in listed.items()
    ]


def _standing(access: Access) -> dict[str, Any]:
    return {
        "role": access.role,
        "called": access.name,
        "state": "live" if access.is_live else "ended",
        "expires_at": _moment(access.expires_at),
        "push_until": _moment(access.push_until),
        "rights": rights_of(access.role),
    }


def _moment(moment: datetime | None) -> str | None:
    return None if moment is None else moment_text(moment)
