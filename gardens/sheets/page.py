"""The page every sheet shares: paper, margins, footer and the finished bytes.

Not for what stands on it.
"""

import io
from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

from reportlab.lib.pagesizes import A4, LETTER, landscape
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable, SimpleDocTemplate

from gardens.sheets import fonts
from gardens.sheets.fonts import BODY
from gardens.sheets.typed import SIZE, fitted, one_line
from gardens.sheets.values import Paper
from gardens.sheets.words import LANGUAGE

MARGIN = 40
FOOT = 46
HAIRLINE = 0.6

_PAPERS: Mapping[Paper, tuple[float, float]] = {"a4": A4, "letter": LETTER}


class NumberedCanvas(Canvas):
    """Canvas that knows, once all pages are drawn, how many there are."""

    def __init__(self, *args: Any, foot: str, **options: Any) -> None:
        super().__init__(*args, **options)
        self._foot_text = foot
        self._width: float = options["pagesize"][0]
        self._drawn: list[dict[str, Any]] = []

    def showPage(self) -> None:
        """Keep the page until its number of pages is known."""
        self._drawn.append(dict(self.__dict__))
        self._startPage()  # type: ignore[attr-defined]  # no public way to begin the next

    def save(self) -> None:
        """Write the footer on every page, then the file."""
        for number, page in enumerate(self._drawn, start=1):
            self.__dict__.update(page)
            self._foot(number, len(self._drawn))
            super().showPage()
        super().save()

    def _foot(self, number: int, total: int) -> None:
        said = f"Page {number} of {total}"
        room = self._width - 2 * MARGIN - self.stringWidth(said, BODY, SIZE) - 20
        self.setFont(BODY, SIZE)
        self.drawString(MARGIN, 26, fitted(self._foot_text, BODY, SIZE, room))
        self.drawRightString(self._width - MARGIN, 26, said)


def page_size(paper: Paper, *, wide: bool = False) -> tuple[float, float]:
    """Width and height of a page [pt, > 0].

    Parameters
    ----------
    paper : {"a4", "letter"}
        Paper to print on.
    wide : bool
        Whether the page lies on its long side.

    Returns
    -------
    (float, float)
        Width and height [pt, > 0].
    """
    return landscape(_PAPERS[paper]) if wide else _PAPERS[paper]


def room(paper: Paper, *, wide: bool = False) -> tuple[float, float]:
    """Width and height between the margins [pt, > 0].

    Parameters
    ----------
    paper : {"a4", "letter"}
        Paper to print on.
    wide : bool
        Whether the page lies on its long side.

    Returns
    -------
    (float, float)
        Width and height [pt, > 0].
    """
    width, height = page_size(paper, wide=wide)
    return width - 2 * MARGIN, height - MARGIN - FOOT


def height_of(pieces: Sequence[Flowable], width: float) -> float:
    """Height pieces take one under the other [pt].

    Parameters
    ----------
    pieces : sequence of Flowable
        Any number.
    width : float
        Of the room they stand in [pt, > 0].

    Returns
    -------
    float
        [pt, >= 0]
    """
    return sum(piece.wrap(width, 100_000)[1] for piece in pieces)


def build(story: Sequence[Flowable], *, title: str, paper: Paper, wide: bool = False) -> bytes:
    """Lay a story out on pages and answer the finished PDF.

    Parameters
    ----------
    story : sequence of Flowable
        One or more pieces, in reading order.
    title : str
        Title of the document, also printed at the foot of every page.
    paper : {"a4", "letter"}
        Paper to print on.
    wide : bool
        Whether the page lies on its long side.

    Returns
    -------
    bytes
        The same bytes for the same story, with title and language set.
    """
    fonts.register()
    buffer = io.BytesIO()
    document = SimpleDocTemplate(
        buffer,
        pagesize=page_size(paper, wide=wide),
        leftMargin=MARGIN - 6,
        rightMargin=MARGIN - 6,
        topMargin=MARGIN - 6,
        bottomMargin=FOOT - 6,
        title=one_line(title),
        author="Knotbed",
        lang=LANGUAGE,
        invariant=1,
        initialFontName=BODY,
        initialFontSize=SIZE,
    )
    document.build(list(story), canvasmaker=partial(NumberedCanvas, foot=title))
    return buffer.getvalue()
