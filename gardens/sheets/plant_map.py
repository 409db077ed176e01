"""A bed with its plants: graded ones patterned, the others open, all with their numbers.

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
from gardens.sheets.plant_numbers import draw_beside, draw_start
from gardens.sheets.sketch import BedFrame, draw_outline, draw_scale_bar
from gardens.sheets.typed import SIZE
from gardens.sheets.values import BedMap, Mark, RatingForm

_ABOVE, _BELOW, _BESIDE = 18, 22, 4
_LARGEST, _SMALLEST = 19.0, 4.0
_DISC = 0.62
_OPEN = 0.4
_CAP = 0.36
_START = 14
# Share of the gap between plants that a mark takes, without and with its number beside it.
_WHOLE, _WITH_NUMBERS = 0.48, 0.4
# Least size of digits on a blank form, and the circles that hold two or three of them [pt].
_READABLE, _ROOM_FOR_TWO, _ROOM_FOR_THREE = 8.0, 6.0, 7.6
_SMALL = 6.0


def mark_radius(places: Sequence[Point], share: float) -> float:
    """Radius at which no two marks overlap, if they can be that small [pt, 4..19].

    Parameters
    ----------
    places : sequence of (float, float)
        Where the marks go [pt]; marks at one place are set beside each other anyway.
    share : float
        Of the way to the nearest neighbour [1, 0..0.5].

    Returns
    -------
    float
        [pt, 4..19]
    """
    apart = sorted(set(places))
    nearest = _LARGEST / share
    for i, (x, y) in enumerate(apart):
        for x2, y2 in apart[i + 1 :]:
            if x2 - x >= nearest:
                break
            nearest = min(nearest, ((x2 - x) ** 2 + (y2 - y) ** 2) ** 0.5)
    return max(_SMALLEST, min(_LARGEST, share * nearest))


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
        self._blank = isinstance(sheet, RatingForm)
        seen = [(mark.x_cm, mark.y_cm) for mark in self._marks]
        places = [*self._plants, *seen]
        self._above = _ABOVE + (_START if self._plants else 0)
        inner = (room[0] - 2 * _BESIDE, room[1] - self._above - _BELOW)
        self._laid = BedFrame(sheet.shape, inner, places)
        super().__init__(room[0], self._laid.height + self._above + _BELOW)
        everywhere = [self._laid.at(x, y) for x, y in places]
        self._radius = mark_radius(everywhere, _WHOLE if self._blank else _WITH_NUMBERS)

    @property
    def numbers_fit(self) -> bool:
        """Whether every plant of a blank form can carry its number in readable digits."""
        return self._radius >= (_ROOM_FOR_THREE if len(self._plants) > 99 else _ROOM_FOR_TWO)

    def draw(self) -> None:
        """Draw it with its lower left corner at the origin."""
        canvas: Canvas = self.canv
        canvas.setFont(BODY, SIZE)
        canvas.drawCentredString(self.width / 2, self.height - SIZE, "top edge of the bed as drawn")
        canvas.translate(_BESIDE, self.height - self._above - self._laid.room[1])
        draw_outline(canvas, self._laid)
        if self._blank and self.numbers_fit:
            self._draw_numbered(canvas)
        else:
            self._draw_plants(canvas)
            self._draw_marks(canvas)
            least = _READABLE if self._blank else _SMALL
            draw_beside(canvas, self._numbers(), self._radius, least)
        if self._plants:
            first, sides = self._laid.at(*self._plants[0]), (0.0, self._laid.room[0])
            draw_start(canvas, first, self._radius, self._laid.room[1], sides)
        below = self._laid.room[1] - self._laid.height - 14
        draw_scale_bar(canvas, self._laid, self._units, below)

    def _numbers(self) -> dict[int, Point]:
        """Where each numbered plant is drawn, also one rated before it was laid out."""
        seen = {mark.plant: (mark.x_cm, mark.y_cm) for mark in self._marks if mark.plant}
        laid = dict(enumerate(self._plants, start=1))
        return {number: self._laid.at(*place) for number, place in (seen | laid).items()}

    def _draw_numbered(self, canvas: Canvas) -> None:
        """Plants of a blank form: open circles with their numbers inside."""
        canvas.setLineWidth(0.4)
        for number, at in self._numbers().items():
            canvas.circle(*at, self._radius, stroke=1, fill=0)
            _write(canvas, str(number), at, max(_READABLE, self._radius * 0.9), BODY)

    def _draw_plants(self, canvas: Canvas) -> None:
        """Plants nobody rated: small open circles."""
        rated = {mark.plant for mark in self._marks}
        taken = {(mark.x_cm, mark.y_cm) for mark in self._marks}
        canvas.setLineWidth(0.4)
        for number, (x, y) in enumerate(self._plants, start=1):
            if number not in rated and (x, y) not in taken:
                across, up = self._laid.at(x, y)
                canvas.circle(across, up, self._radius * _OPEN, stroke=1, fill=0)

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
