"""The records a push touches: found with a few queries, written back with a few more.

Not for what a change does to them (see ``batch``).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from uuid import UUID

from gardens.models import RECORD_MODELS, Garden, Record
from gardens.selectors import records as records_read
from gardens.services.merge import State


@dataclass
class Touched:
    """A record of this garden that the push touches: its row and its state so far."""

    record: Record
    state: State
    is_new: bool


class TouchedRecords(dict[UUID, Touched]):
    """Those records by id; ``places`` also tells kind and garden of every id that was named."""

    def __init__(self, garden: Garden) -> None:
        self.garden = garden
        self.places: dict[UUID, tuple[str, UUID]] = {}

    def find(self, ids: set[UUID], named: set[UUID]) -> None:
        """Load the records with these ids that are this garden's, and place those named."""
        self.places.update(records_read.locate(ids | named))
        mine = [(each, self.places[each][0]) for each in ids - set(self) if self._is_mine(each)]
        for each, record in records_read.load(mine).items():
            state = State(record.doc, record.fver, record.deleted, record.seq)
            self[each] = Touched(record, state, is_new=False)

    def place_of(self, each: UUID, kind: str) -> tuple[str, UUID]:
        """Return kind and garden of an id; of an unknown one, what it would become here."""
        return self.places.get(each, (kind, self.garden.id))

    def add(self, record: Record, state: State) -> Touched:
        """Keep a new record of this garden for ``write``."""
        touched = self[record.id] = Touched(record, state, is_new=True)
        self.places[record.id] = (record.KIND, self.garden.id)
        return touched

    def _is_mine(self, each: UUID) -> bool:
        return each in self.places and self.places[each][1] == self.garden.id

    def write(self) -> None:
        """Store every record that changed, kind by kind."""
        by_kind: dict[tuple[str, bool], list[Record]] = {}
        for one in self.values():
            if one.is_new or one.state.seq != one.record.seq:
                by_kind.setdefault((one.record.KIND, one.is_new), []).append(_row_of(one))
        for (kind, is_new), rows in by_kind.items():
            _store(RECORD_MODELS[kind], rows, is_new)


def _store(model: type[Record], rows: Iterable[Record], is_new: bool) -> None:
    if is_new:
        model.objects.bulk_create(rows)
    else:
        model.objects.bulk_create(
            rows, update_conflicts=True, unique_fields=["id"], update_fields=model.columns()
        )


def _row_of(touched: Touched) -> Record:
    touched.record.take(touched.state.doc)
    touched.record.seq = touched.state.seq
    touched.record.fver = touched.state.field_versions
    touched.record.deleted = touched.state.deleted
    return touched.record
