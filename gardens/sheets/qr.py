"""A QR code drawn as one path of squares, 25 mm wide without its quiet border where room is.

Not for choosing what it says.
"""

import segno
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from gardens.sheets.piece import Piece

SIDE = 25 * mm
_QUIET_MODULES = 4


class QrCode(Piece):
    """The QR code of an address, with the quiet border readers ask for.

    Parameters
    ----------
    link : str
        Address it opens.
    across : float
        Its width without the border [pt, > 0].
    """

    def __init__(self, link: str, across: float = SIDE) -> None:
        rows = segno.make(link, error="m", micro=False).matrix
        self._rows = [bytes(row) for row in rows]
        self._module = across / len(self._rows)
        side = across + 2 * _QUIET_MODULES * self._module
        super().__init__(side, side)

    def draw(self) -> None:
        """Draw it with its lower left corner at the origin."""
        canvas: Canvas = self.canv
        top = self.height - _QUIET_MODULES * self._module
        path = canvas.beginPath()
        for y, row in enumerate(self._rows):
            for start, end in _runs(row):
                left = (_QUIET_MODULES + start) * self._module
                path.rect(
                    left, top - (y + 1) * self._module, (end - start) * self._module, self._module
                )
        canvas.drawPath(path, stroke=0, fill=1)


def _runs(row: bytes) -> list[tuple[int, int]]:
    """Start and end of each run of dark modules in a row."""
    found, start = [], None
    for x, dark in enumerate([*row, 0]):
        if dark and start is None:
            start = x
        elif not dark and start is not None:
            found.append((start, x))
            start = None
    return found
