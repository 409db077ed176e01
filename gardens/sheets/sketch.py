"""A bed drawn to scale: its outline, its measures, and where things are in it.

The top edge is the top edge as drawn; nothing claims to know where north is.
"""

from collections.abc import Mapping, Sequence

from reportlab.pdfgen.canvas import Canvas

from gardens.domain import geometry
from gardens.domain.geometry import Point
from gardens.sheets import words
from gardens.sheets.fonts import BODY
from gardens.sheets.page import HAIRLINE
from gardens.sheets.piece import Piece
from gardens.sheets.typed import SIZE
from gardens.sheets.values import Units

# Room round the bed: for "top" above, for the scale bar below, for line widths beside.
_ABOVE, _BELOW, _BESIDE = 16, 54, 4
_BARS_CM = (10, 20, 50, 100, 200, 500, 1000, 2000)
_BARS_INCH = (6, 12, 24, 60, 120, 240, 600)
_CROSS = 3.2


class BedFrame:
    """Where a bed's centimetres lie on the page.

    Parameters
    ----------
    shape : Mapping
        A checked ``bed.shape``.
    room : (float, float)
        Width and height to draw in [pt].
    places : sequence of (float, float)
        What else has to be seen [cm]; it may lie outside once the bed was redrawn.
    """

    def __init__(
        self, shape: Mapping[str, object], room: Point, places: Sequence[Point] = ()
    ) -> None:
        self.corners = geometry.corners(shape)
        self.left, self.top, right, bottom = geometry.box([*self.corners, *places])
        self.wide, self.long = right - self.left, bottom - self.top
        self.scale = geometry.scale_to_fit((self.wide, self.long), room)
        self.room = room

    @property
    def height(self) -> float:
        """Height of the drawn bed [pt]."""
        return self.long * self.scale

    def at(self, x_cm: float, y_cm: float) -> Point:
        """Place on the page, from the lower left corner of the room, bed at the top.

        Parameters
        ----------
        x_cm, y_cm : float
            Place in the bed's frame [cm].

        Returns
        -------
        (float, float)
            [pt]
        """
        beside = (self.room[0] - self.wide * self.scale) / 2
        across = (x_cm - self.left) * self.scale + beside
        return across, self.room[1] - (y_cm - self.top) * self.scale


def draw_outline(canvas: Canvas, frame: BedFrame) -> None:
    """Draw the border of the bed.

    Parameters
    ----------
    canvas : Canvas
        To draw on.
    frame : BedFrame
        Where the bed lies.
    """
    canvas.setLineWidth(1.4)
    canvas.drawPath(_closed(canvas, [frame.at(x, y) for x, y in frame.corners]))
    canvas.setLineWidth(HAIRLINE)


def _closed(canvas: Canvas, points: Sequence[Point]):  # type: ignore[no-untyped-def]
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    path.close()
    return path


def draw_scale_bar(canvas: Canvas, frame: BedFrame, units: Units, y: float) -> None:
    """Draw a bar of a round length, at most two fifths of the bed or of the room wide.

    Parameters
    ----------
    canvas : Canvas
        To draw on.
    frame : BedFrame
        Where the bed lies.
    units : {"metric", "us"}
        Of the bar.
    y : float
        Height of the bar in the frame's room [pt].
    """
    steps = _BARS_CM if units == "metric" else [2.54 * inches for inches in _BARS_INCH]
    most = 0.4 * frame.room[0]
    fitting = [cm for cm in steps if cm * frame.scale <= most]
    cm = fitting[-1] if fitting else steps[0]
    said, long = words.length(cm, units), cm * frame.scale
    left = (frame.room[0] - long - 6 - canvas.stringWidth(said, BODY, SIZE)) / 2
    canvas.setLineWidth(1.4)
    canvas.line(left, y, left + long, y)
    for x in (left, left + long):
        canvas.line(x, y - 3, x, y + 3)
    canvas.setLineWidth(HAIRLINE)
    canvas.setFont(BODY, SIZE)
    canvas.drawString(left + long + 6, y - 4, said)


class SampleSketch(Piece):
    """Bed of one sample: the part it stands for hatched, each core a cross.

    Parameters
    ----------
    shape : Mapping
        A checked ``bed.shape``.
    part : Mapping or None
        A checked ``soil_sample.part``; None for the whole bed.
    cores : sequence of (int, int)
        Any number of places in the bed's frame [cm].
    room : (float, float)
        Width and height it may take [pt].
    units : {"metric", "us"}
        Of the scale bar.
    """

    def __init__(
        self,
        shape: Mapping[str, object],
        part: Mapping[str, int] | None,
        cores: Sequence[tuple[int, int]],
        room: Point,
        units: Units,
    ) -> None:
        self._part, self._cores, self._units = part, cores, units
        self._laid = BedFrame(shape, (room[0] - 2 * _BESIDE, room[1] - _ABOVE - _BELOW), cores)
        super().__init__(room[0], self._laid.height + _ABOVE + _BELOW)

    def draw(self) -> None:
        """Draw it with its lower left corner at the origin."""
        canvas: Canvas = self.canv
        frame = self._laid
        canvas.setFont(BODY, SIZE)
        canvas.drawCentredString(self.width / 2, self.height - SIZE, "top edge of the bed as drawn")
        canvas.translate(_BESIDE, self.height - _ABOVE - frame.room[1])
        if self._part is not None:
            self._hatch(canvas, self._part)
        draw_outline(canvas, frame)
        for x, y in self._cores:
            _cross(canvas, *frame.at(x, y))
        below = frame.room[1] - frame.height - 14
        draw_scale_bar(canvas, frame, self._units, below)
        self._say_what(canvas, below - 18)

    def _hatch(self, canvas: Canvas, part: Mapping[str, int]) -> None:
        left, top = self._laid.at(part["x_cm"], part["y_cm"])
        right, bottom = self._laid.at(
            part["x_cm"] + part["width_cm"], part["y_cm"] + part["length_cm"]
        )
        canvas.saveState()
        inside = _closed(canvas, [self._laid.at(x, y) for x, y in self._laid.corners])
        canvas.clipPath(inside, stroke=0, fill=0)
        border = _closed(canvas, [(left, top), (right, top), (right, bottom), (left, bottom)])
        canvas.clipPath(border, stroke=1, fill=0)
        canvas.setLineWidth(0.4)
        start = left - (top - bottom)
        while start < right:
            canvas.line(start, bottom, start + (top - bottom), top)
            start += 6
        canvas.restoreState()

    def _say_what(self, canvas: Canvas, y: float) -> None:
        area = words.area(geometry.area_cm2(self._laid.corners), self._units)
        said = [f"bed {area}"]
        if self._cores:
            said.append(f"× {len(self._cores)} cores")
        canvas.setFont(BODY, SIZE)
        canvas.drawCentredString(self._laid.room[0] / 2, y, ", ".join(said))
        if self._part is not None:
            canvas.drawCentredString(self._laid.room[0] / 2, y - 14, "hatched: this sample")


def _cross(canvas: Canvas, x: float, y: float) -> None:
    canvas.setLineWidth(1.1)
    canvas.line(x - _CROSS, y - _CROSS, x + _CROSS, y + _CROSS)
    canvas.line(x - _CROSS, y + _CROSS, x + _CROSS, y - _CROSS)
