"""The order of changes in a garden: the lock, the numbers, the tags, the journal.

Not for what a change does (see ``merge``). Every writer goes through ``locked`` and a ``Ledger``.
"""

import hashlib
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from uuid import UUID

from gardens.models import Garden, JournalEntry
from gardens.selectors.gardens import visible_to


class HistoryChanged(Exception):
    """The sender knows a newer or another history than this database holds."""


def next_tag(tag: str, mid: UUID) -> str:
    """Return the tag of the change ``mid`` that follows the change tagged ``tag``."""
    return hashlib.sha256(f"{tag}{mid}".encode()).hexdigest()[:16]


def locked(account: Any, garden_id: UUID) -> Garden | None:
    """Lock the garden's row until the transaction ends; None when it is not the account's.

    On PostgreSQL the row is locked; on SQLite the transaction itself (BEGIN IMMEDIATE) is the
    lock. Within a garden the order of numbers is therefore the order of commits.
    """
    return visible_to(account).select_for_update().filter(id=garden_id).first()


@dataclass
class Ledger:
    """Gives out the numbers of one transaction and writes them down at its end."""

    garden: Garden
    actor: Any
    received_at: datetime
    skew_seconds: int | None = None
    author: str = ""
    entries: list[JournalEntry] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.head, self.tag = self.garden.head, self.garden.tag

    def enter(self, mid: UUID, *, kind: str, record: UUID, op: str, **about: Any) -> JournalEntry:
        """Give the change its number and keep its journal entry for ``write``."""
        self.head += 1
        self.tag = next_tag(self.tag, mid)
        entry = JournalEntry(
            garden=self.garden,
            mid=mid,
            seq=self.head,
            tag=self.tag,
            actor=self.actor,
            author=self.author,
            kind=kind,
            record=record,
            op=op,
            received_at=self.received_at,
            skew_seconds=self.skew_seconds,
            **about,
        )
        self.entries.append(entry)
        return entry

    def write(self) -> None:
        """Store the entries and move the garden's head."""
        JournalEntry.objects.bulk_create(self.entries)
        Garden.objects.filter(id=self.garden.id).update(head=self.head, tag=self.tag)
        self.garden.head, self.garden.tag = self.head, self.tag


def check_mark(garden: Garden, high: tuple[int, str] | None) -> None:
    """Raise ``HistoryChanged`` unless the mark a phone holds is part of this history."""
    if high is None or high == (garden.head, garden.tag):
        return
    seq, tag = high
    if not garden.journal.filter(seq=seq, tag=tag).exists():
        raise HistoryChanged
