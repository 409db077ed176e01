"""What is known of a garden on one day, from its stored records.

Not for judging them: the core does.
"""

from typing import Any

from gardens.domain.briefing import briefing
from gardens.models import RECORD_MODELS, Garden
from gardens.selectors.tables import all_tables


def brief(garden: Garden, today: str) -> dict[str, Any]:
    """Return the briefing of a garden for a day, ``YYYY-MM-DD``."""
    return briefing(_records(garden), all_tables(), today)


def _records(garden: Garden) -> list[dict[str, Any]]:
    return [
        {"id": str(one.id), "kind": kind, "deleted": one.deleted, "doc": one.doc}
        for kind, model in RECORD_MODELS.items()
        if kind not in ("photo", "conflict")
        for one in model.objects.filter(garden=garden).defer("fver")
    ]
