"""Run the faults for a long time: python3 manage.py soak [--minutes N] [--seeds N] [--parts ...].

What was counted is printed for each part. Tests end at the first thing that is wrong, and their
last lines name the seed: a part that passes lost nothing and doubled nothing.
"""

import argparse
import json
import os
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from tests.soak.parts import Part, parts

TAIL_LINES = 60


def main(argv: Sequence[str]) -> int:
    """Run every part, again with new seeds while there are minutes left; 1 when one failed."""
    wanted = read(argv)
    known = parts(wanted.seeds)
    unknown = sorted({*wanted.parts} - {part.name for part in known})
    if unknown:
        print(f"No part is called {unknown[0]}; there are: {', '.join(p.name for p in known)}.")
        return 2
    chosen = [part for part in known if not wanted.parts or part.name in wanted.parts]
    until, first = time.monotonic() + 60 * wanted.minutes, 0
    while True:
        for part in chosen:
            if not run(part, first):
                return 1
        first += max(part.times for part in chosen) * 1000
        if time.monotonic() >= until:
            return 0


def read(argv: Sequence[str]) -> argparse.Namespace:
    """Read what was asked for."""
    parser = argparse.ArgumentParser(prog="python3 manage.py soak")
    parser.add_argument("--minutes", type=int, default=0)
    parser.add_argument("--seeds", type=int, default=2000)
    parser.add_argument("--parts", nargs="*", default=[])
    return parser.parse_args(argv)


def run(part: Part, first_seed: int) -> bool:
    """Run one part and print what it was made of."""
    began = time.monotonic()
    with tempfile.TemporaryDirectory(prefix="knotbed-soak-") as folder:
        told, said = Path(folder) / "told", Path(folder) / "said"
        sizes = {"FAULT_TIMES": str(part.times), "FAULT_FIRST_SEED": str(first_seed)}
        env = {**os.environ, **sizes, "FAULT_TOLD": str(told)}
        with said.open("wb") as out:
            command = {"cwd": part.folder(), "env": env, "stdin": subprocess.DEVNULL}
            code = subprocess.call(part.argv(), stdout=out, stderr=out, **command)
        print(
            f"{part.name} (first seed {first_seed}, {time.monotonic() - began:.0f} s)", flush=True
        )
        verdict = "lost: 0, doubled: 0" if code == 0 else "FAILED"
        for name, counts in counted(told).items():
            print(f"  {name}: {sentence(counts)}, {verdict}", flush=True)
        if code != 0:
            lines = said.read_text(encoding="utf-8", errors="replace").splitlines()
            print("\n".join(lines[-TAIL_LINES:]), f"\nFAILED: {part.name}", flush=True)
    return code == 0


def counted(file: Path) -> dict[str, Counter[str]]:
    """Add up what the tests of a part told."""
    sums: dict[str, Counter[str]] = {}
    for line in file.read_text(encoding="utf-8").splitlines() if file.is_file() else ():
        one = json.loads(line)
        sums.setdefault(one["part"], Counter()).update(one["counts"])
    return sums


def sentence(counts: Counter[str]) -> str:
    """Return counts as one line, names in order."""
    return ", ".join(f"{name}: {n:,}" for name, n in sorted(counts.items()))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
