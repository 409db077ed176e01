"""Stamps: what was installed or built from what, so that it is done once.

A stamp lies inside the folder it speaks of, so that deleting the folder deletes the stamp.
"""

import hashlib
import json
from collections.abc import Iterable
from pathlib import Path


def digest(paths: Iterable[Path], *words: str) -> str:
    """Return the SHA-256 of some words and of every file's name and content, in order."""
    total = hashlib.sha256("\0".join(words).encode())
    for path in paths:
        total.update(f"\0{path.name}\0".encode())
        total.update(hashlib.sha256(path.read_bytes()).digest())
    return total.hexdigest()


def read(stamp: Path) -> dict[str, str]:
    """Return what a stamp says; nothing when it is missing or damaged."""
    try:
        content = json.loads(stamp.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return content if isinstance(content, dict) else {}


def write(stamp: Path, **entries: str) -> None:
    """Add entries to a stamp."""
    content = json.dumps(read(stamp) | entries, indent=1, sort_keys=True)
    stamp.write_text(content, encoding="utf-8")
