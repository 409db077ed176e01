"""Answers on a sheet: a label with what is known, a line to write on, or boxes to tick.

Not for deciding which questions a sheet asks.
"""

from collections.abc import Mapping, Sequence
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.colors import black
from reportlab.platypus import Flowable, Paragraph, Table, TableStyle

from gardens.sheets.fonts import BODY
from gardens.sheets.page import HAIRLINE
from gardens.sheets.piece import Piece
from gardens.sheets.typed import marked_up, paragraph, style

BOX, TICKED = "☐", "☒"
TWO_LINES = "<br/><br/>"
_ROW = 22
ALL = ((0, 0), (-1, -1))
# Gaps between columns are empty text, for which a table would call for a font of its own.
_FACE = ("FONTNAME", *ALL, BODY)
NO_PADDING: list[Any] = [
    _FACE,
    *((f"{side}PADDING", *ALL, 0) for side in ("LEFT", "RIGHT", "TOP", "BOTTOM")),
]
GRID: list[Any] = [
    _FACE,
    ("GRID", *ALL, HAIRLINE, black),
    ("VALIGN", *ALL, "MIDDLE"),
    *((f"{side}PADDING", *ALL, 4) for side in ("LEFT", "RIGHT", "TOP", "BOTTOM")),
]
_ON_RULES: list[Any] = [
    *NO_PADDING,
    ("RIGHTPADDING", *ALL, 5),
    ("TOPPADDING", *ALL, 4),
    ("VALIGN", *ALL, "TOP"),
    ("LINEBELOW", (1, 0), (1, -1), HAIRLINE, black),
]


def boxes(choices: Mapping[Any, str], chosen: object) -> str:
    """Markup of a row of boxes to tick, the chosen ones ticked.

    Parameters
    ----------
    choices : Mapping
        Words to print, by the value they stand for.
    chosen : object
        The value, a collection of values, or None when nothing is chosen yet.

    Returns
    -------
    str
        Markup for ``Paragraph``.
    """
    taken = chosen if isinstance(chosen, list | tuple | set) else (chosen,)
    marks = ((TICKED if value in taken else BOX, said) for value, said in choices.items())
    # No-break spaces inside, so that a box is never parted from its words.
    return " ".join(f"{mark} {escape(said)}  ".replace(" ", "\u00a0") for mark, said in marks)


def answer_table(
    rows: Sequence[tuple[str, str]], width: float, label: float, *, row: float = _ROW
) -> Table:
    """Labels beside their answers, each answer on a rule one can write on.

    Parameters
    ----------
    rows : sequence of (str, str)
        Label and ready markup (see ``marked_up`` and ``boxes``); empty markup leaves room.
    width, label : float
        Of the whole table and of its labels [pt].
    row : float
        Least height of a row [pt].

    Returns
    -------
    Table
        One row for each pair.
    """
    cells = [[paragraph(name), Paragraph(said, style("body"))] for name, said in rows]
    heights = [max(row, _needed(pair, (label, width - label))) for pair in cells]
    table = Table(cells, colWidths=[label, width - label], rowHeights=heights)
    table.setStyle(TableStyle(_ON_RULES))
    return table


def _needed(cells: Sequence[Paragraph], widths: Sequence[float]) -> float:
    tall = (cell.wrap(width - 5, 10_000)[1] for cell, width in zip(cells, widths, strict=True))
    return max(tall) + 8


def long_answer(label: str, text: str, width: float, *, lines: int = 3) -> list[Flowable]:
    """An answer of any length above its rule, or that many rules to write on.

    Parameters
    ----------
    label : str
        What is asked.
    text : str
        The answer as typed; may be empty.
    width : float
        Of the rules [pt, > 0].
    lines : int
        Rules to write on when it is empty [1, >= 1].

    Returns
    -------
    list of Flowable
        Pieces that may be parted by a page break.
    """
    said = f"{escape(label)}: {marked_up(text)}" if text.strip() else f"{escape(label)}:"
    return [Paragraph(said, style("body")), _WritingLines(1 if text.strip() else lines, width)]


class RoomToWrite(Flowable):
    """A label over as many rules as the page still has room for; nothing when there is none.

    Parameters
    ----------
    label : str
        What is asked.
    lines : int
        Rules at most [1, >= 1].
    """

    def __init__(self, label: str, lines: int) -> None:
        super().__init__()
        self._label, self._most = paragraph(f"{label}:"), lines
        self._parts: list[tuple[Flowable, float]] = []

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Size it takes in the room that is left.

        Parameters
        ----------
        width, height : float
            Room that is left [pt].

        Returns
        -------
        (float, float)
            Width and height [pt].
        """
        _, label = self._label.wrap(width, height)
        count = min(self._most, int((height - label - 10) // _ROW) + 1)
        if count < 1:
            self._parts = []
            return width, 0
        lines = _WritingLines(count, width)
        self._parts = [(self._label, label), (lines, lines.height)]
        return width, label + lines.height

    def draw(self) -> None:
        """Draw the label, then its rules under it."""
        y = sum(tall for _, tall in self._parts)
        for part, tall in self._parts:
            y -= tall
            part.drawOn(self.canv, 0, y)


class _WritingLines(Piece):
    """Rules across the page; the first stands right under the text above."""

    def __init__(self, count: int, width: float) -> None:
        super().__init__(width, 10 + _ROW * (count - 1))
        self._count = count

    def draw(self) -> None:
        self.canv.setLineWidth(HAIRLINE)
        for line in range(self._count):
            y = self.height - 6 - _ROW * line
            self.canv.line(0, y, self.width, y)
