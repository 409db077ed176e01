"""Every check of the project, in order, one line each; all of them run even if one fails."""

import os
import subprocess
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from . import browser, node, packages, postgres, webapp
from .places import FRONTEND, ROOT, log_file, venv_python
from .steps import Trouble, finish, watch

TAIL_LINES = 40
# A browser, its server and its database are waited for by turns: two tests at a time fill a small
# machine, and more than four only crowd a large one.
AT_ONCE = ["-n", str(min(4, os.cpu_count() or 1)), "--dist", "worksteal"]
PURE = ["gardens/domain", "gardens/sheets"]
SERVER = [
    "tests/api",
    "tests/gardens",
    *(f"tests/faults/test_{n}.py" for n in ("simulation", "programs", "gap")),
]


@dataclass(frozen=True)
class Check:
    """A check is a command; exit code 0 is a pass."""

    name: str
    argv: Sequence[str]
    cwd: Path = ROOT


def table(npm: Sequence[str]) -> list[Check]:
    """Return every check but pytest, the quick ones first."""
    python = str(venv_python())
    imports = "import importlinter.cli as cli; cli.lint_imports_command()"  # it has no -m form
    return [
        Check("Style (ruff check)", [python, "-m", "ruff", "check", "."]),
        Check("Format (ruff format)", [python, "-m", "ruff", "format", "--check", "."]),
        Check("Types of the core (mypy --strict)", [python, "-m", "mypy", "--strict", *PURE]),
        Check("Walls, Python (import-linter)", [python, "-c", imports]),
        Check("Settings (manage.py check)", [python, "manage.py", "check"]),
        Check("Migrations", [python, "manage.py", "makemigrations", "--check", "--dry-run"]),
        Check("API description", [python, "-m", "api.bootstrap.drift", "openapi"]),
        Check("API types", [python, "-m", "api.bootstrap.drift", "types"]),
        Check("Types of the phone app (svelte-check)", [*npm, "run", "check"], FRONTEND),
        Check("Walls, phone (dependency-cruiser)", [*npm, "run", "walls"], FRONTEND),
        Check("Phone app (vitest)", [*npm, "run", "test"], FRONTEND),
        *on_postgresql(python),
    ]


def on_postgresql(python: str) -> list[Check]:
    """Return the check of the server on PostgreSQL, or none where a person has not installed it.

    A machine that checks for everybody says so with ``CI``; there the check fails instead.
    """
    name = "Server on PostgreSQL (pytest)"
    if postgres.programs() is None and not os.environ.get("CI"):
        print(f"  {name}: not run, since PostgreSQL is not installed here.", flush=True)
        print("  !! Nothing is tried on PostgreSQL, browser journeys included: SQLite only.")
        return []
    pytest = [python, "-m", "pytest", "-q", *AT_ONCE]
    beside = [python, "-m", "api.bootstrap.postgres", *pytest]
    return [Check(name, [*beside, *SERVER])]


def run_all(pytest_arguments: Sequence[str]) -> int:
    """Run every check; return 1 if any failed."""
    started = time.monotonic()
    failed: list[str] = []
    tools = prepare(failed)
    with tempfile.TemporaryDirectory(prefix="knotbed-test-") as data:
        env = environment(tools.env, Path(data))
        failed += [check.name for check in table(tools.npm) if not passes(check, env)]
        try:
            webapp.build()
        except Trouble as trouble:
            print(f"\n{trouble}")
            failed.append("Web app")
        print("\nPython, API, PDF and browser tests (pytest)", flush=True)
        argv = [str(venv_python()), "-m", "pytest", *AT_ONCE, *pytest_arguments]
        if subprocess.call(argv, cwd=ROOT, env=env, stdin=subprocess.DEVNULL) != 0:
            failed.append("pytest")
    print(closing_words(failed, time.monotonic() - started), flush=True)
    return 1 if failed else 0


def prepare(failed: list[str]) -> node.Node:
    """Install what the checks need; a missing browser is told at once and fails the run."""
    packages.provide(packages.DEVELOPMENT, packages.FONTS)
    tools = node.provide()
    webapp.provide_packages(tools)
    try:
        browser.provide()
    except Trouble as trouble:
        print(f"\n{trouble}\n", flush=True)
        failed.append("Chromium and poppler")
    return tools


def environment(base: dict[str, str], data: Path) -> dict[str, str]:
    """Return the environment of the checks: a throw-away data folder, nothing of the grower's."""
    kept = {name: value for name, value in base.items() if not name.startswith("KNOTBED_")}
    made = {
        "DJANGO_SETTINGS_MODULE": "api.settings",
        "KNOTBED_DATA_DIR": str(data),
        "KNOTBED_SECRET_KEY": "only-for-the-checks" * 3,
    }
    found = browser.find()
    return kept | made | ({"CHROMIUM": found} if found else {})


def passes(check: Check, env: dict[str, str]) -> bool:
    """Run one check, print its line, and the tail of its output when it fails."""
    log = log_file(check.name)
    code, seconds = watch(check.name, check.argv, log, cwd=check.cwd, env=env)
    finish(check.name, "ok" if code == 0 else "FAILED", seconds)
    if code != 0:
        lines = log.read_text(encoding="utf-8", errors="replace").splitlines()
        print("\n".join(f"    {line}" for line in lines[-TAIL_LINES:]), flush=True)
        print(f"    all of it: {log}", flush=True)
    return code == 0


def closing_words(failed: Sequence[str], seconds: float) -> str:
    """Return the last line of the run."""
    if failed:
        return f"\nFailed after {seconds:.0f} s: {', '.join(failed)}."
    return f"\nEvery check passed in {seconds:.0f} s."


def bench(names: Sequence[str]) -> int:
    """Measure the figures."""
    return built_and_run("tests.bench", names)


def soak(arguments: Sequence[str]) -> int:
    """Run the faults for a long time."""
    return built_and_run("tests.soak", arguments)


def built_and_run(module: str, arguments: Sequence[str]) -> int:
    """Build what a module of the tests needs and run it on a throw-away data folder."""
    failed: list[str] = []
    tools = prepare(failed)
    webapp.build()
    if failed:
        return 1
    with tempfile.TemporaryDirectory(prefix="knotbed-bench-") as data:
        env = environment(tools.env, Path(data))
        argv = [str(venv_python()), "-m", module, *arguments]
        return subprocess.call(argv, cwd=ROOT, env=env)
