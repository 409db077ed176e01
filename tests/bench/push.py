"""1,000 ratings pushed in batches: against one request each, sent again, beside bare SQLite."""

import sqlite3
import tempfile
import time
from pathlib import Path
from typing import Any

from api.environment import SQLITE_OPTIONS
from tests.bench.figures import Figure, beside, faster
from tests.bench.scene import Caller, batches, ratings, running_server, stored_ratings

N_RATINGS = 1000
AT_LEAST, AGAIN_AT_LEAST = 10, 2


def measure() -> list[Figure]:
    """Push both ways to one server, then insert the stored rows into an empty file."""
    with running_server() as server:
        caller = Caller(server)
        caller.push(ratings(1))  # the first request pays for waking up
        together = ratings(N_RATINGS)
        batched_s = timed(caller, batches(together))
        again_s = timed(caller, batches(together), status="duplicate")
        single_s = timed(caller, [[one] for one in ratings(N_RATINGS)])
        statements, rows = stored_ratings(server, [one["id"] for one in together])
    if len(rows) != N_RATINGS:
        raise RuntimeError(f"{len(rows)} of {N_RATINGS} ratings were stored")
    name = f"push of {N_RATINGS} ratings by 200"
    return [
        faster(f"{name}, each alone", batched_s, single_s, "one by one", AT_LEAST),
        faster(f"{name}, sent again", again_s, batched_s, "the first time", AGAIN_AT_LEAST),
        beside(f"{name}, bare inserts", batched_s, bare_inserts(statements, rows), "SQLite alone"),
    ]


def timed(caller: Caller, pushes: list[list[dict[str, Any]]], status: str = "applied") -> float:
    """Return the seconds some pushes take one after the other."""
    started = time.perf_counter()
    for mutations in pushes:
        caller.push(mutations, status)
    return time.perf_counter() - started


def bare_inserts(statements: list[str], rows: list[tuple[Any, ...]]) -> float:
    """Return the seconds SQLite alone takes for the same rows, table, pragmas and batches."""
    marks = ", ".join("?" * len(rows[0]))
    with tempfile.TemporaryDirectory() as folder:
        file = sqlite3.connect(Path(folder) / "bare.sqlite3", isolation_level=None)
        file.executescript(str(SQLITE_OPTIONS["init_command"]))
        for statement in statements:
            file.execute(statement)
        started = time.perf_counter()
        for batch in batches(rows):
            file.execute("BEGIN IMMEDIATE")
            file.executemany(f"INSERT INTO gardens_gallrating VALUES ({marks})", batch)
            file.execute("COMMIT")
        seconds = time.perf_counter() - started
        file.close()
    return seconds
