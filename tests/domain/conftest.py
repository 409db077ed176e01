import json
from pathlib import Path

import pytest

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"


@pytest.fixture(scope="session")
def table():
    """Reads one of the reference tables by name."""
    return lambda name: json.loads((FIXTURES / f"{name}.json").read_text(encoding="utf-8"))
