"""Numbers that commit out of order: writers with slow transactions, and one reader with a cursor.

Only PostgreSQL lets two transactions of one garden run at a time; there a reader that follows a
sequence misses what commits late. The naive way is played beside the product's, to show that the
writers are slow enough for the test to see it.
"""

import random
import threading
import time
from collections.abc import Callable
from unittest import mock
from uuid import UUID, uuid4

from django.db import connection, transaction

from gardens.models import Garden
from gardens.selectors.records import feed_page
from gardens.services import batch
from gardens.services.push import Sender, push
from tests.faults.clocks import NOW
from tests.phones import bed, item

N_WRITERS, LONGEST_S = 8, 0.004
Page = Callable[[int], tuple[list[str], int]]


def dawdle() -> None:
    """Keep a transaction open for a moment."""
    time.sleep(random.uniform(0, LONGEST_S))


def missed(write: Callable[[int, int], list[str]], page: Page, n: int) -> int:
    """Let the writers write, a reader read all the while, and count what it never saw."""
    seen: list[str] = []
    written: list[str] = []
    busy = [threading.Thread(target=_writer, args=(write, w, n, written)) for w in range(N_WRITERS)]
    for thread in busy:
        thread.start()
    cursor = 0
    while any(thread.is_alive() for thread in busy):
        found, cursor = page(cursor)
        seen += found
    for _ in range(2):
        found, cursor = page(cursor)
        seen += found
    assert len(written) == N_WRITERS * n, "a writer failed"
    return len({*written} - {*seen})


def _writer(write: Callable[[int, int], list[str]], number: int, n: int, into: list[str]) -> None:
    try:
        for _ in range(n):
            into += write(number, n)
    finally:
        connection.close()


def open_gardens(account, n: int) -> list[Garden]:
    """Open gardens by the product's own push."""
    for _ in range(n):
        each, sender = uuid4(), Sender(account, uuid4(), None, None)
        made = item("put", "garden", str(each), name="Behind the mill")
        push(sender=sender, garden_id=each, items=[made], received_at=NOW)
    return list(Garden.objects.order_by("id"))


def products_way(account, gardens: list[Garden], n: int) -> int:
    """The garden's row lock, and a reader that reads the head first."""
    store = batch.Batch.write

    def slow_store(self: batch.Batch) -> None:
        store(self)
        dawdle()

    def write(number: int, _n: int) -> list[str]:
        made = bed()
        sender = Sender(account, UUID(int=number + 1), None, None)
        garden = gardens[number % len(gardens)].id
        push(sender=sender, garden_id=garden, items=[made], received_at=NOW)
        return [made["id"]]

    cursors = {garden.id: 0 for garden in gardens}

    def page(_cursor: int) -> tuple[list[str], int]:
        found: list[str] = []
        for each in Garden.objects.filter(id__in=[garden.id for garden in gardens]):
            read = feed_page(each, cursors[each.id], 500)
            cursors[each.id] = read.cursor
            found += [str(record.id) for record in read.records]
        return found, 0

    with mock.patch.object(batch.Batch, "write", slow_store):
        return missed(write, page, n)


def naive_way(n: int) -> int:
    """A sequence, and a reader that asks for what is above its cursor."""
    with connection.cursor() as cursor:
        cursor.execute("CREATE TABLE naive (id text, seq bigserial)")
    try:
        return missed(_write_naively, _read_naively, n)
    finally:
        with connection.cursor() as cursor:
            cursor.execute("DROP TABLE naive")


def _write_naively(_number: int, _n: int) -> list[str]:
    each = str(uuid4())
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("INSERT INTO naive (id) VALUES (%s)", [each])
        dawdle()
    return [each]


def _read_naively(after: int) -> tuple[list[str], int]:
    with connection.cursor() as cursor:
        cursor.execute("SELECT id, seq FROM naive WHERE seq > %s ORDER BY seq", [after])
        rows = cursor.fetchall()
    return [each for each, _ in rows], rows[-1][1] if rows else after
