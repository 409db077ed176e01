"""Reading a garden: 10,000 records onto a new phone, and asking when nothing is new."""

import json
import time

from tests.bench.figures import Figure, percentile, within
from tests.bench.scene import GARDEN, Caller, batches, ratings, running_server

N_RECORDS, PAGE, BUDGET_S = 10_000, 500, 1
N_QUIET, QUIET_MS, QUIET_BYTES = 100, 5, 400


def measure() -> list[Figure]:
    """Fill the demo garden, then read it from the beginning and from the end."""
    with running_server() as server:
        caller = Caller(server)
        for batch in batches(ratings(N_RECORDS)):
            caller.push(batch)
        read_all(caller)  # the first reading pays for waking up
        started = time.perf_counter()
        n, cursor, head = read_all(caller)
        seconds = time.perf_counter() - started
        quiet = f"/gardens/{GARDEN}/pull?cursor={cursor}&high={head}&limit={PAGE}"
        waits, size = ask_again(caller, quiet)
    if n < N_RECORDS:
        raise RuntimeError(f"only {n} records came")
    return [
        within(f"a new phone reads {N_RECORDS:,} records", seconds, BUDGET_S, "s"),
        within(f"pull with nothing new, median of {N_QUIET}", waits, QUIET_MS, "ms"),
        within("pull with nothing new, body", size, QUIET_BYTES, "bytes"),
    ]


def read_all(caller: Caller) -> tuple[int, int, str]:
    """Read every page as a phone does; return how many records, the cursor and the mark."""
    n, cursor, high = 0, 0, ""
    while True:
        asked = f"/gardens/{GARDEN}/pull?cursor={cursor}{high}&limit={PAGE}"
        page = json.loads(caller.ask("GET", asked))
        n, cursor, high = n + len(page["records"]), page["cursor"], f"&high={page['head']}"
        if not page["more"]:
            return n, cursor, page["head"]


def ask_again(caller: Caller, path: str) -> tuple[float, int]:
    """Ask the same again and again; return the median wait in ms and the size of the answer."""
    waits, size = [], 0
    for _ in range(N_QUIET):
        began = time.perf_counter()
        size = len(caller.ask("GET", path))
        waits.append((time.perf_counter() - began) * 1000)
    return percentile(waits, 0.5), size
