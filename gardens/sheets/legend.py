"""The key to a map: eleven patterns with their grades and few words.

Not for the full words of a scale, which stand on the blank form.
"""

from reportlab.pdfgen.canvas import Canvas

from gardens.domain.scales import Scale
from gardens.sheets import patterns
from gardens.sheets.fonts import BODY, BOLD
from gardens.sheets.piece import Piece
from gardens.sheets.typed import SIZE, fitted

_SIDE, _LINE = 14.0, 19.0
_NUMBER = ("○", "its number")
_OTHERS = (("–", "missing"), ("×", "dead, no grade"), ("○", "not dug"))


class Legend(Piece):
    """Patterns, grades and words in columns, then the signs without a grade.

    Parameters
    ----------
    scale : Scale
        Eleven grades.
    width : float
        [pt]
    columns : int
        [1, 1 or more]
    """

    def __init__(self, scale: Scale, width: float, columns: int) -> None:
        self._entries = [(str(each.grade), each.short) for each in scale.grades]
        self._entries += [*_OTHERS, _NUMBER]
        self._lines = -(-len(self._entries) // columns)
        self._column = width / columns
        super().__init__(width, self._lines * _LINE)

    def draw(self) -> None:
        """Draw it with its lower left corner at the origin."""
        canvas: Canvas = self.canv
        canvas.setLineWidth(0.6)
        for index, (sign, said) in enumerate(self._entries):
            x = index // self._lines * self._column
            y = self.height - (index % self._lines + 1) * _LINE
            if (sign, said) == _NUMBER:
                canvas.setFont(BODY, 7)
                canvas.drawString(x + _SIDE + 17, y + 12, "12")
            if sign.isdecimal():
                patterns.draw_box(canvas, int(sign), x, y + 3, _SIDE)
            canvas.setFont(BOLD, SIZE)
            canvas.drawCentredString(x + _SIDE + 13, y + 6, sign)
            canvas.setFont(BODY, SIZE)
            room = self._column - _SIDE - 30
            canvas.drawString(x + _SIDE + 26, y + 6, fitted(said, BODY, SIZE, room))
