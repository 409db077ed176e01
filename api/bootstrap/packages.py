"""The project's own environment and the locked Python packages in it."""

import os
import shutil
import subprocess
import sys

from . import stamps
from .places import ROOT, VENV, venv_python
from .steps import Trouble, run

RUNTIME = "requirements.txt"
DEVELOPMENT = "requirements-dev.txt"
FONTS = "requirements-fonts.txt"
NODE = "requirements-node.txt"

LABELS = {
    RUNTIME: "Python packages",
    DEVELOPMENT: "Python packages and test tools",
    FONTS: "Fonts for printing",
    NODE: "Node, to build the web app",
}
STAMP = VENV / "knotbed-stamp.json"
NO_INTERNET = "could not be installed; check the internet connection and the space on the disk."


def provide(*locks: str) -> None:
    """Make the environment if need be and install the locks that are not in it yet."""
    make_venv()
    for lock in locks:
        if not is_installed(lock):
            install(lock)


def is_installed(lock: str) -> bool:
    """Say whether exactly this lock is in the environment."""
    said = stamps.read(STAMP)
    if lock == RUNTIME and said.get(DEVELOPMENT) == lock_digest(DEVELOPMENT):
        return True  # the development lock holds every runtime package, at the same version
    return said.get(lock) == lock_digest(lock)


def lock_digest(lock: str) -> str:
    """Return the digest of a lock together with the Python it was installed for."""
    return stamps.digest([ROOT / lock], venv_version())


def venv_version() -> str:
    """Return the Python version the environment says it was made with."""
    for line in (VENV / "pyvenv.cfg").read_text(encoding="utf-8").splitlines():
        name, _, value = line.partition("=")
        if name.strip() in ("version", "version_info"):
            return value.strip()
    return "unknown"


def make_venv() -> None:
    """Make `.venv` unless a working one is there already."""
    if venv_python().exists() and (VENV / "pyvenv.cfg").exists():
        return
    failed = (
        "Python could not make .venv; on Debian or Ubuntu run "
        f"'apt install python3-venv', then start again (this Python: {sys.executable})."
    )
    argv = [sys.executable, "-m", "venv", "--clear", str(VENV)]
    try:
        run("Own Python environment (.venv)", argv, failed)
    except Trouble:
        shutil.rmtree(VENV, ignore_errors=True)  # half of one would pass for a whole one
        raise


def install(lock: str) -> None:
    """Install one lock with pip, hashes checked, and stamp it."""
    make_pip()
    argv = [str(venv_python()), "-m", "pip", "install", "-qq", "--no-input"]
    argv += ["--disable-pip-version-check", "--require-hashes", "-r", lock]
    if lock == FONTS:
        argv.append("--no-deps")  # its metadata asks for a whole typesetting system
    label = LABELS[lock]
    run(label, argv, f"{label} {NO_INTERNET}", env=os.environ | {"PIP_USER": "0"})
    stamps.write(STAMP, **{lock: lock_digest(lock)})


def make_pip() -> None:
    """An environment made by another tool may come without pip."""
    probe = [str(venv_python()), "-c", "import pip"]
    if subprocess.run(probe, capture_output=True, check=False).returncode == 0:
        return
    argv = [str(venv_python()), "-m", "ensurepip", "--default-pip"]
    run("pip", argv, "pip is missing in .venv; delete the folder .venv and start again.")


def require() -> None:
    """Stop with a sentence when the environment is not there (no silent installs)."""
    if not venv_python().exists():
        raise Trouble("Nothing is installed yet; run: python3 manage.py setup")
