"""Sort a command line: the house's own commands here, everything else to Django."""

import argparse
import importlib.util
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from . import audit, checks, locks, packages, serving
from .places import ROOT, venv_python
from .steps import Trouble, hand_over

ABOUT = "Rate roots in the garden with no signal, see the map, print the sheet for the lab."


def enter(argv: Sequence[str]) -> int | None:
    """Run a house command and return its exit code; None means: this one is Django's, go on."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "api.settings")
    if len(argv) > 1 and argv[1] not in HOUSE and not argv[1].startswith("-"):
        return make_way_for_django(argv)
    wanted = parser().parse_args(argv[1:] or ["--help"])
    try:
        return HOUSE[wanted.command](wanted)
    except Trouble as trouble:
        print(f"\n{trouble}", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nStopped.", file=sys.stderr)
        return 130


def make_way_for_django(argv: Sequence[str]) -> int | None:
    """Go on in an environment that has Django; never install anything for it in silence."""
    in_some_venv = sys.prefix != sys.base_prefix
    if in_some_venv and importlib.util.find_spec("django"):
        return None
    try:
        packages.require()
    except Trouble as trouble:
        print(trouble, file=sys.stderr)
        return 1
    hand_over([str(venv_python()), *argv], dict(os.environ))


def parser() -> argparse.ArgumentParser:
    """Return the command line of the house's own commands."""
    top = argparse.ArgumentParser(prog="python3 manage.py", description=ABOUT)
    commands = top.add_subparsers(dest="command", required=True)
    for name, words in WORDS.items():
        commands.add_parser(name, help=words, description=words)
    demo, serve = commands.choices["demo"], commands.choices["serve"]
    demo.add_argument("--data", type=Path, default=ROOT / "demo-data", help="folder of the demo")
    demo.add_argument("--no-open", action="store_true", help="do not open the browser")
    serve.add_argument("--data", type=Path, default=ROOT / "data", help="folder of your records")
    serve.add_argument("--host", default="127.0.0.1", help="0.0.0.0 lets other devices in")
    for command in (demo, serve):
        command.add_argument("--port", type=port_number, default=8000)
    for name in ("backup", "restore"):
        commands.choices[name].add_argument("file", type=Path, help="the backup")
        commands.choices[name].add_argument("--data", type=Path, help="folder of your records")
    commands.choices["test"].add_argument("rest", nargs="*", help="after --, goes to pytest")
    commands.choices["bench"].add_argument("rest", nargs="*", help="figures to measure, else all")
    add_soak(commands.choices["soak"])
    return top


def add_soak(soak: argparse.ArgumentParser) -> None:
    """Tell how long the faults may be run, and which of them."""
    soak.add_argument("--minutes", type=int, default=0, help="repeat with new seeds until then")
    soak.add_argument("--seeds", type=int, default=2000, help="seeds of the simulation")
    soak.add_argument("--parts", nargs="*", default=[], help="parts to run, else all")


def port_number(text: str) -> int:
    """Read a port; argparse tells the person when this raises."""
    number = int(text)
    if not 1 <= number <= 65535:
        raise argparse.ArgumentTypeError("a port is a number from 1 to 65535")
    return number


def run_demo(wanted: argparse.Namespace) -> int:
    """Run the demo garden."""
    serving.demo(wanted.data.resolve(), wanted.port, browser=not wanted.no_open)


def run_serve(wanted: argparse.Namespace) -> int:
    """Serve the grower's own records."""
    serving.own(wanted.data.resolve(), wanted.host, wanted.port)


def run_setup(_wanted: argparse.Namespace) -> int:
    """Install and build what serving needs."""
    serving.set_up()
    print("Ready. Next: python3 manage.py demo, or python3 manage.py serve")
    return 0


def run_test(wanted: argparse.Namespace) -> int:
    """Run every check."""
    return checks.run_all(wanted.rest)


def run_bench(wanted: argparse.Namespace) -> int:
    """Measure the figures."""
    return checks.bench(wanted.rest)


def run_backup(wanted: argparse.Namespace) -> int:
    """Write everything to one file."""
    serving.keep("make_backup", wanted.file.resolve(), wanted.data)


def run_restore(wanted: argparse.Namespace) -> int:
    """Put a backup back."""
    serving.keep("restore_backup", wanted.file.resolve(), wanted.data)


def run_soak(wanted: argparse.Namespace) -> int:
    """Run the faults for a long time."""
    sizes = ["--minutes", str(wanted.minutes), "--seeds", str(wanted.seeds)]
    return checks.soak([*sizes, "--parts", *wanted.parts])


def run_lock(_wanted: argparse.Namespace) -> int:
    """Compile the requirement files again."""
    locks.compile_all()
    return 0


def run_audit(_wanted: argparse.Namespace) -> int:
    """Ask whether a locked package has a known hole."""
    return audit.run()


HOUSE = {
    "demo": run_demo,
    "serve": run_serve,
    "backup": run_backup,
    "restore": run_restore,
    "test": run_test,
    "setup": run_setup,
    "bench": run_bench,
    "soak": run_soak,
    "lock": run_lock,
    "audit": run_audit,
}
WORDS = {
    "demo": "install, build and open a made-up garden to try",
    "serve": "serve your own records",
    "backup": "write everything to one file, while the server runs",
    "restore": "put a backup in the place of what is there, with the server stopped",
    "test": "run every check",
    "setup": "install and build, and stop there",
    "bench": "measure the figures against their budgets",
    "soak": "run the faults of the line, the server and the phone for hours",
    "lock": "compile the requirement files again (needs uv)",
    "audit": "ask whether a locked package has a known hole (needs the internet)",
}
