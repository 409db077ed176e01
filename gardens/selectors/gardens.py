"""Which gardens an account may see; every other read starts here."""

from datetime import datetime
from typing import Any
from uuid import UUID

from django.db.models import QuerySet

from gardens.domain.clock import zone_of
from gardens.models import Garden, GardenDetails


def visible_to(account: Any) -> QuerySet[Garden]:
    """Return the gardens the account may see: those it owns."""
    return Garden.objects.filter(owner_id=account.pk)


def today_in(garden: Garden, now: datetime) -> str:
    """Return the day on the garden's clock, ``YYYY-MM-DD``."""
    own = GardenDetails.objects.filter(garden=garden).values_list("time_zone", flat=True).first()
    return now.astimezone(zone_of(own or "UTC")).date().isoformat()


def name_of_garden(garden: Garden) -> str:
    """Return what its grower calls it."""
    names = GardenDetails.objects.filter(garden=garden).values_list("name", flat=True)
    return names.first() or ""


def list_gardens(account: Any) -> list[dict[str, Any]]:
    """Return id, name, role and mark of each garden the account may see, oldest first."""
    gardens = list(visible_to(account).order_by("id"))
    names: dict[UUID, str] = dict(
        GardenDetails.objects.filter(id__in=[garden.id for garden in gardens]).values_list(
            "id", "name"
        )
    )
    return [
        {
            "id": str(garden.id),
            "name": names.get(garden.id, ""),
            "role": "owner",
            "head": garden.mark,
        }
        for garden in gardens
    ]
