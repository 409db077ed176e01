"""The items of one push worked through in memory, then written with a few bulk statements.

Not for reading what was sent (see ``mutation``) nor for the transaction around it (see ``push``).
"""

from dataclasses import dataclass, replace
from typing import Any
from uuid import UUID, uuid4

from gardens.domain.records import with_defaults
from gardens.models import RECORD_MODELS, JournalEntry, Record
from gardens.models.wire import moment_text
from gardens.selectors import records as records_read
from gardens.selectors.papers import find_papers
from gardens.selectors.photos import find_blobs
from gardens.services.journal import Ledger
from gardens.services.merge import (
    DELETED,
    NO_DEVICE,
    Edit,
    Merged,
    State,
    merge_deletion,
    merge_values,
)
from gardens.services.mutation import Mutation, Rejected


@dataclass
class Held:
    """A record of this garden that the batch touches: its row and its state so far."""

    record: Record
    state: State
    is_new: bool


class Batch:
    """The records, known changes and numbers of one push to one garden."""

    def __init__(self, ledger: Ledger, device: UUID, author: str, mutations: list[Mutation]):
        self.ledger = ledger
        self.device = device
        self.author = author
        self.known: dict[UUID, JournalEntry] = {
            entry.mid: entry
            for entry in ledger.garden.journal.filter(mid__in=[one.mid for one in mutations])
        }
        ids = {one.id for one in mutations}
        named = {other for one in mutations for _, other in one.references.values()}
        self.places = records_read.locate(ids | named)
        mine = ((each, self.places[each][0]) for each in ids if self._is_mine(each))
        self.held = {
            each: Held(record, _state_of(record), is_new=False)
            for each, record in records_read.load(mine).items()
        }
        photos, papers = (_hashes(mutations, kind) for kind in ("photo", "paper"))
        self.stored = {
            "photo": set(find_blobs(ledger.garden, photos) if photos else ()),
            "paper": find_papers(ledger.garden.id, papers),
        }

    def _is_mine(self, each: UUID) -> bool:
        return each in self.places and self.places[each][1] == self.ledger.garden.id

    def take(self, mutation: Mutation) -> dict[str, Any]:
        """Merge one item and return its result; raises ``Rejected`` before anything changed."""
        known = self.known.get(mutation.mid)
        if known is not None:
            return self._repeated(mutation, known)
        self._check_identity(mutation)
        self._check_references(mutation)
        held = self._held_for(mutation)
        entry = self.ledger.enter(
            mutation.mid,
            kind=mutation.kind,
            record=mutation.id,
            op=mutation.op,
            device=self.device,
            body=mutation.values,
            body_hash=mutation.body_hash,
            status="applied",
            claimed_at=mutation.at,
        )
        merged = self._merge(held.state, mutation, entry.seq)
        entry.prev = merged.previous
        if merged.aside:
            self._set_aside(mutation, entry, held.state, merged)
        self.known[mutation.mid] = entry
        return {"mid": str(mutation.mid), "status": entry.status, "seq": entry.seq, **entry.answer}

    def _repeated(self, mutation: Mutation, known: JournalEntry) -> dict[str, Any]:
        if known.device != self.device:
            raise Rejected("mid_taken", "mid")
        if known.body_hash != mutation.body_hash:
            raise Rejected("mid_reused", "mid")
        return {
            "mid": str(mutation.mid),
            "status": "duplicate",
            "was": known.status,
            "seq": known.seq,
            **known.answer,
        }

    def _check_identity(self, mutation: Mutation) -> None:
        kind, garden = self.places.get(mutation.id, (mutation.kind, self.ledger.garden.id))
        if garden != self.ledger.garden.id:
            raise Rejected("not_found", "id")
        if kind != mutation.kind:
            raise Rejected("kind_mismatch", "kind")
        if mutation.kind == "garden" and mutation.id != self.ledger.garden.id:
            raise Rejected("bad_value", "id", "not_an_id")
        if mutation.op != "put" and mutation.id not in self.held:
            raise Rejected("not_found", "id")

    def _check_references(self, mutation: Mutation) -> None:
        for name, (wanted, other) in mutation.references.items():
            kind, garden = self.places.get(other, (wanted, self.ledger.garden.id))
            if garden != self.ledger.garden.id:
                raise Rejected("not_found", name)
            if kind != wanted:
                raise Rejected("bad_value", name, "not_an_id")

    def _held_for(self, mutation: Mutation) -> Held:
        held = self.held.get(mutation.id)
        if held is None:
            doc = with_defaults(mutation.kind, mutation.values)
            held = self._new(mutation.kind, mutation.id, doc)
        return held

    def _new(self, kind: str, each: UUID, doc: dict[str, Any]) -> Held:
        record = RECORD_MODELS[kind](
            id=each,
            garden=self.ledger.garden,
            created_by=self.ledger.actor,
            device=self.device,
        )
        held = Held(record, State(doc), is_new=True)
        self.held[each] = held
        self.places[each] = (kind, self.ledger.garden.id)
        return held

    def _merge(self, state: State, mutation: Mutation, seq: int) -> Merged:
        edit = Edit(seq, str(self.device), mutation.base)
        if mutation.op == "delete":
            return merge_deletion(state, edit)
        if mutation.kind == "conflict":
            closing = {**mutation.values, "closed_by": self.author}
            return merge_values(state, closing, edit, last_wins=True)
        merged = merge_values(state, mutation.values, edit)
        if "sha256" in mutation.values and "sha256" not in merged.aside:
            is_stored = mutation.values["sha256"] in self.stored[mutation.kind]
            state.doc["blob"] = "stored" if is_stored else "pending"
        return merged

    def _set_aside(
        self, mutation: Mutation, entry: JournalEntry, state: State, merged: Merged
    ) -> None:
        made = [
            self._make_conflict(mutation, name, self._kept(state, name), value)
            for name, value in merged.aside.items()
        ]
        entry.status = "conflict"
        entry.answer = {"fields": list(merged.aside), "conflicts": made}

    @staticmethod
    def _kept(state: State, name: str) -> Any:
        return state.deleted if name == DELETED else state.doc[name]

    def _make_conflict(self, mutation: Mutation, name: str, kept: Any, other: Any) -> str:
        each = uuid4()
        doc = {
            "of": {"kind": mutation.kind, "id": str(mutation.id)},
            "field": name,
            "kept": kept,
            "other": other,
            "other_by": self.author,
            "other_at": moment_text(mutation.at or self.ledger.received_at),
            "state": "open",
            "closed_by": "",
        }
        entry = self.ledger.enter(
            uuid4(),
            kind="conflict",
            record=each,
            op="put",
            body=doc,
            body_hash="",
            status="applied",
            claimed_at=mutation.at,
        )
        held = self._new("conflict", each, doc)
        held.state = replace(
            held.state,
            seq=entry.seq,
            field_versions={field: [entry.seq, NO_DEVICE] for field in doc},
        )
        return str(each)

    def write(self) -> None:
        """Store every touched record, the journal and the head."""
        if not self.ledger.entries:
            return
        by_kind: dict[tuple[str, bool], list[Record]] = {}
        for held in self.held.values():
            if held.is_new or held.state.seq != held.record.seq:
                by_kind.setdefault((held.record.KIND, held.is_new), []).append(_row_of(held))
        for (kind, is_new), rows in by_kind.items():
            model = RECORD_MODELS[kind]
            if is_new:
                model.objects.bulk_create(rows)
            else:
                model.objects.bulk_create(
                    rows,
                    update_conflicts=True,
                    unique_fields=["id"],
                    update_fields=model.columns(),
                )
        self.ledger.write()


def _hashes(mutations: list[Mutation], kind: str) -> list[str]:
    return [
        one.values["sha256"] for one in mutations if one.kind == kind and "sha256" in one.values
    ]


def _state_of(record: Record) -> State:
    return State(record.doc, record.fver, record.deleted, record.seq)


def _row_of(held: Held) -> Record:
    held.record.take(held.state.doc)
    held.record.seq = held.state.seq
    held.record.fver = held.state.field_versions
    held.record.deleted = held.state.deleted
    return held.record
