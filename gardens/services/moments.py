"""Reading much as it stood at one moment, while others go on writing.

Not for whoever writes: see ``journal`` for the garden's lock.
"""

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import connection, transaction

STANDING_STILL = "set transaction isolation level repeatable read, read only"


@contextmanager
def at_one_moment() -> Iterator[None]:
    """Show the database as it was at the first question, and hold nobody up.

    SQLite does so in a transaction that has not asked for the right to write; ours do at once.
    """
    is_first = not connection.in_atomic_block  # only a test has opened one before
    usual = getattr(connection, "transaction_mode", None)
    if is_first and connection.vendor == "sqlite":
        connection.transaction_mode = "DEFERRED"
    try:
        with transaction.atomic(durable=True):
            if is_first and connection.vendor == "postgresql":
                connection.cursor().execute(STANDING_STILL)
            yield
    finally:
        if connection.vendor == "sqlite":
            connection.transaction_mode = usual
