"""The reference tables of ``fixtures/``, read once.

Not for judging them: the core does, and is handed them.
"""

import json
from functools import cache
from pathlib import Path
from typing import Any

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"


@cache
def read_table(name: str) -> Any:
    """Return what ``fixtures/<name>.json`` holds; nobody may change it."""
    return json.loads((FIXTURES / f"{name}.json").read_text(encoding="utf-8"))


@cache
def all_tables() -> dict[str, Any]:
    """Return every table of ``fixtures`` by the stem of its name; nobody may change one."""
    return {path.stem: read_table(path.stem) for path in sorted(FIXTURES.glob("*.json"))}
