"""First page of a submission: who sends what to whom, and whose hands it went through.

Not for what is known of each sample; that stands on the sample's own page.
"""

from typing import Any

from reportlab.lib.colors import black
from reportlab.platypus import CondPageBreak, Flowable, Paragraph, Spacer, Table, TableStyle

from gardens.domain import codes
from gardens.sheets import words
from gardens.sheets.answers import ALL, GRID, NO_PADDING, RoomToWrite, answer_table, boxes
from gardens.sheets.sample_page import area_of
from gardens.sheets.typed import address_in, in_a_row, one_line, paragraph, style
from gardens.sheets.values import Lab, Sample, Submission

_GAP = 18
_FROM, _TO = 58, 96
_HANDS = ("Lifted", "Packed", "Handed over", "Received", "Extracted")
_ARRIVAL = {each: each for each in ("moist", "dry", "wet", "warm", "bag open")}


def parcel_title(submission: Submission) -> str:
    """First line of the sheet: what it is and for whom.

    Parameters
    ----------
    submission : Submission
        The parcel.

    Returns
    -------
    str
        One line.
    """
    n = len(submission.samples)
    what = "Soil sample" if n == 1 else f"{n} soil samples"
    lab = one_line(submission.lab.name) if submission.lab else ""
    return f"{what} for {lab}" if lab else f"{what} for a nematode lab"


def parcel_page(submission: Submission, width: float) -> list[Flowable]:
    """The pieces of the first page, in the order a person fills them.

    Parameters
    ----------
    submission : Submission
        The parcel.
    width : float
        Between the margins [pt, > 0].

    Returns
    -------
    list of Flowable
        Pieces of the page, top to bottom.
    """
    left = 0.47 * (width - _GAP)
    right = width - _GAP - left
    sides = Table(
        [
            [paragraph("From the grower", "head"), "", paragraph("To the lab", "head")],
            [_from(submission, left), "", _to(submission.lab or Lab(), right)],
        ],
        colWidths=[left, _GAP, right],
        style=TableStyle([*NO_PADDING, ("VALIGN", *ALL, "TOP")]),
    )
    story: list[Flowable] = [
        paragraph(parcel_title(submission), "title"),
        paragraph("Please test for plant-feeding nematodes, root-knot (Meloidogyne) above all."),
        Spacer(0, 8),
        sides,
        Spacer(0, 10),
        open_on_arrival(width),
        Spacer(0, 10),
        CondPageBreak(120),
        paragraph("In this parcel", "head"),
        Spacer(0, 2),
        _list_of(submission, width),
        *_whose_clock(submission),
        Spacer(0, 12),
        _hands(width),
        Spacer(0, 8),
        *_wishes(submission.lab),
        RoomToWrite("Lab's remarks", 4),
    ]
    return story


def _wishes(lab: Lab | None) -> list[Flowable]:
    """What the lab wants of a parcel, as the grower noted it: read it before packing."""
    if lab is None or not lab.parcel_wishes.strip():
        return []
    said = f"<b>Before packing, as noted for this lab:</b> {in_a_row(lab.parcel_wishes)}"
    return [Paragraph(said, style("body")), Spacer(0, 8)]


def grower_rows(submission: Submission, room: float) -> list[tuple[str, str]]:
    """The lines about the grower.

    Parameters
    ----------
    submission : Submission
        The parcel.
    room : float
        For an answer [pt, > 0].

    Returns
    -------
    list of (str, str)
        Label and markup; empty markup is a line to write on.
    """
    grower = submission.grower
    garden = ", ".join(part for part in (grower.garden_name, grower.garden_place) if part)
    return [
        ("Name", in_a_row(grower.name)),
        ("Address", in_a_row(grower.address, ", ")),
        ("Phone", in_a_row(grower.phone)),
        ("E-mail", address_in(grower.email, room)),
        ("Garden", in_a_row(garden)),
        ("Bags", str(len(submission.samples))),
        ("Sent on", words.day(submission.sent_on)),
    ]


