"""Taking what a phone sends: one transaction for a whole push, in the garden's order.

Not for parsing the request. A failed item never holds up the others.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import DatabaseError, OperationalError, transaction
from django.db.transaction import TransactionManagementError

from gardens.models import AccountName, Garden
from gardens.selectors.access import Access, Asker, NoSuchGarden, ShareEnded, access_to
from gardens.selectors.devices import device_name
from gardens.selectors.names import is_made_by_link
from gardens.services.batch import Batch
from gardens.services.holding import Author
from gardens.services.journal import HistoryChanged, Ledger, check_mark, locked
from gardens.services.mutation import Mutation, Rejected, read_mutation
from gardens.services.photos import note_present
from gardens.services.turns import in_turn

NOTICEABLE_SKEW_SECONDS = 120
# For each account that a link made: a link is no way to fill the server's disk.
MOST_GARDENS_BY_LINK = 3
Result = dict[str, Any]
BatchMaker = Callable[[list[Mutation]], Batch]


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
    """Take the items of a push; raises ``NoSuchGarden``, ``ShareEnded`` or ``HistoryChanged``.

    What comes after the sender's link has ended is held for somebody to decide.
    """
    read = note_present(garden_id, [_read(item) for item in items])
    with in_turn(), transaction.atomic():
        garden, access, is_new = _garden_for(sender, garden_id, items, received_at)
        if access.is_live:
            # Whoever may not read the garden any more could do nothing about another history.
            check_mark(garden, sender.high)
        batch_of = _batch_maker(garden, access, sender, received_at)
        results = _take_all(batch_of, read)
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


def _garden_for(
    sender: Sender, garden_id: UUID, items: Sequence[object], now: datetime
) -> tuple[Garden, Access, bool]:
    garden = locked(garden_id)
    if garden is None and items and _opens(items[0], garden_id) and _has_room(sender.account):
        Garden.objects.get_or_create(id=garden_id, defaults={"owner": sender.account})
        garden = locked(garden_id)
    asker = Asker(sender.account, sender.device, now)
    access = None if garden is None else access_to(garden, asker)
    if garden is None or access is None:
        raise NoSuchGarden
    if not access.is_live and not access.takes_later(now):
        raise ShareEnded
    return garden, access, garden.head == 0


def _has_room(account: Any) -> bool:
    """Tell whether the account may open one more garden: whoever came by a link, a few.

    The row of its name is held, so that two at once cannot both be the last one.
    """
    named = AccountName.objects.select_for_update().filter(account_id=account.pk).first()
    if named is None or not is_made_by_link(named):
        return True
    return Garden.objects.filter(owner_id=account.pk).count() < MOST_GARDENS_BY_LINK


def _opens(item: object, garden_id: UUID) -> bool:
    """Tell whether an item is the garden's own record; it may still turn out to be a bad one."""
    return isinstance(item, dict) and (item.get("op"), item.get("kind"), item.get("id")) == (
        "put",
        "garden",
        str(garden_id),
    )


def _batch_maker(
    garden: Garden, access: Access, sender: Sender, received_at: datetime
) -> BatchMaker:
    """Return what makes a batch afresh: after a failure the numbers are given out again."""
    skew = int((received_at - sender.sent_at).total_seconds()) if sender.sent_at else 0
    noticed = skew if abs(skew) > NOTICEABLE_SKEW_SECONDS else None

    def batch_of(mutations: list[Mutation]) -> Batch:
        ledger = Ledger(garden, sender.account, received_at, noticed)
        phone = device_name(sender.account, sender.device)
        shown = sender.author or access.name
        author = Author(sender.account, sender.device, shown, phone, sender.author)
        return Batch(ledger, author, access, mutations)

    return batch_of


def _take_all(batch_of: BatchMaker, read: list[Mutation | Result]) -> list[Result]:
    try:
        with transaction.atomic():
            return _take(batch_of, read)
    except DatabaseError as error:
        _check_blame(error)
        # One item the database refuses must not hold up the others: try each on its own.
        return [_take_alone(batch_of, item) for item in read]


def _take_alone(batch_of: BatchMaker, item: Mutation | Result) -> Result:
    if not isinstance(item, Mutation):
        return item
    try:
        with transaction.atomic():
            return _take(batch_of, [item])[0]
    except DatabaseError as error:
        _check_blame(error)
        return _rejection(str(item.mid), Rejected("unstorable"))


def _check_blame(error: DatabaseError) -> None:
    """Raise it again where the database is in trouble: a full disk is no fault of an item."""
    if isinstance(error, OperationalError | TransactionManagementError):
        raise error


def _take(batch_of: BatchMaker, read: list[Mutation | Result]) -> list[Result]:
    mutations = [item for item in read if isinstance(item, Mutation)]
    batch = batch_of(mutations)
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


__all__ = ["HistoryChanged", "NoSuchGarden", "Pushed", "Sender", "ShareEnded", "push"]
