"""Text as people typed it, made ready to be set: escaped, held together, cut to fit.

Not for the words the sheets themselves say (see ``words.py``).
"""

import unicodedata
from functools import cache
from xml.sax.saxutils import escape

from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Paragraph

from gardens.sheets import fonts
from gardens.sheets.fonts import BODY, BOLD

SIZE = 11
LEADING = 14
_SMALLEST = 8


@cache
def style(name: str) -> ParagraphStyle:
    """One of the few styles: body, bold, title, head, centred.

    Parameters
    ----------
    name : str
        ``"body"``, ``"bold"``, ``"title"``, ``"head"`` or ``"centred"``.

    Returns
    -------
    ParagraphStyle
        The same object every time.
    """
    fonts.register()
    base = ParagraphStyle(
        "body", fontName=BODY, fontSize=SIZE, leading=LEADING, bulletFontName=BODY
    )
    made = {
        "body": base,
        "bold": ParagraphStyle("bold", base, fontName=BOLD),
        "title": ParagraphStyle("title", base, fontName=BOLD, fontSize=17, leading=21),
        "head": ParagraphStyle("head", base, fontName=BOLD, fontSize=13, leading=17),
        "centred": ParagraphStyle("centred", base, alignment=1),
    }
    return made[name]


def printable(text: str) -> str:
    """Text with every sign a page cannot show turned into a space; line breaks stay.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        As long as before.
    """
    return "".join(
        sign if sign == "\n" or unicodedata.category(sign)[0] != "C" else " " for sign in text
    )


def one_line(text: str) -> str:
    """Text on one line.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        Without line breaks, single spaces between words.
    """
    return " ".join(printable(text).split())


def marked_up(text: str) -> str:
    """Text ready for a paragraph: escaped, with its line breaks, blank lines taken out.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        Markup for ``Paragraph``.
    """
    lines = [line.strip() for line in printable(text).split("\n")]
    return _held("<br/>".join(escape(line) for line in lines if line))


def in_a_row(text: str, between: str = "; ") -> str:
    """Typed text ready for a cell: escaped, its lines one after the other.

    Parameters
    ----------
    text : str
        Any text.
    between : str
        What to put between its lines.

    Returns
    -------
    str
        Markup for ``Paragraph``, on one line.
    """
    lines = [one_line(line) for line in text.split("\n")]
    return _held(escape(between.join(line for line in lines if line)))


def address_in(text: str, room: float) -> str:
    """An e-mail address ready for a narrow cell: whole, or broken before its @, or smaller.

    Parameters
    ----------
    text : str
        The address as typed.
    room : float
        Width of the cell [pt, > 0].

    Returns
    -------
    str
        Markup for ``Paragraph``.
    """
    shown = one_line(text)
    if stringWidth(shown, BODY, SIZE) <= room:
        return escape(shown)
    name, at, host = shown.partition("@")
    lines = [name, at + host] if at else [name]
    widest = max(stringWidth(line, BODY, SIZE) for line in lines)
    size = max(_SMALLEST, min(SIZE, int(SIZE * room / widest * 2) / 2))
    return f'<font size="{size:g}">{"<br/>".join(escape(line) for line in lines)}</font>'


def _held(text: str) -> str:
    """Text in which a percent sign stays with its number."""
    return text.replace(" %", "\u00a0%")


def paragraph(text: str, name: str = "body") -> Paragraph:
    """Text as it was typed, set in one of the styles.

    Parameters
    ----------
    text : str
        Any text; it is escaped.
    name : str
        Of the style.

    Returns
    -------
    Paragraph
        Ready to be laid on a page.
    """
    return Paragraph(marked_up(text), style(name))


def fitted(text: str, font: str, size: float, room: float) -> str:
    """Text cut at the end, with an ellipsis, until it fits a width [pt].

    Parameters
    ----------
    text : str
        Any text.
    font : str
        Name of a face.
    size : float
        [pt, > 0]
    room : float
        Width it may take [pt, > 0].

    Returns
    -------
    str
        The text, or its beginning and an ellipsis.
    """
    shown = one_line(text)
    if stringWidth(shown, font, size) <= room:
        return shown
    while shown and stringWidth(shown + "…", font, size) > room:
        shown = shown[:-1]
    return shown.rstrip() + "…"
