"""The slip that lies on top in a parcel: open on arrival, what is in it, whose hands it passed.

Not for what the lab is asked about each bag: the submission sheet says that.
"""

from typing import Any

from reportlab.platypus import Flowable, Paragraph, Spacer, Table, TableStyle

from gardens.domain import codes
from gardens.sheets import fonts, page, words
from gardens.sheets.answers import ALL, GRID, NO_PADDING
from gardens.sheets.parcel_page import open_on_arrival
from gardens.sheets.qr import QrCode
from gardens.sheets.typed import marked_up, one_line, paragraph, style
from gardens.sheets.values import Lab, Paper, Sample, Submission

_BESIDE_QR = 3
_STEPS = ("Lifted", "Packed", "Handed over", "Received", "Extracted")
_PACKING = (
    "Bags closed, labels outside, in a box with paper around them so that they do not knock.",
    "Ice packs only with paper between them and the bags. No water added, nothing sieved.",
    "Send it overnight to the lab's own door, early in the week; tell the lab that it comes.",
)


def packing_slip(parcel: Submission, paper: Paper) -> bytes:
    """Print the slip of one parcel.

    Parameters
    ----------
    parcel : Submission
        One or more samples.
    paper : {"a4", "letter"}
        Paper to print on.

    Returns
    -------
    bytes
        A PDF; the same bytes for the same parcel.
    """
    fonts.register()
    width, _ = page.room(paper)
    n = len(parcel.samples)
    title = f"Packing slip: {n} bag{'' if n == 1 else 's'} of living soil"
    story: list[Flowable] = [
        paragraph(title, "title"),
        Spacer(0, 6),
        open_on_arrival(width),
        Spacer(0, 10),
        _sides(parcel, width),
        Spacer(0, 10),
        _bags(parcel, width),
        Spacer(0, 10),
        paragraph("Whose hands it passed", "head"),
        Spacer(0, 2),
        _custody(parcel, width),
        Spacer(0, 8),
        *(paragraph(f"☐ {said}") for said in _PACKING),
        paragraph("How to pack is common practice, gathered from the pages of labs."),
    ]
    return page.build(story, title=title, paper=paper)


def _sides(parcel: Submission, width: float) -> Table:
    lab, grower = parcel.lab or Lab(), parcel.grower
    sides = (
        ("To", (lab.name, lab.address, lab.phone)),
        ("From", (grower.name, grower.address, grower.phone)),
    )
    cells = [
        Paragraph(
            f"<b>{which}</b><br/>" + "<br/>".join(marked_up(one) for one in said if one.strip()),
            style("body"),
        )
        for which, said in sides
    ]
    return Table(
        [cells], colWidths=[width / 2] * 2, style=TableStyle([*NO_PADDING, ("VALIGN", *ALL, "TOP")])
    )


def _bags(parcel: Submission, width: float) -> Table:
    """Each bag with its QR code, some beside each other."""
    cells: list[Any] = [_bag(sample, parcel, width / _BESIDE_QR) for sample in parcel.samples]
    cells += [""] * (-len(cells) % _BESIDE_QR)
    rows = [cells[at : at + _BESIDE_QR] for at in range(0, len(cells), _BESIDE_QR)]
    return Table(rows, colWidths=[width / _BESIDE_QR] * _BESIDE_QR, style=TableStyle(GRID))


def _bag(sample: Sample, parcel: Submission, width: float) -> Table:
    qr = QrCode(sample.link)
    said = [
        paragraph(codes.as_printed(sample.code), "head"),
        paragraph(one_line(sample.bed_name)[:40]),
    ]
    return Table(
        [[qr, said]],
        colWidths=[qr.width, width - qr.width - 12],
        style=TableStyle([*NO_PADDING, ("VALIGN", *ALL, "MIDDLE")]),
    )


def _custody(parcel: Submission, width: float) -> Table:
    heads = ("", "Day and hour", "By or to whom", "Signature")
    rows: list[list[Any]] = [[paragraph(head, "bold") for head in heads]]
    rows += [[paragraph(step), *_known(step, parcel), ""] for step in _STEPS]
    rest = width - 92
    return Table(
        rows,
        colWidths=[92, rest * 0.34, rest * 0.36, rest * 0.3],
        rowHeights=[20, *[28 for _ in _STEPS]],
        style=TableStyle(GRID),
        splitByRow=0,
    )


def _known(step: str, parcel: Submission) -> list[Any]:
    """When a step was and who did it, where all bags agree; a blank to write on otherwise."""
    when = {_when(step, sample) for sample in parcel.samples}
    who = {sample.handed_over_to if step == "Handed over" else "" for sample in parcel.samples}
    return [paragraph(one.pop() if len(one) == 1 else "") for one in (when, who)]


def _when(step: str, sample: Sample) -> str:
    if step == "Received":
        return words.day(sample.arrived_on)
    if step == "Extracted":
        return words.day(sample.extracted_on)
    moments = {
        "Lifted": sample.lifted_at,
        "Packed": sample.packed_at,
        "Handed over": sample.handed_over_at,
    }
    return words.hour(moments[step])
