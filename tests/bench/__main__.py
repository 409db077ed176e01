"""Measure the figures by name, or all of them: python3 manage.py bench [jsbytes sheet ...]."""

import importlib
import sys
import time
from collections.abc import Sequence

import django

from tests.bench.figures import Figure, table

FIGURES = (
    "jsbytes",
    "tap",
    "coldstart",
    "push",
    "sheet",
    "labway",
    "briefing",
    "engine",
    "secondstart",
)


def main(names: Sequence[str]) -> int:
    """Print the table; return 1 when a budget was missed."""
    unknown = sorted(set(names) - set(FIGURES))
    if unknown:
        print(f"No figure is called {unknown[0]}; there are: {', '.join(FIGURES)}.")
        return 2
    django.setup()
    measured: list[Figure] = []
    for name in names or FIGURES:
        started = time.monotonic()
        measured += importlib.import_module(f"tests.bench.{name}").measure()
        print(f"  {name:<44}{time.monotonic() - started:6.1f} s", flush=True)
    print(f"\n{table(measured)}")
    return 1 if any(figure.kept is False for figure in measured) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
