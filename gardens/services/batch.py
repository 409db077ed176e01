"""The items of one push worked through in memory, then written with a few bulk statements.

Not for reading what was sent (see ``mutation``) nor for the transaction around it (see ``push``).
"""

from typing import Any
from uuid import UUID, uuid4

from gardens.domain.records import KINDS, with_defaults
from gardens.models import RECORD_MODELS, Held, JournalEntry
from gardens.models.wire import moment_text
from gardens.selectors.access import Access
from gardens.services.holding import Author, author_of, change_of, held_doc, is_accepting
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
from gardens.services.permits import check_identity, check_references, check_right
from gardens.services.photos import note_present
from gardens.services.touched import Touched, TouchedRecords


class Batch:
    """The records, known changes and numbers of one push to one garden."""

    def __init__(self, ledger: Ledger, author: Author, access: Access, mutations: list[Mutation]):
        self.ledger = ledger
        self.author = author
        self.access = access
        self.known: dict[UUID, JournalEntry] = {
            entry.mid: entry
            for entry in ledger.garden.journal.filter(mid__in=[one.mid for one in mutations])
        }
        # What is known already is answered from the journal alone: a repeat costs no look-up.
        news = [one for one in mutations if one.mid not in self.known]
        self.touched = TouchedRecords(ledger.garden)
        self._look_up(news)
        found = self._accepted(news)
        changes = note_present(ledger.garden.id, [change_of(held) for held in found])
        self.accepted = {held.id: change for held, change in zip(found, changes, strict=True)}
        if changes:
            self._look_up(changes)

    def _look_up(self, mutations: list[Mutation]) -> None:
        """Find the records some changes speak of, with as few queries as for one."""
        named = {other for one in mutations for _, other in one.references.values()}
        self.touched.find({one.id for one in mutations}, named)

    def _accepted(self, mutations: list[Mutation]) -> list[Held]:
        decided = [one for one in mutations if one.kind == "held" and one.id in self.touched]
        found = [(one, self.touched[one.id].record) for one in decided]
        return [
            held
            for one, held in found
            if isinstance(held, Held) and one.values["state"] == "accepted"
        ]

    def take(self, mutation: Mutation) -> dict[str, Any]:
        """Work one item in and return its result; raises ``Rejected`` before anything changed."""
        known = self.known.get(mutation.mid)
        if known is not None:
            return self._repeated(mutation, known)
        is_live = self.access.is_live
        # What is changed after the end of a link may itself be held.
        check_identity(self.touched, mutation, may_be_missing=not is_live)
        check_references(self.touched, mutation)
        check_right(self.touched, mutation, self.author.account, self.access)
        if not is_live:
            return self._hold(mutation)
        if mutation.kind == "held":
            return self._settle(mutation)
        return self._apply(mutation, self.author)

    def _repeated(self, mutation: Mutation, known: JournalEntry) -> dict[str, Any]:
        if known.device != self.author.device:
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

    def _apply(self, mutation: Mutation, author: Author) -> dict[str, Any]:
        touched = self.touched.get(mutation.id) or self._make(mutation, author)
        entry = self._enter(mutation, author, kind=mutation.kind, record=mutation.id)
        merged = self._merge(touched.state, mutation, entry.seq, author)
        entry.prev = merged.previous
        if merged.aside:
            self._set_aside(mutation, entry, touched.state, merged, author)
        return {"mid": str(mutation.mid), "status": entry.status, "seq": entry.seq, **entry.answer}

    def _hold(self, mutation: Mutation) -> dict[str, Any]:
        doc = held_doc(mutation, self.author, self.ledger.received_at)
        entry = self._enter(
            mutation, self.author, kind="held", record=uuid4(), op="put", body=doc, status="held"
        )
        self._add_by_server("held", doc, entry, self.author)
        return {"mid": str(mutation.mid), "status": "held", "seq": entry.seq}

    def _settle(self, mutation: Mutation) -> dict[str, Any]:
        """Decide on a held change; accepting applies it as its author's own."""
        held = self.touched[mutation.id]
        if not is_accepting(held.state.doc["state"], mutation.values["state"]):
            return self._apply(mutation, self.author)
        change = self.accepted[mutation.id]
        check_identity(self.touched, change)
        check_references(self.touched, change)
        result = self._apply(mutation, self.author)
        self._apply(change, author_of(held.record))
        return result

    def _enter(self, mutation: Mutation, author: Author, **about: Any) -> JournalEntry:
        """Give a change its number and its place in the journal."""
        told = {"op": mutation.op, "body": mutation.values, "status": "applied", **about}
        entry = self.known[mutation.mid] = self.ledger.enter(
            mutation.mid,
            actor=author.account,
            author=author.elsewhere,
            device=author.device,
            body_hash=mutation.body_hash,
            claimed_at=mutation.at,
            **told,
        )
        return entry

    def _add(self, kind: str, each: UUID, state: State, author: Author) -> Touched:
        record = RECORD_MODELS[kind](
            id=each,
            garden=self.ledger.garden,
            created_by=author.account,
            author=author.elsewhere,
            device=author.device,
        )
        return self.touched.add(record, state)

    def _add_by_server(
        self, kind: str, doc: dict[str, Any], entry: JournalEntry, author: Author
    ) -> None:
        """Add a record the server makes of somebody's change; none of its fields is a wish."""
        versions = {field: [entry.seq, NO_DEVICE] for field in doc}
        self._add(kind, entry.record, State(doc, versions, seq=entry.seq), author)

    def _make(self, mutation: Mutation, author: Author) -> Touched:
        doc = with_defaults(mutation.kind, mutation.values)
        return self._add(mutation.kind, mutation.id, State(doc), author)

    def _merge(self, state: State, mutation: Mutation, seq: int, author: Author) -> Merged:
        edit = Edit(seq, str(author.device), mutation.base)
        if mutation.op == "delete":
            return merge_deletion(state, edit)
        if KINDS[mutation.kind].server_made:
            closing = {**mutation.values, "closed_by": author.name}
            return merge_values(state, closing, edit, last_wins=True)
        merged = merge_values(state, mutation.values, edit)
        if "sha256" in mutation.values and "sha256" not in merged.aside:
            state.doc["blob"] = "stored" if mutation.bytes_are_here else "pending"
        return merged

    def _set_aside(
        self,
        mutation: Mutation,
        entry: JournalEntry,
        state: State,
        merged: Merged,
        author: Author,
    ) -> None:
        made = [
            self._make_conflict(mutation, name, self._kept(state, name), value, author)
            for name, value in merged.aside.items()
        ]
        entry.status = "conflict"
        entry.answer = {"fields": list(merged.aside), "conflicts": made}

    @staticmethod
    def _kept(state: State, name: str) -> Any:
        return state.deleted if name == DELETED else state.doc[name]

    def _make_conflict(
        self, mutation: Mutation, name: str, kept: Any, other: Any, author: Author
    ) -> str:
        doc = {
            "of": {"kind": mutation.kind, "id": str(mutation.id)},
            "field": name,
            "kept": kept,
            "other": other,
            "other_by": author.name,
            "other_at": moment_text(mutation.at or self.ledger.received_at),
            "state": "open",
            "closed_by": "",
        }
        entry = self.ledger.enter(
            uuid4(),
            kind="conflict",
            record=uuid4(),
            op="put",
            actor=author.account,
            body=doc,
            body_hash="",
            status="applied",
            claimed_at=mutation.at,
        )
        self._add_by_server("conflict", doc, entry, author)
        return str(entry.record)

    def write(self) -> None:
        """Store every touched record, the journal and the head."""
        if self.ledger.entries:
            self.touched.write()
            self.ledger.write()
