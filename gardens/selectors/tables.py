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
