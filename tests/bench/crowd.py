"""Eight devices push into one garden at once: how long the slowest of twenty waits."""

import threading
import time
from typing import Any

from tests.bench.figures import Figure, percentile, within
from tests.bench.scene import Caller, new_id, rating, running_server

N_DEVICES, N_PUSHES, N_ITEMS = 8, 20, 50
BUDGET_MS = 250


def measure() -> list[Figure]:
    """Let all of them begin together."""
    with running_server() as server:
        callers = [Caller(server) for _ in range(N_DEVICES)]
        for caller in callers:
            caller.push(ratings_of(new_id()))  # the first request pays for waking up
        waits: list[float] = []
        threads = [threading.Thread(target=push_all, args=(one, waits)) for one in callers]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
    if len(waits) != N_DEVICES * N_PUSHES:
        raise RuntimeError(f"only {len(waits)} pushes were taken")
    name = f"push of {N_ITEMS}, p95, {N_DEVICES} devices in one garden"
    return [within(name, percentile(waits, 0.95), BUDGET_MS, "ms")]


def push_all(caller: Caller, waits: list[float]) -> None:
    """Push one batch after the other and note how long each took, in ms."""
    for mutations in [ratings_of(new_id()) for _ in range(N_PUSHES)]:
        began = time.perf_counter()
        caller.push(mutations)
        waits.append((time.perf_counter() - began) * 1000)


def ratings_of(check: str) -> list[dict[str, Any]]:
    """Make the ratings of one push."""
    return [rating(check, number) for number in range(N_ITEMS)]
