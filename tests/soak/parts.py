"""The parts of a long run: each is a test of the checks, asked for a night's size."""

import sys
from dataclasses import dataclass

from api.bootstrap import postgres
from api.bootstrap.node import provide
from api.bootstrap.places import FRONTEND, ROOT

PYTEST = [sys.executable, "-m", "pytest", "-q", "-x", "-s"]
ON_POSTGRESQL = [sys.executable, "-m", "api.bootstrap.postgres", *PYTEST]
SEEDS_AT_EVERY_CHANGE = 6


@dataclass(frozen=True)
class Part:
    """A name, the tests it runs, and how many times their everyday size."""

    name: str
    tests: tuple[str, ...]
    times: int
    runner: str = "pytest"  # or: postgresql, vitest

    def argv(self) -> list[str]:
        """Return the command of this part."""
        if self.runner == "vitest":
            return [*provide().npm, "run", "test", "--", *self.tests]
        return [*(ON_POSTGRESQL if self.runner == "postgresql" else PYTEST), *self.tests]

    def folder(self) -> str:
        """Return where its command runs."""
        return str(FRONTEND if self.runner == "vitest" else ROOT)


def parts(seeds: int) -> list[Part]:
    """Return every part that can be run here, the simulation with so many seeds."""
    times = -(-seeds // SEEDS_AT_EVERY_CHANGE)
    faults, browser = "tests/faults/test_", "tests/end_to_end/test_"
    found = [
        Part("simulation", (f"{faults}simulation.py",), times),
        Part("programs", (f"{faults}programs.py",), 50),
        Part("phones", ("tests/sync/real_faults.test.ts",), 20, "vitest"),
        Part("planted", ("tests/sync/planted_faults.test.ts",), 1, "vitest"),
        Part("kills", (f"{faults}killed_server.py", f"{faults}two_servers.py"), 20),
        Part("browser", (f"{browser}killed_browser.py",), 8),
        Part("tabs", (f"{browser}two_tabs.py", f"{browser}new_version.py"), 1),
        Part("disk", (f"{browser}full_disk.py", f"{browser}emptied_phone.py"), 1),
        Part("line", (f"{browser}slow_line.py",), 5),
    ]
    if postgres.programs() is None:
        print("  On PostgreSQL: not run, since it is not installed here.", flush=True)
        return found
    on_it = (f"{faults}simulation.py", f"{faults}programs.py")
    return [
        *found,
        Part("postgresql", on_it, max(1, times // 20), "postgresql"),
        Part("gap", (f"{faults}gap.py",), 10, "postgresql"),
    ]
