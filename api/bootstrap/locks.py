"""Compile the requirement files from pyproject.toml. For developers; users never need it."""

import shutil

from .packages import DEVELOPMENT, FONTS, NODE, RUNTIME
from .steps import Trouble, run

GROUPS = {RUNTIME: [], DEVELOPMENT: ["--group", "dev"]}
ALONE = {NODE: "node", FONTS: "fonts"}


def compile_all() -> None:
    """Write the four locks, each with hashes and without a registry's address."""
    uv = shutil.which("uv")
    if not uv:
        raise Trouble("Locking needs the program uv; install it with: pip install uv")
    common = ["--universal", "--python-version", "3.11", "--generate-hashes"]
    common += ["--no-header", "--no-annotate"]
    failed = "The lock could not be compiled."
    for lock, extra in GROUPS.items():
        argv = [uv, "pip", "compile", "pyproject.toml", *extra, *common, "-o", lock]
        run(lock, argv, failed)
    for lock, group in ALONE.items():
        argv = [uv, "pip", "compile", "--group", group, "--no-deps", *common, "-o", lock]
        run(lock, argv, failed)
