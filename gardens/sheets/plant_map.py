"""A bed with its plants: graded ones patterned and numbered, the others open.

Not for the soil sample's sketch (see ``sketch.py``).
"""

from collections import Counter
from collections.abc import Sequence

from reportlab.lib.colors import black, white
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from gardens.domain.geometry import Point
from gardens.sheets import patterns
from gardens.sheets.fonts import BODY, BOLD
from gardens.sheets.page import HAIRLINE
from gardens.sheets.piece import Piece
from gardens.sheets.sketch import BedFrame, draw_outline, draw_scale_bar
from gardens.sheets.typed import SIZE
from gardens.sheets.values import BedMap, Mark, RatingForm

_ABOVE, _BELOW, _BESIDE = 18, 22, 4
_LARGEST, _SMALLEST = 19.0, 4.0
_DISC = 0.62
_OPEN = 0.4
_CAP = 0.36


def mark_radius(places: Sequence[Point]) -> float:
    """Radius at which no two marks overlap, if they can be that small [pt, 4..19].

    Parameters
    ----------
    places : sequence of (float, float)
        Where the marks go [pt]; marks at one place are set beside each other anyway.

    Returns
    -------
    float
        [pt, 4..19]
    """
    apart = sorted(set(places))
    nearest = 2 * _LARGEST
    for i, (x, y) in enumerate(apart):
        for x2, y2 in apart[i + 1 :]:
            if x2 - x >= nearest:
                break
            nearest = min(nearest, ((x2 - x) ** 2 + (y2 - y) ** 2) ** 0.5)
    return max(_SMALLEST, min(_LARGEST, 0.48 * nearest))


class PlantMap(Piece):
    """The bed of a map or of a blank form, drawn to scale with its plants.

    Parameters
    ----------
    sheet : BedMap or RatingForm
        What is drawn; a form has no marks.
    room : (float, float)
        Width and height it may take [pt].
    """

    def __init__(self, sheet: BedMap | RatingForm, room: Point) -> None:
        self._units, self._plants = sheet.units, sheet.plants
        self._marks: tuple[Mark, ...] = sheet.marks if isinstance(sheet, BedMap) else ()
        # On a map of grades a plant's number would be read as a grade.
        self._numbered = isinstance(sheet, RatingForm)
        seen = [(mark.x_cm, mark.y_cm) for mark in self._marks]
        places = [*self._plants, *seen]
        inner = (room[0] - 2 * _BESIDE, room[1] - _ABOVE - _BELOW)
        self._laid = BedFrame(sheet.shape, inner, places)
        super().__init__(room[0], self._laid.height + _ABOVE + _BELOW)
        everywhere = [self._laid.at(x, y) for x, y in places]
        self._radius = mark_radius(everywhere)

    def draw(self) -> None:
        """Draw it with its lower left corner at the origin."""
        canvas: Canvas = self.canv
        canvas.setFont(BODY, SIZE)
        canvas.drawCentredString(self.width / 2, self.height - SIZE, "top edge of the bed as drawn")
        canvas.translate(_BESIDE, self.height - _ABOVE - self._laid.room[1])
        draw_outline(canvas, self._laid)
        self._draw_plants(canvas)
        self._draw_marks(canvas)
        below = self._laid.room[1] - self._laid.height - 14
        draw_scale_bar(canvas, self._laid, self._units, below)

    def _draw_plants(self, canvas: Canvas) -> None:
        """Plants nobody rated: small open circles, numbered only on a blank form."""
        rated = {mark.plant for mark in self._marks}
        taken = {(mark.x_cm, mark.y_cm) for mark in self._marks}
        canvas.setLineWidth(0.4)
        for number, (x, y) in enumerate(self._plants, start=1):
            if number not in rated and (x, y) not in taken:
                across, up = self._laid.at(x, y)
                size = self._radius if self._numbered else self._radius * _OPEN
                canvas.circle(across, up, size, stroke=1, fill=0)
                if self._numbered:
                    _write(canvas, str(number), (across, up), self._radius * 0.9, BODY)

    def _draw_marks(self, canvas: Canvas) -> None:
        already: Counter[Point] = Counter()
        canvas.setLineWidth(HAIRLINE)
        for mark in self._marks:
            across, up = self._laid.at(mark.x_cm, mark.y_cm)
            beside = already[(across, up)]
            already[(across, up)] += 1
            draw_mark(canvas, mark, (across + beside * self._radius, up), self._radius)


def draw_mark(canvas: Canvas, mark: Mark, at: Point, radius: float) -> None:
    """Draw one rated plant: its pattern with its grade, or the sign it has instead.

    Parameters
    ----------
    canvas : Canvas
        To draw on.
    mark : Mark
        The plant.
    at : (float, float)
        Its centre [pt].
    radius : float
        [pt, 4..19]
    """
    # Each kind of mark is drawn once and then only placed: a full bed has hundreds.
    kind = mark.reading.state if mark.reading.grade is None else mark.reading.grade
    name = f"mark-{kind}-{radius:.3f}"
    if not canvas.hasForm(name):
        edge = int(radius) + 2
        canvas.beginForm(name, -edge, -edge, edge, edge)
        _draw_sign(canvas, mark, radius)
        canvas.endForm()
    canvas.saveState()
    canvas.translate(*at)
    canvas.doForm(name)
    canvas.restoreState()


def _sign(mark: Mark) -> str:
    if mark.reading.grade is not None:
        return str(mark.reading.grade)
    return "×" if mark.reading.state == "dead" else "–"


def _draw_sign(canvas: Canvas, mark: Mark, radius: float) -> None:
    canvas.setLineWidth(HAIRLINE)
    _white_disc(canvas, radius)
    sign = _sign(mark)
    if mark.reading.grade is None:
        canvas.setDash(2, 2)
        canvas.circle(0, 0, radius, stroke=1, fill=0)
        canvas.setDash()
        _write(canvas, sign, (0, 0), radius * 1.4, BOLD)
        return
    patterns.draw_disc(canvas, mark.reading.grade, 0, 0, radius)
    _white_disc(canvas, radius * _DISC)
    _write(canvas, sign, (0, 0), radius * (1.05 if len(sign) == 1 else 0.78), BOLD)


def _white_disc(canvas: Canvas, radius: float) -> None:
    canvas.setFillColor(white)
    canvas.circle(0, 0, radius, stroke=0, fill=1)
    canvas.setFillColor(black)


def _write(canvas: Canvas, said: str, at: Point, size: float, font: str) -> None:
    wide = stringWidth(said, font, size)
    canvas.setFont(font, size)
    canvas.drawString(at[0] - wide / 2, at[1] - _CAP * size, said)
