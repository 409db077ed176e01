"""The phone's way to the counter of the core: JSON in, a kind and bytes out.

Not for the questions themselves: ``gardens.sheets.desk`` knows those.
"""

import json
from pathlib import Path

from gardens.domain.errors import DomainError
from gardens.sheets import desk

FIXTURES = Path(__file__).resolve().parent / "fixtures"
TABLES = {
    path.stem: json.loads(path.read_text(encoding="utf-8")) for path in FIXTURES.glob("*.json")
}


def ask(name: str, args: str) -> tuple[str, bytes]:
    """Answer one question: ``("pdf", …)``, ``("json", …)`` or ``("problem", …)``."""
    try:
        found = desk.answer(name, json.loads(args), TABLES)
    except DomainError as error:
        problem = {"code": error.code, "params": dict(error.params)}
        return "problem", json.dumps(problem, default=str).encode()
    if isinstance(found, bytes):
        return "pdf", found
    return "json", json.dumps(found, ensure_ascii=False).encode()
