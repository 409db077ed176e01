"""The files of the project as a commit would hold them."""

import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
GENERATED = ("frontend/src/sync/schema.d.ts", "frontend/package-lock.json", "/migrations/")
LEFT_OUT = (".venv", "node_modules", "webbuild", ".git", "demo-data", "data", ".logs")


def committed() -> list[Path]:
    """Return every file git knows or would take, else every file that is not made or installed."""
    listing = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    done = subprocess.run(listing, cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode == 0:
        paths = [ROOT / name for name in done.stdout.split("\0") if name]
    else:
        paths = [p for p in ROOT.rglob("*") if not set(p.relative_to(ROOT).parts) & set(LEFT_OUT)]
    return sorted(path for path in paths if path.is_file())


def written(*suffixes: str, under: str = "") -> list[Path]:
    """Return the files of these kinds that people wrote, under one folder."""
    return [
        path
        for path in committed()
        if path.suffix in suffixes
        and name_of(path).startswith(under)
        and not any(mark in name_of(path) for mark in GENERATED)
    ]


def name_of(path: Path) -> str:
    """Return a file's name from the project's root, with forward slashes."""
    return path.relative_to(ROOT).as_posix()
