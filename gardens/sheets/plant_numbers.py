"""Which plant is which on a drawn bed: small numbers beside the marks, and where digging starts.

Not for grades; those are bold and stand inside a mark.
"""

from collections.abc import Mapping

from reportlab.pdfgen.canvas import Canvas

from gardens.domain.geometry import Point
from gardens.sheets.fonts import BODY
from gardens.sheets.typed import SIZE

_LARGEST = 8.0
# Below this radius only plant 1 and every fifth are numbered, those whose digits do not meet.
_CROWDED = 6.0
_DIAGONAL = 0.71
_CAP = 0.36
_ARROW = 2.5


def draw_beside(canvas: Canvas, places: Mapping[int, Point], radius: float, least: float) -> None:
    """Write each plant's number at the upper right of its mark; on a crowded bed some of them.

    Parameters
    ----------
    canvas : Canvas
        To draw on.
    places : Mapping
        Centre of each plant [pt], by its number.
    radius : float
        Of the marks [pt, 4..19].
    least : float
        Smallest digits [pt, > 0].
    """
    size = max(least, min(_LARGEST, 0.7 * radius))
    every = 5 if radius < _CROWDED else 1
    away = _DIAGONAL * radius + 1
    canvas.setFont(BODY, size)
    taken: list[Point] = []
    for number, (x, y) in places.items():
        wide = canvas.stringWidth(str(number), BODY, size)
        here = (x + away + wide / 2, y + away + _CAP * size)
        asked = number == 1 or number % every == 0
        if asked and not any(_meet(here, other, (wide, size)) for other in taken):
            canvas.drawCentredString(here[0], here[1] - _CAP * size, str(number))
            taken.append(here)


def _meet(here: Point, other: Point, size: Point) -> bool:
    return abs(here[0] - other[0]) < size[0] and abs(here[1] - other[1]) < size[1]


def draw_start(canvas: Canvas, at: Point, radius: float, top: float, sides: Point) -> None:
    """Write "start" over the bed, with an arrow down to the plant that is dug first.

    Parameters
    ----------
    canvas : Canvas
        To draw on.
    at : (float, float)
        Centre of the first plant [pt].
    radius : float
        Of its mark [pt, > 0].
    top : float
        Upper edge of the bed [pt].
    sides : (float, float)
        What the word has to stay between [pt].
    """
    half = canvas.stringWidth("start", BODY, SIZE) / 2
    x, y = at[0], at[1] + radius
    canvas.setFont(BODY, SIZE)
    canvas.drawCentredString(min(max(x, sides[0] + half), sides[1] - half), top + 4, "start")
    canvas.setLineWidth(0.8)
    canvas.line(x, top + 2, x, y)
    for side in (-_ARROW, _ARROW):
        canvas.line(x + side, y + 2 * _ARROW, x, y)
