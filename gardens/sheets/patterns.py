"""Eleven fills, one per grade, told apart on any black-and-white printer.

More ink is a higher grade; a digit always stands beside the fill. Not for the screen, which
has its colours in ``fixtures/grade_colours.json``.
"""

from reportlab.pdfgen.canvas import Canvas

# In the order of the grades; the same names as "patterns" in fixtures/grade_colours.json.
NAMES = (
    "blank",
    "dots_sparse",
    "dots",
    "dots_dense",
    "lines_sparse",
    "lines",
    "lines_dense",
    "net_sparse",
    "net",
    "net_dense",
    "solid",
)

_STEP = {"sparse": 7.0, "": 4.6, "dense": 3.0}
_WIDTH = {"sparse": 0.7, "": 0.8, "dense": 1.0}
_DOT = {"sparse": 0.8, "": 0.9, "dense": 1.0}


def draw_disc(canvas: Canvas, grade: int, x: float, y: float, radius: float) -> None:
    """Draw a disc filled with a grade's pattern.

    Parameters
    ----------
    canvas : Canvas
        To draw on, in black.
    grade : int
        [any scale, 0..10]
    x, y, radius : float
        Centre and size [pt].
    """
    canvas.saveState()
    disc = canvas.beginPath()
    disc.circle(x, y, radius)
    canvas.clipPath(disc, stroke=0, fill=0)
    _fill(canvas, NAMES[grade], (x - radius, y - radius, 2 * radius, 2 * radius))
    canvas.restoreState()
    canvas.circle(x, y, radius, stroke=1, fill=0)


def draw_box(canvas: Canvas, grade: int, x: float, y: float, side: float) -> None:
    """Draw a square filled with a grade's pattern, for the legend.

    Parameters
    ----------
    canvas : Canvas
        To draw on, in black.
    grade : int
        [any scale, 0..10]
    x, y, side : float
        Lower left corner and size [pt].
    """
    canvas.saveState()
    border = canvas.beginPath()
    border.rect(x, y, side, side)
    canvas.clipPath(border, stroke=0, fill=0)
    _fill(canvas, NAMES[grade], (x, y, side, side))
    canvas.restoreState()
    canvas.rect(x, y, side, side, stroke=1, fill=0)


def _fill(canvas: Canvas, name: str, area: tuple[float, float, float, float]) -> None:
    kind, _, thickness = name.partition("_")
    if kind == "solid":
        canvas.rect(*area, stroke=0, fill=1)
    elif kind == "dots":
        _dots(canvas, area, _STEP[thickness], _DOT[thickness])
    elif kind in ("lines", "net"):
        canvas.setLineWidth(_WIDTH[thickness])
        _lines(canvas, area, _STEP[thickness], rising=True)
        if kind == "net":
            _lines(canvas, area, _STEP[thickness], rising=False)


def _dots(
    canvas: Canvas, area: tuple[float, float, float, float], step: float, radius: float
) -> None:
    left, bottom, width, height = area
    path = canvas.beginPath()
    for row in range(int(height / step) + 2):
        for column in range(int(width / step) + 2):
            shift = step / 2 if row % 2 else 0
            path.circle(left + column * step - shift, bottom + row * step, radius)
    canvas.drawPath(path, stroke=0, fill=1)


def _lines(
    canvas: Canvas, area: tuple[float, float, float, float], step: float, *, rising: bool
) -> None:
    left, bottom, width, height = area
    foot, top = (bottom, bottom + height) if rising else (bottom + height, bottom)
    # The step is measured across the lines, which lie at 45 degrees.
    along = step * 2**0.5
    n = int((width + height) / along) + 2
    starts = [left - height + i * along for i in range(n)]
    canvas.lines([(start, foot, start + height, top) for start in starts])
