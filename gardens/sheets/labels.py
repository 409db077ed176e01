"""Labels for bags of soil: the code, a QR code, the bed and the day, on sheets of labels.

Not for what a lab is told of a sample: the submission sheet says that.
"""

import io
from typing import Any

from reportlab.lib.units import mm
from reportlab.lib.utils import simpleSplit
from reportlab.pdfgen.canvas import Canvas

from gardens.domain import codes
from gardens.domain.errors import DomainError
from gardens.sheets import fonts, page, words
from gardens.sheets.fonts import BODY, BOLD
from gardens.sheets.label_sheets import LabelSheet
from gardens.sheets.qr import SIDE, QrCode
from gardens.sheets.typed import SIZE, fitted
from gardens.sheets.values import Sample, Submission

_PAD = 2 * mm
_CODE = 16
_LEADING = 13
_ADVICE = (
    "Cut along the lines. Use a pen or printer water does not wash off, and stick the label on",
    "the outside of the bag, or lay it between two bags: paper inside goes soft.",
)


def labels(parcel: Submission, sheet: LabelSheet, first: int = 1) -> bytes:
    """Print a label for each bag of a parcel.

    Parameters
    ----------
    parcel : Submission
        One or more samples.
    sheet : LabelSheet
        What to print on.
    first : int
        Which label of the first sheet is still there to print on [1, 1 to all of a sheet].

    Returns
    -------
    bytes
        A PDF; the same bytes for the same parcel.

    Raises
    ------
    DomainError
        ``no_such_label``.
    """
    if not 1 <= first <= sheet.n_labels:
        raise DomainError("no_such_label", field="first", max=sheet.n_labels)
    fonts.register()
    buffer = io.BytesIO()
    size = page.page_size(sheet.paper)
    # The stubs call the name of a font a number.
    face: Any = BODY
    canvas = Canvas(buffer, pagesize=size, invariant=1, lang=words.LANGUAGE, initialFontName=face)
    printed = ", ".join(codes.as_printed(each.code) for each in parcel.samples[:6])
    canvas.setTitle(f"Labels for bags {printed}")
    canvas.setAuthor("Knotbed")
    for at, sample in enumerate(parcel.samples, start=first - 1):
        number, spot = divmod(at, sheet.n_labels)
        if spot == 0 and number:
            canvas.showPage()
        if sheet.is_cut and (spot == 0 or at == first - 1):
            _advice(canvas, sheet, size[1])
        _label(canvas, sheet, spot, size[1], (sample, parcel))
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _advice(canvas: Canvas, sheet: LabelSheet, high: float) -> None:
    canvas.setFont(BODY, SIZE)
    below = high - (sheet.top_mm + sheet.n_down * sheet.pitch_y_mm) * mm - 20
    for line, said in enumerate(_ADVICE):
        canvas.drawString(sheet.left_mm * mm, below - line * _LEADING, said)


def _label(
    canvas: Canvas, sheet: LabelSheet, spot: int, high: float, printed: tuple[Sample, Submission]
) -> None:
    down, across = divmod(spot, sheet.n_across)
    left = (sheet.left_mm + across * sheet.pitch_x_mm) * mm
    wide, tall = sheet.width_mm * mm, sheet.height_mm * mm
    bottom = high - (sheet.top_mm + down * sheet.pitch_y_mm) * mm - tall
    if sheet.is_cut:
        canvas.setDash(3, 3)
        canvas.rect(left, bottom, wide, tall)
        canvas.setDash()
    sample, _ = printed
    # The border of a QR code needs no ink, so it may reach into the padding.
    qr = QrCode(sample.link, min(SIDE, 0.8 * tall))
    qr.drawOn(canvas, left + _PAD / 2, bottom + (tall - qr.height) / 2)
    start = left + _PAD / 2 + qr.width + 2
    _say(canvas, printed, (start, bottom + tall), (left + wide - _PAD - start, tall - _PAD))


def _say(
    canvas: Canvas,
    printed: tuple[Sample, Submission],
    corner: tuple[float, float],
    room: tuple[float, float],
) -> None:
    sample, parcel = printed
    (x, top), (wide, tall) = corner, room
    y = top - _PAD - _CODE * 0.8
    canvas.setFont(BOLD, _CODE)
    canvas.drawString(x, y, codes.as_printed(sample.code))
    lifted = words.day(sample.lifted_at.date()) if sample.lifted_at else "lifted on ………………"
    lab = f"to {parcel.lab.name}" if parcel.lab else "living soil: cool, no sun"
    n_lines = max(1, int((y - (top - tall)) / (_LEADING + 1)) - 2)
    pieces = simpleSplit(lab, BODY, SIZE, wide)
    last = " ".join(pieces[n_lines - 1 :])  # cut, with a sign of it, where it is too long
    canvas.setFont(BODY, SIZE)
    for said in (sample.bed_name, lifted, *pieces[: n_lines - 1], last):
        y -= _LEADING + 1
        canvas.drawString(x, y, fitted(said, BODY, SIZE, wide))
