"""Reading records whatever their kind: where an id lives, and the feed of a garden.

Not for deciding who may see a garden: callers bring one that the asker may see.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from django.db.models import CharField, Value

from gardens.models import RECORD_MODELS, Garden, Record


@dataclass(frozen=True)
class Page:
    """A piece of a garden's feed: records in the order of their newest change."""

    records: list[Record]
    cursor: int
    more: bool


def locate(ids: Collection[UUID]) -> dict[UUID, tuple[str, UUID]]:
    """Return kind and garden of each id that exists, in any garden, with one query."""
    found = _each_kind("id", "garden_id", id__in=list(ids))
    return {each: (kind, garden) for each, garden, kind in found}


def load(kinds_of: Iterable[tuple[UUID, str]]) -> dict[UUID, Record]:
    """Return the records with these ids and kinds, with one query for each kind."""
    by_kind: dict[str, list[UUID]] = {}
    for each, kind in kinds_of:
        by_kind.setdefault(kind, []).append(each)
    return {
        record.id: record
        for kind, ids in by_kind.items()
        for record in RECORD_MODELS[kind].objects.filter(id__in=ids).select_related("created_by")
    }


def feed_page(garden: Garden, cursor: int, limit: int) -> Page:
    """Return the records changed after ``cursor``, never beyond the garden's head as given.

    The head must have been read before this is called: on PostgreSQL a change that commits
    between two of these queries would otherwise move the cursor past a record not yet read.
    """
    if cursor >= garden.head:
        return Page([], garden.head, False)
    found = list(
        _each_kind("seq", "id", garden=garden, seq__gt=cursor, seq__lte=garden.head).order_by(
            "seq"
        )[: limit + 1]
    )
    more = len(found) > limit
    found = found[:limit]
    records = load((each, kind) for _, each, kind in found).values()
    return Page(
        sorted((one for one in records if one.seq <= garden.head), key=lambda one: one.seq),
        found[-1][0] if more else garden.head,
        more,
    )


def _each_kind(*columns: str, **condition: Any) -> Any:
    first, *others = [
        model.objects.filter(**condition).values_list(
            *columns, Value(kind, output_field=CharField())
        )
        for kind, model in RECORD_MODELS.items()
    ]
    return first.union(*others, all=True)