def lab_rows(lab: Lab, room: float) -> list[tuple[str, str]]:
    """The lines about the lab.

    Parameters
    ----------
    lab : Lab
        Who gets the parcel.
    room : float
        For an answer [pt, > 0].

    Returns
    -------
    list of (str, str)
        Label and markup; empty markup is a line to write on.
    """
    return [
        ("Lab", in_a_row(lab.name)),
        ("Address", in_a_row(lab.address, ", ")),
        ("Phone", in_a_row(lab.phone)),
        ("E-mail", address_in(lab.email, room)),
        ("Account number", in_a_row(lab.account_number)),
        ("Report as", in_a_row(lab.reporting_unit)),
        ("Working days", words.working_days(lab.working_days)),
    ]


def _from(submission: Submission, width: float) -> Table:
    return answer_table(grower_rows(submission, width - _FROM - 6), width, _FROM)


def _to(lab: Lab, width: float) -> Table:
    return answer_table(lab_rows(lab, width - _TO - 6), width, _TO)


def open_on_arrival(width: float) -> Table:
    """The line nobody who unpacks may overlook.

    Parameters
    ----------
    width : float
        It takes [pt, > 0].

    Returns
    -------
    Table
        One framed line.
    """
    said = (
        "<b>Living samples: open on arrival.</b> Keep out of sun and heat, do not freeze, "
        "do not let dry out."
    )
    return Table(
        [[Paragraph(said, style("centred"))]],
        colWidths=[width],
        style=TableStyle([*GRID, ("BOX", *ALL, 1.6, black)]),
    )


def _list_of(submission: Submission, width: float) -> Table:
    heads = ("Bag", "Bed, area it stands for", "Lifted", "Cores", "Depth", "Roots", "Lab no.")
    rows = [[paragraph(head, "bold") for head in heads]]
    rows += [_row(sample, submission) for sample in submission.samples]
    fixed = (62, 92, 44, 62, 44, 66)
    return Table(
        rows,
        colWidths=[fixed[0], width - sum(fixed), *fixed[1:]],
        repeatRows=1,
        style=TableStyle(GRID),
    )


def _whose_clock(submission: Submission) -> list[Flowable]:
    """Which clock the hours of the list are read from; nothing when it has no hours."""
    clocks = sorted({words.clock(sample.lifted_at) for sample in submission.samples} - {""})
    return [paragraph(f"Hours by the clock of {', '.join(clocks)}.")] if clocks else []


def _row(sample: Sample, submission: Submission) -> list[Paragraph]:
    bed = f"{one_line(sample.bed_name)}, {area_of(sample, submission.units)}"
    cores = "" if sample.n_cores is None else str(sample.n_cores)
    said = (
        bed,
        words.hour(sample.lifted_at),
        cores,
        words.depth(sample.depth, submission.units),
        "" if sample.has_roots is None else words.YES_NO[sample.has_roots],
        "",
    )
    code = paragraph(codes.as_printed(sample.code), "bold")
    return [code, *(paragraph(each) for each in said)]


def _hands(width: float) -> Flowable:
    heads = ("", "Name", "Signature", "Day and hour")
    rows: list[list[Any]] = [[paragraph(head, "bold") for head in heads]]
    rows += [[paragraph(hand), "", "", ""] for hand in _HANDS]
    arrival = f"At the lab, state on arrival: {boxes(_ARRIVAL, None)}"
    rows.append([Paragraph(arrival, style("body")), "", "", ""])
    return Table(
        rows,
        colWidths=[92, (width - 92) * 0.36, (width - 92) * 0.36, (width - 92) * 0.28],
        rowHeights=[20, *[30 for _ in _HANDS], 26],
        style=TableStyle([*GRID, ("SPAN", (0, -1), (-1, -1))]),
        # One block: a signature belongs on the same page as its heading.
        splitByRow=0,
    )
