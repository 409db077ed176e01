"""One change after the other, in the order they came, where the database cannot keep that order.

SQLite lets a waiting writer sleep and try again: with eight phones one of them is passed over for
seconds. Not for keeping data whole, which the database's own lock does, also between processes.
"""

from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock

from django.db import connection

_waiting: deque[Lock] = deque()
_door = Lock()


@contextmanager
def in_turn() -> Iterator[None]:
    """Wait until everybody who came before has left."""
    if connection.vendor != "sqlite":
        yield
        return
    mine = Lock()
    mine.acquire()
    with _door:
        if not _waiting:
            mine.release()
        _waiting.append(mine)
    mine.acquire()
    try:
        yield
    finally:
        with _door:
            _waiting.popleft()
            if _waiting:
                _waiting[0].release()
