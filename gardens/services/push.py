"""Taking what a phone sends: one transaction for a whole push, in the garden's order.

Not for parsing the request. A failed item never holds up the others.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import DatabaseError, transaction

from gardens.models import Garden
from gardens.services.accounts import author_name
from gardens.services.batch import Batch
from gardens.services.journal import HistoryChanged, Ledger, check_mark, locked
from gardens.services.mutation import Mutation, Rejected, read_mutation

NOTICEABLE_SKEW_SECONDS = 120
Result = dict[str, Any]


class NoSuchGarden(Exception):
    """The garden does not exist or is not the account's; the asker never learns which."""


@dataclass(frozen=True)
class Sender:
    """Who pushes, from which device, what it has seen (``high``) and when it sent this.

    ``author`` names who made the changes when they come in a file that somebody else brings.
    """

    account: Any
    device: UUID
    high: tuple[int, str] | None
    sent_at: datetime | None
    author: str = ""


@dataclass(frozen=True)
class Pushed:
    """The garden's mark after the push, and a result for each item in its order."""

    mark: str
    results: list[Result]


def push(
    *, sender: Sender, garden_id: UUID, items: Sequence[object], received_at: datetime
) -> Pushed:
    """Take the items of a push; raises ``NoSuchGarden`` or ``HistoryChanged``."""
    read = [_read(item) for item in items]
    with transaction.atomic():
        garden, is_new = _garden_for(sender, garden_id, items)
        check_mark(garden, sender.high)
        ledger_of = _ledger_maker(garden, sender, received_at)
        results = _take_all(ledger_of, sender, read)
        if is_new and results[0]["status"] == "rejected":
            # Without its own record there is no garden: give the others back to wait.
            transaction.set_rollback(True)
            garden = Garden(id=garden_id)
            results[1:] = [_waiting(result) for result in results[1:]]
    return Pushed(garden.mark, results)


def _waiting(result: Result) -> Result:
    if result["status"] == "rejected" and result["code"] != "not_found":
        return result
    return {"mid": result["mid"], "status": "retry", "code": "not_found"}


def _read(item: object) -> Mutation | Result:
    try:
        return read_mutation(item)
    except Rejected as rejected:
        mid = item.get("mid") if isinstance(item, dict) else None
        return _rejection(mid, rejected)


def _rejection(mid: object, rejected: Rejected) -> Result:
    return {
        # A sender's own text is only given back when it cannot break the answer.
        "mid": mid if isinstance(mid, str) and mid.isascii() and len(mid) <= 40 else None,
        "status": "rejected",
        "code": rejected.code,
        "field": rejected.field,
        "reason": rejected.reason,
        "params": rejected.params,
    }


def _garden_for(sender: Sender, garden_id: UUID, items: Sequence[object]) -> tuple[Garden, bool]:
    garden = locked(sender.account, garden_id)
    if garden is not None:
        return garden, False
    opens = items and _opens(items[0], garden_id)
    if not opens or Garden.objects.filter(id=garden_id).exists():
        raise NoSuchGarden
    Garden.objects.get_or_create(id=garden_id, defaults={"owner": sender.account})
    made = locked(sender.account, garden_id)
    if made is None:
        raise NoSuchGarden
    return made, made.head == 0


def _opens(item: object, garden_id: UUID) -> bool:
    """Tell whether an item is the garden's own record; it may still turn out to be a bad one."""
    return isinstance(item, dict) and (item.get("op"), item.get("kind"), item.get("id")) == (
        "put",
        "garden",
        str(garden_id),
    )


def _ledger_maker(garden: Garden, sender: Sender, received_at: datetime) -> Any:
    skew = int((received_at - sender.sent_at).total_seconds()) if sender.sent_at else 0
    noticed = skew if abs(skew) > NOTICEABLE_SKEW_SECONDS else None
    return lambda: Ledger(garden, sender.account, received_at, noticed, sender.author)


def _take_all(ledger_of: Any, sender: Sender, read: list[Mutation | Result]) -> list[Result]:
    try:
        with transaction.atomic():
            return _take(ledger_of(), sender, read)
    except DatabaseError:
        # One item the database refuses must not hold up the others: try each on its own.
        return [_take_alone(ledger_of, sender, item) for item in read]


def _take_alone(ledger_of: Any, sender: Sender, item: Mutation | Result) -> Result:
    if not isinstance(item, Mutation):
        return item
    try:
        with transaction.atomic():
            return _take(ledger_of(), sender, [item])[0]
    except DatabaseError:
        return _rejection(str(item.mid), Rejected("unstorable"))


def _take(ledger: Ledger, sender: Sender, read: list[Mutation | Result]) -> list[Result]:
    mutations = [item for item in read if isinstance(item, Mutation)]
    author = sender.author or author_name(sender.account, sender.device)
    batch = Batch(ledger, sender.device, author, mutations)
    results = [_take_one(batch, item) for item in read]
    batch.write()
    return results


def _take_one(batch: Batch, item: Mutation | Result) -> Result:
    if not isinstance(item, Mutation):
        return item
    try:
        return batch.take(item)
    except Rejected as rejected:
        return _rejection(str(item.mid), rejected)


__all__ = ["HistoryChanged", "NoSuchGarden", "Pushed", "Sender", "push"]
