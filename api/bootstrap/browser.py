"""What the checks need from the operating system: Chromium, poppler PDF tools, PostgreSQL."""

import os
import shutil

from . import postgres
from .steps import Trouble, run

BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
COMMAND = "apt-get install -y --no-install-recommends"


def find() -> str | None:
    """Return the browser to test with: $CHROMIUM, else the first known name on PATH."""
    named = os.environ.get("CHROMIUM")
    return named or next(filter(None, map(shutil.which, BROWSERS)), None)


def missing() -> list[str]:
    """Return the Debian packages that are not there yet."""
    wanted = {"chromium": find(), "poppler-utils": shutil.which("pdftoppm")}
    return [package for package, found in wanted.items() if not found]


def provide() -> None:
    """Install what is missing where that is allowed; else say the one command that does it.

    Only there is PostgreSQL installed too: without it one check is left out, and says so.
    """
    packages = missing()
    if may_install():
        packages += [] if postgres.programs() else ["postgresql"]
    elif packages:
        command = f"{COMMAND} {' '.join(packages)}"
        raise Trouble(f"{' and '.join(packages)} missing; install with: sudo {command}")
    if packages:
        install(" and ".join(packages), [*COMMAND.split(), *packages])


def may_install() -> bool:
    """Say whether this account may install Debian packages."""
    return postgres.is_root() and shutil.which("apt-get") is not None


def install(label: str, argv: list[str]) -> None:
    """Install Debian packages; the list of packages is refreshed only if the first try fails."""
    env = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
    failed = f"{label} could not be installed."
    try:
        run(label, argv, failed, env=env)
    except Trouble:
        run("List of Debian packages", ["apt-get", "update"], failed, env=env)
        run(label, argv, failed, env=env)
