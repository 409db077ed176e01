"""The second start of the demo: from the command to the first answer."""

import tempfile
from pathlib import Path

from tests.bench.figures import Figure, percentile, within
from tests.house.started import demo

N_STARTS, BUDGET_S = 5, 3


def measure() -> list[Figure]:
    """Start it once to fill it, then again and again."""
    with tempfile.TemporaryDirectory(prefix="knotbed-bench-") as folder:
        seconds = [start(Path(folder) / "data") for _ in range(N_STARTS + 1)]
    name = f"second start of the demo, median of {N_STARTS}"
    return [within(name, percentile(seconds[1:], 0.5), BUDGET_S, "s")]


def start(data: Path) -> float:
    """Return the seconds of one start."""
    with demo(data) as started:
        started.stop()
        return started.seconds
