"""The rows of the blank form: one per plant, a box for every grade.

Not for what stands above them.
"""

from collections.abc import Sequence

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from gardens.sheets.fonts import BODY, BOLD
from gardens.sheets.page import HAIRLINE
from gardens.sheets.piece import Piece
from gardens.sheets.typed import SIZE

ROW, HEAD = 20.0, 20.0
_NUMBER, _GRADE, _STATE = 44.0, 21.0, 48.0
_STATES = ("missing", "dead")


class RatingRows(Piece):
    """Rows to tick, under a heading that comes again on every page.

    Parameters
    ----------
    names : sequence of str
        What stands at the left of each row, one or more; may be empty text.
    width : float
        [pt]
    """

    def __init__(self, names: Sequence[str], width: float) -> None:
        self._names = list(names)
        super().__init__(width, HEAD + len(self._names) * ROW)

    def split(self, width: float, height: float) -> list[Flowable]:
        """As many rows as fit, and the rest.

        Parameters
        ----------
        width, height : float
            Room that is left [pt].

        Returns
        -------
        list of Flowable
            Two pieces, or none when not even three rows fit.
        """
        fitting = int((height - HEAD) / ROW)
        if fitting < 3:
            return []
        first, rest = self._names[:fitting], self._names[fitting:]
        return [RatingRows(first, self.width), RatingRows(rest, self.width)]

    def draw(self) -> None:
        """Draw it with its lower left corner at the origin."""
        canvas: Canvas = self.canv
        canvas.setLineWidth(HAIRLINE)
        self._draw_heading(canvas, self.height - HEAD)
        for index, name in enumerate(self._names):
            self._draw_row(canvas, name, self.height - HEAD - (index + 1) * ROW)

    def _draw_heading(self, canvas: Canvas, y: float) -> None:
        canvas.setFont(BOLD, SIZE)
        canvas.drawString(0, y + 5, "Plant")
        for grade in range(11):
            canvas.drawCentredString(_NUMBER + (grade + 0.5) * _GRADE, y + 5, str(grade))
        for index, state in enumerate(_STATES):
            canvas.drawCentredString(self._state_at(index), y + 5, state)
        canvas.drawString(self._remarks_at(), y + 5, "Remarks")

    def _draw_row(self, canvas: Canvas, name: str, y: float) -> None:
        canvas.setFont(BODY, SIZE)
        canvas.drawString(0, y + 6, name)
        side = 14
        centres = [_NUMBER + (grade + 0.5) * _GRADE for grade in range(11)]
        centres += [self._state_at(index) for index in range(len(_STATES))]
        for x in centres:
            canvas.rect(x - side / 2, y + 3, side, side, stroke=1, fill=0)
        if not name:
            canvas.line(0, y + 3, _NUMBER - 8, y + 3)
        canvas.line(self._remarks_at(), y + 3, self.width, y + 3)

    def _state_at(self, index: int) -> float:
        return _NUMBER + 11 * _GRADE + 6 + (index + 0.5) * _STATE

    def _remarks_at(self) -> float:
        return _NUMBER + 11 * _GRADE + 12 + len(_STATES) * _STATE
