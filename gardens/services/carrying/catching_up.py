"""Bringing to a garden that is here what a file knows and its journal lacks.

The changes go in as ordinary ones under numbers made of their own (so that bringing the file
twice changes nothing), from one device that stands for files. What was changed here since the
two histories parted is never overwritten: it becomes a conflict.
"""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, field
from itertools import groupby, islice
from typing import Any
from uuid import UUID, uuid5

from django.db import DatabaseError, transaction
from django.utils import timezone

from gardens.domain.records import KINDS, references
from gardens.models import Garden, JournalEntry, Record
from gardens.selectors import records as records_read
from gardens.services.carrying.contents import Contents
from gardens.services.carrying.layout import BadArchive
from gardens.services.journal import Ledger, locked
from gardens.services.push import Sender, push

BATCH = 200
LONGEST_NAME = 240


@dataclass
class Missing:
    """Changes of a file that the garden here lacks, and where the two histories parted."""

    parted_at: int = 0
    ordinary: list[JournalEntry] = field(default_factory=list)
    # By the record the server of the file made: all that happened to it, in order.
    made_there: dict[UUID, list[JournalEntry]] = field(default_factory=dict)
    n_only_here: int = 0

    @property
    def n_changes(self) -> int:
        """How many changes would be brought."""
        return len(self.ordinary) + len(self.made_there)


@dataclass
class Brought:
    """What happened to the changes: each one's result, in order."""

    results: list[tuple[JournalEntry, dict[str, Any]]] = field(default_factory=list)

    @property
    def n_conflicts(self) -> int:
        """How many changes met another value here."""
        return sum(1 for _, result in self.results if result["status"] == "conflict")

    @property
    def refused(self) -> list[tuple[str, str]]:
        """Kind of record and code of each change that was not taken."""
        return [
            (entry.kind, result["code"])
            for entry, result in self.results
            if result["status"] in ("rejected", "retry")
        ]


def number_of(garden: UUID, mid: UUID) -> UUID:
    """Return the number a change of a file goes in under."""
    return uuid5(garden, str(mid))


def brought_by(author: str, account: Any) -> str:
    """Name who made a change that somebody else brings in a file."""
    return f"{author or '?'} (brought by {account.get_username()})"[:LONGEST_NAME]


def missing_here(garden: Garden, contents: Contents) -> Missing:
    """Find what the garden here lacks; raises ``BadArchive`` for a journal that is not whole."""
    here = {mid: (seq, tag) for mid, seq, tag in garden.journal.values_list("mid", "seq", "tag")}
    found, shared = Missing(), 0
    seen_here = set()
    for entry in contents.entries():
        mid = entry.mid if entry.mid in here else number_of(garden.id, entry.mid)
        if mid in here:
            seen_here.add(mid)
            shared = entry.seq if here[mid] == (entry.seq, entry.tag) else shared
        else:
            _sort(found, entry, here)
    found.parted_at, found.n_only_here = shared, len(here) - len(seen_here)
    return found


def _sort(found: Missing, entry: JournalEntry, here: Collection[UUID]) -> None:
    """Put a missing change where it belongs; what only the server's own hand did is left out."""
    kind = KINDS.get(entry.kind)
    if kind is None:
        raise BadArchive("archive_newer")
    if kind.server_made and (entry.op == "put" or entry.record in found.made_there):
        found.made_there.setdefault(entry.record, []).append(entry)
    elif entry.device is not None and _meant(entry) is not None:
        found.ordinary.append(entry)


def _meant(entry: JournalEntry) -> dict[str, Any] | None:
    """Return what the change did there as an item of a push; None when all was set aside."""
    aside = entry.answer.get("fields", []) if entry.status == "conflict" else []
    item: dict[str, Any] = {"op": entry.op, "kind": entry.kind, "id": str(entry.record)}
    if entry.op == "delete":
        return None if aside else item
    values = {name: value for name, value in entry.body.items() if name not in aside}
    values.pop("closed_by", None)
    # A part of a making is a change of what was there already.
    item |= {"set": values, "op": "patch" if aside else entry.op}
    return item if values else None


def catch_up(*, account: Any, garden: Garden, contents: Contents) -> Brought:
    """Bring what is missing here."""
    found, brought = missing_here(garden, contents), Brought()
    device = uuid5(garden.id, "files")
    for author, entries in groupby(found.ordinary, key=lambda entry: entry.author):
        sender = Sender(account, device, None, None, brought_by(author, account))
        for batch in _batches(entries):
            items = [_item(garden.id, entry, found.parted_at) for entry in batch]
            done = push(sender=sender, garden_id=garden.id, items=items, received_at=timezone.now())
            brought.results += zip(batch, done.results, strict=True)
    _bring_made_there(account, garden, contents, found)
    return brought


def _batches(entries: Iterable[JournalEntry]) -> Iterator[list[JournalEntry]]:
    waiting = iter(entries)
    while batch := list(islice(waiting, BATCH)):
        yield batch


def _item(garden: UUID, entry: JournalEntry, base: int) -> dict[str, Any]:
    at = entry.claimed_at
    told = None if at is None else at.isoformat(timespec="milliseconds").replace("+00:00", "Z")
    mid = str(number_of(garden, entry.mid))
    return {"mid": mid, "base": base, "at": told, **(_meant(entry) or {})}


def _bring_made_there(account: Any, garden: Garden, contents: Contents, found: Missing) -> None:
    """Take the conflicts of the file as they stand there, with what became of them."""
    standing = {one.id: one for one in contents.records if one.id in found.made_there}
    try:
        with transaction.atomic():
            held = locked(garden.id)
            if held is None or not standing:
                return
            _check_places(garden.id, standing.values())
            ledger = Ledger(held, account, timezone.now())
            for each, record in standing.items():
                for entry in found.made_there[each]:
                    _enter(ledger, record, entry, brought_by(entry.author, account))
            ledger.write()
            for record in standing.values():
                record.save(force_insert=True)
    except DatabaseError:
        raise BadArchive("archive_unreadable") from None


def _check_places(garden: UUID, made: Iterable[Record]) -> None:
    """Raise ``BadArchive`` when a record is here already, or names one of another garden."""
    ids = {one.id for one in made}
    named = {UUID(other) for one in made for _, other in references(one.KIND, one.doc)}
    places = records_read.locate(ids | named)
    if any(each in ids or place != garden for each, (_, place) in places.items()):
        raise BadArchive("archive_clashes")


def _enter(ledger: Ledger, record: Record, entry: JournalEntry, author: str) -> None:
    made = ledger.enter(
        number_of(ledger.garden.id, entry.mid),
        kind=entry.kind,
        record=record.id,
        author=author,
        op=entry.op,
        body=entry.body,
        body_hash="",
        prev=entry.prev,
        status="applied",
        claimed_at=entry.claimed_at,
    )
    record.seq = made.seq
    record.fver = {name: [made.seq, ""] for name in record.fver}
