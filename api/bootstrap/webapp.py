"""The phone's web app: its packages and its build, each done once."""

from pathlib import Path

from . import node, stamps
from .places import FRONTEND, ROOT, WEB_BUILD, venv_python
from .steps import run

PACKAGES_STAMP = FRONTEND / "node_modules" / "knotbed-stamp.json"
BUILD_STAMP = WEB_BUILD / "knotbed-stamp.json"
NOT_SOURCES = {"node_modules", "tests"}
PAGE_RULES = ROOT / "api" / "middleware.py"  # its content policy is part of the worker's version

CORE = ("gardens/domain", "gardens/sheets")  # packed for the phone, with these packages
PACKAGES = ("requirements.txt", "requirements-fonts.txt")


def build() -> None:
    """Build the web app unless `webbuild/` was already made from exactly these sources."""
    wanted = stamps.digest(sources(), "web app")
    if stamps.read(BUILD_STAMP).get("sources") == wanted and (WEB_BUILD / "index.html").exists():
        return
    tools = node.provide()
    provide_packages(tools)
    run(
        "Web app",
        [*tools.npm, "run", "build"],
        "The web app could not be built.",
        cwd=FRONTEND,
        env=tools.env | {"KNOTBED_ENGINE_PYTHON": str(venv_python())},
    )
    stamps.write(BUILD_STAMP, sources=wanted)


def provide_packages(tools: node.Node) -> None:
    """Install the locked npm packages unless they are there."""
    wanted = stamps.digest([FRONTEND / "package.json", FRONTEND / "package-lock.json"])
    if stamps.read(PACKAGES_STAMP).get("lock") == wanted:
        return
    run(
        "Web app packages",
        [*tools.npm, "ci", "--no-fund", "--no-audit", "--loglevel=error"],
        "The web app's packages could not be installed; check the internet connection "
        "and start again.",
        cwd=FRONTEND,
        env=tools.env,
    )
    stamps.write(PACKAGES_STAMP, lock=wanted)


def sources() -> list[Path]:
    """Return every file the build is made from, in a fixed order."""
    found = [path for path in (ROOT / "fixtures").rglob("*.json") if path.is_file()]
    found.append(PAGE_RULES)
    found += [ROOT / "gardens/__init__.py", *map(ROOT.joinpath, PACKAGES)]
    for core in CORE:
        found += (ROOT / core).rglob("*.py")
    for top in FRONTEND.iterdir():
        if top.name in NOT_SOURCES:
            continue
        found += [p for p in ([top] if top.is_file() else top.rglob("*")) if p.is_file()]
    return sorted(found)
