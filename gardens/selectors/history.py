"""Who changed a record, when and from what to what: the journal as a person reads it.

Not for deciding who may: callers bring a garden whose history the asker may read.
"""

from typing import Any
from uuid import UUID

from gardens.models import Device, Garden, JournalEntry
from gardens.selectors.names import names_in, shown_name

PAGE = 50


def history_of(garden: Garden, record: UUID, before: int | None) -> dict[str, Any]:
    """Return a page of the changes of a record, newest first, older than number ``before``."""
    entries = garden.journal.filter(record=record).select_related("actor").order_by("-seq")
    if before is not None:
        entries = entries.filter(seq__lt=before)
    found = list(entries[: PAGE + 1])
    names, phones = names_in(garden), _phones_of(found)
    return {
        "entries": [_told(one, names, phones) for one in found[:PAGE]],
        "more": len(found) > PAGE,
    }


def _phones_of(entries: list[JournalEntry]) -> dict[Any, str]:
    accounts = {one.actor_id for one in entries}
    devices = Device.objects.filter(account__in=accounts)
    return {
        (account, device): name
        for account, device, name in devices.values_list("account_id", "device", "name")
    }


def _told(entry: JournalEntry, names: dict[Any, str], phones: dict[Any, str]) -> dict[str, Any]:
    return {
        "seq": entry.seq,
        "op": entry.op,
        "kind": entry.kind,
        "by": shown_name(entry.actor, names, entry.author),
        "device": phones.get((entry.actor_id, entry.device), ""),
        "claimed_at": entry.claimed_at,
        "received_at": entry.received_at,
        "set": None if entry.op == "delete" else entry.body,
        "prev": entry.prev,
        "status": entry.status,
    }
