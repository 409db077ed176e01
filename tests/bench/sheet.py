"""The sheet for the laboratory: from the request to the whole PDF."""

import time

from tests.bench.figures import Figure, percentile, within
from tests.bench.scene import GARDEN, Caller, running_server
from tests.end_to_end.demo_garden import SENT_SAMPLE

N_SHEETS, BUDGET_MS = 15, 300


def measure() -> list[Figure]:
    """Ask for the same sheet again and again; the server's first one is told by itself."""
    with running_server() as server:
        caller = Caller(server)
        first, *later = [sheet(caller) for _ in range(N_SHEETS + 1)]
    name = "sheet for the laboratory"
    return [
        within(f"{name}, median of {N_SHEETS}", percentile(later, 0.5), BUDGET_MS, "ms"),
        within(f"{name}, the first after a start", first, BUDGET_MS, "ms"),
    ]


def sheet(caller: Caller) -> float:
    """Return the milliseconds of one sheet."""
    started = time.perf_counter()
    pdf = caller.ask("GET", f"/gardens/{GARDEN}/sheets/submission.pdf?samples={SENT_SAMPLE}")
    milliseconds = (time.perf_counter() - started) * 1000
    if not pdf.startswith(b"%PDF"):
        raise RuntimeError("the answer is no PDF")
    return milliseconds
