"""The sheets of labels a person can buy, by their measures, and a plain strip to cut.

Not for what stands on a label. The measures are common ones, from memory: a first page on
plain paper, held against the sheet, shows whether they fit.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from gardens.domain.errors import DomainError
from gardens.sheets.values import Paper

_INCH = 25.4


@dataclass(frozen=True)
class LabelSheet:
    """Where the labels lie on a sheet [mm, >= 0]; ``is_cut`` draws lines to cut along."""

    key: str
    paper: Paper
    n_across: int
    n_down: int
    width_mm: float
    height_mm: float
    left_mm: float
    top_mm: float
    pitch_x_mm: float
    pitch_y_mm: float
    is_cut: bool = False

    @property
    def n_labels(self) -> int:
        """Labels on one sheet."""
        return self.n_across * self.n_down


_Six = tuple[float, float, float, float, float, float]


def _sheet(key: str, paper: Paper, grid: tuple[int, int], measures: _Six) -> LabelSheet:
    wide, tall, left, top, pitch_x, pitch_y = measures
    return LabelSheet(key, paper, *grid, wide, tall, left, top, pitch_x, pitch_y)


def _inches(*measures: float) -> _Six:
    wide, tall, left, top, pitch_x, pitch_y = (_INCH * one for one in measures)
    return wide, tall, left, top, pitch_x, pitch_y


def _strip(key: str, paper: Paper) -> LabelSheet:
    return LabelSheet(key, paper, 1, 6, 170, 40, 20, 18, 170, 40, is_cut=True)


_ALL = (
    _sheet("a4_70x37", "a4", (3, 8), (70, 37, 0, 0.5, 70, 37)),
    _sheet("a4_63x38", "a4", (3, 7), (63.5, 38.1, 7.2, 15.15, 66.0, 38.1)),
    _sheet("a4_99x38", "a4", (2, 7), (99.1, 38.1, 4.65, 15.15, 101.6, 38.1)),
    _sheet("a4_99x57", "a4", (2, 5), (99.1, 57, 4.65, 6, 101.6, 57)),
    _sheet("letter_67x25", "letter", (3, 10), _inches(2.625, 1, 0.1875, 0.5, 2.75, 1)),
    _sheet("letter_102x51", "letter", (2, 5), _inches(4, 2, 0.15625, 0.5, 4.1875, 2)),
    _strip("a4_strip", "a4"),
    _strip("letter_strip", "letter"),
)
LABEL_SHEETS: Mapping[str, LabelSheet] = {one.key: one for one in _ALL}


def label_sheet(key: str) -> LabelSheet:
    """A sheet by its key.

    Parameters
    ----------
    key : str
        One of ``LABEL_SHEETS``.

    Returns
    -------
    LabelSheet
        Its measures.

    Raises
    ------
    DomainError
        ``unknown_label_sheet``.
    """
    if key not in LABEL_SHEETS:
        raise DomainError("unknown_label_sheet", field="sheet", choices=sorted(LABEL_SHEETS))
    return LABEL_SHEETS[key]


def sheets_told() -> list[dict[str, object]]:
    """Every sheet as a person chooses it.

    Returns
    -------
    list of dict
        Key, paper, how many labels and their measures [mm].
    """
    return [
        {
            "key": one.key,
            "paper": one.paper,
            "n_across": one.n_across,
            "n_down": one.n_down,
            "width_mm": round(one.width_mm, 1),
            "height_mm": round(one.height_mm, 1),
        }
        for one in _ALL
    ]
