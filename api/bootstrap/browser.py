"""What the checks need from the operating system: Chromium and the poppler PDF tools."""

import os
import shutil

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
    """Install what is missing where that is allowed; else say the one command that does it."""
    packages = missing()
    if not packages:
        return
    command = f"{COMMAND} {' '.join(packages)}"
    if os.name == "nt" or os.geteuid() != 0 or not shutil.which("apt-get"):
        raise Trouble(f"{' and '.join(packages)} missing; install with: sudo {command}")
    install(" and ".join(packages), command.split())


def install(label: str, argv: list[str]) -> None:
    """Install Debian packages; the list of packages is refreshed only if the first try fails."""
    env = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
    failed = f"{label} could not be installed."
    try:
        run(label, argv, failed, env=env)
    except Trouble:
        run("List of Debian packages", ["apt-get", "update"], failed, env=env)
        run(label, argv, failed, env=env)
