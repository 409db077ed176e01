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
def in_turn(*, briefly: bool = False) -> Iterator[None]:
    """Wait until everybody who came before has left.

    Who has one short statement says ``briefly`` and waits only for whoever is in: it holds nobody
    up, and else every request would stand in line twice.
    """
    if connection.vendor != "sqlite":
        yield
        return
    mine = Lock()
    mine.acquire()
    with _door:
        if not _waiting:
            mine.release()
        _waiting.insert(1 if briefly else len(_waiting), mine)
    mine.acquire()
    try:
        yield
    finally:
        with _door:
            _waiting.popleft()
            if _waiting:
                _waiting[0].release()
