"""What is known of a garden on one day, from its stored records.

Not for judging them: the core does.
"""

from datetime import date
from typing import Any

from gardens.domain.briefing import briefing
from gardens.domain.briefing.gathered import KINDS_READ
from gardens.models import RECORD_MODELS, Garden, LabProfile, Record
from gardens.selectors.holidays import holidays_of
from gardens.selectors.tables import all_tables


def brief(garden: Garden, today: str) -> dict[str, Any]:
    """Return the briefing of a garden for a day, ``YYYY-MM-DD``."""
    countries = LabProfile.objects.filter(garden=garden, deleted=False).exclude(country="")
    known = holidays_of(
        countries.values_list("country", flat=True).distinct(), date.fromisoformat(today)
    )
    return briefing(told_records(garden), all_tables(), today, known)


def told_records(garden: Garden) -> list[dict[str, Any]]:
    """Return every record the core reads, as it travels."""
    return [
        {"id": str(one.id), "kind": kind, "deleted": one.deleted, "doc": one.doc}
        for kind in KINDS_READ
        for one in _told_columns(garden, RECORD_MODELS[kind])
    ]


def _told_columns(garden: Garden, model: type[Record]) -> Any:
    """Return the records of one kind with the columns of their document and no others."""
    columns = [column for each in model.WIRE for column in each.columns]
    return model.objects.filter(garden=garden).only("deleted", *columns)
