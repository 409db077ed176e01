"""What stands in a filled place, drawn with our own embedded faces so that it prints everywhere.

A form names its own font, which seldom has all the signs of a name; so what is seen is drawn
here, and what is stored is the text itself. Not for where a place is.
"""

import io
import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from pypdf import PdfReader
from reportlab.lib.utils import simpleSplit
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from gardens.sheets import fonts
from gardens.sheets.fonts import BODY
from gardens.sheets.typed import fitted, printable

_LARGEST, _SMALLEST = 12.0, 6.0
_PAD = 2.0
RISE = 0.3  # of the size: from the middle of a line down to where its letters stand
TICK = "✗"
_SIZE = re.compile(r"([\d.]+)\s+Tf")

Colour = tuple[float, ...]


@dataclass(frozen=True)
class Ink:
    """One drawing: its size [pt, > 0], the text, and how the form wants it set.

    ``size`` [pt, >= 0] is 0 for as large as fits; ``side`` 0 left, 1 middle, 2 right; ``cells``
    the number of cells of a comb, 0 for none; colours are what the form asks for, or None.
    """

    wide: float
    high: float
    text: str
    size: float = 0
    side: int = 0
    cells: int = 0
    has_lines: bool = False
    is_tick: bool = False
    ground: Colour | None = None
    border: Colour | None = None


def size_in(appearance: str) -> float:
    """Size of the letters a form asks for.

    Parameters
    ----------
    appearance : str
        Its ``/DA``, e.g. ``/Helv 10 Tf 0 g``.

    Returns
    -------
    float
        [pt, >= 0]; 0 for as large as fits.

    Examples
    --------
    >>> size_in("/Helv 10 Tf 0 g"), size_in("0 g")
    (10.0, 0.0)
    """
    found = _SIZE.search(appearance)
    return float(found[1]) if found else 0.0


def drawn(inks: Sequence[Ink]) -> PdfReader:
    """Each drawing as a page of its own, the faces shared.

    Parameters
    ----------
    inks : sequence of Ink
        One or more.

    Returns
    -------
    PdfReader
        As many pages, each as large as its drawing.
    """
    fonts.register()
    buffer = io.BytesIO()
    face: Any = BODY
    canvas = Canvas(buffer, invariant=1, initialFontName=face)
    for ink in inks:
        canvas.setPageSize((ink.wide, ink.high))
        _frame(canvas, ink)
        _draw(canvas, ink)
        canvas.showPage()
    canvas.save()
    return PdfReader(buffer)


def _frame(canvas: Canvas, ink: Ink) -> None:
    if ink.ground:
        _colour(canvas, ink.ground, is_line=False)
        canvas.rect(0, 0, ink.wide, ink.high, stroke=0, fill=1)
    if ink.border:
        _colour(canvas, ink.border, is_line=True)
        canvas.rect(0.5, 0.5, ink.wide - 1, ink.high - 1)
    canvas.setFillGray(0)


def _colour(canvas: Canvas, parts: Colour, *, is_line: bool) -> None:
    grey, rgb, cmyk = (
        (canvas.setStrokeGray, canvas.setStrokeColorRGB, canvas.setStrokeColorCMYK)
        if is_line
        else (canvas.setFillGray, canvas.setFillColorRGB, canvas.setFillColorCMYK)
    )
    if len(parts) == 1:
        grey(parts[0])
    elif len(parts) == 3:
        rgb(*parts)
    else:
        cmyk(*parts)


def _draw(canvas: Canvas, ink: Ink) -> None:
    if ink.is_tick:
        size = min(ink.wide, ink.high)
        canvas.setFont(BODY, size)
        canvas.drawCentredString(ink.wide / 2, ink.high / 2 - RISE * size, TICK)
    elif ink.cells:
        _comb(canvas, ink)
    elif ink.has_lines:
        _lines(canvas, ink)
    else:
        _line(canvas, ink)


def _line(canvas: Canvas, ink: Ink) -> None:
    room = ink.wide - 2 * _PAD
    size = ink.size or min(_LARGEST, 0.7 * ink.high)
    natural = stringWidth(ink.text, BODY, size)
    if natural > room:
        size = max(min(_SMALLEST, size), size * room / natural)
    canvas.setFont(BODY, size)
    shown = fitted(ink.text, BODY, size, room)
    _put(canvas, ink, shown, ink.high / 2 - RISE * size)


def _put(canvas: Canvas, ink: Ink, shown: str, y: float) -> None:
    if ink.side == 1:
        canvas.drawCentredString(ink.wide / 2, y, shown)
    elif ink.side == 2:
        canvas.drawRightString(ink.wide - _PAD, y, shown)
    else:
        canvas.drawString(_PAD, y, shown)


def _lines(canvas: Canvas, ink: Ink) -> None:
    """Text of several lines, smaller until it fits."""
    size = ink.size or _LARGEST
    while True:
        lines = [
            line
            for part in printable(ink.text).split("\n")
            for line in simpleSplit(part, BODY, size, ink.wide - 2 * _PAD) or [""]
        ]
        if len(lines) * 1.2 * size <= ink.high - _PAD or size <= _SMALLEST:
            break
        size = max(_SMALLEST, size - 0.5)
    most = max(1, math.floor((ink.high - _PAD) / (1.2 * size)))
    canvas.setFont(BODY, size)
    for number, line in enumerate(lines[:most]):
        _put(canvas, ink, line, ink.high - _PAD / 2 - size - 1.2 * size * number)


def _comb(canvas: Canvas, ink: Ink) -> None:
    cell = ink.wide / ink.cells
    size = ink.size or min(_LARGEST, 0.7 * ink.high, cell)
    canvas.setFont(BODY, size)
    for number, sign in enumerate(ink.text[: ink.cells]):
        canvas.drawCentredString((number + 0.5) * cell, ink.high / 2 - RISE * size, sign)
