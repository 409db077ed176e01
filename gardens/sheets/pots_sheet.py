"""The sheet of a pot test: how to set it up, and a line for each pot to write on.

Not for reading the result: the phone does that from what was counted.
"""

from typing import Any

from reportlab.platypus import Flowable, Spacer, Table, TableStyle

from gardens.domain import codes
from gardens.sheets import fonts, page, words
from gardens.sheets.answers import ALL, GRID, NO_PADDING, RoomToWrite
from gardens.sheets.qr import QrCode
from gardens.sheets.typed import one_line, paragraph
from gardens.sheets.values import Paper, PotsSheet

_POTTING_MIX = "bought potting mix"


def pots_sheet(values: PotsSheet, paper: Paper) -> bytes:
    """Print the sheet of one pot test.

    Parameters
    ----------
    values : PotsSheet
        The test.
    paper : {"a4", "letter"}
        Paper to print on.

    Returns
    -------
    bytes
        A PDF; the same bytes for the same test.
    """
    fonts.register()
    width, _ = page.room(paper)
    title = f"Pot test of the soil of {one_line(values.bed_name)}"
    story: list[Flowable] = [
        _heading(values, title, width),
        Spacer(0, 6),
        *(paragraph(f"{n}. {said}") for n, said in enumerate(_steps(values), start=1)),
        Spacer(0, 8),
        _pots(values, width),
        Spacer(0, 8),
        paragraph(
            "No gall in any pot is no proof that there are none: cool pots, a resistant variety "
            "or galls the size of a pinhead hide them. It names no species. Galls in the pot "
            "without the bed's soil: the test cannot be read."
        ),
        RoomToWrite("Remarks", 3),
    ]
    return page.build(story, title=title, paper=paper)


def _heading(values: PotsSheet, title: str, width: float) -> Table:
    qr = QrCode(values.link)
    bag = f", bag {codes.as_printed(values.bag_code)}" if values.bag_code else ""
    said = [
        paragraph(title, "title"),
        paragraph(f"{one_line(values.garden_name)}{bag}"),
        paragraph(f"{one_line(values.crop)}, sown {words.day(values.sown_on)}", "bold"),
        paragraph(
            f"Wash and count from {words.day(values.ready_from_on)}, "
            f"by {words.day(values.ready_to_on)} at the latest",
            "bold",
        ),
    ]
    return Table(
        [[said, qr]],
        colWidths=[width - qr.width, qr.width],
        style=TableStyle([*NO_PADDING, ("VALIGN", *ALL, "MIDDLE")]),
    )


def _steps(values: PotsSheet) -> list[str]:
    each = f"{values.soil_cm3_per_pot:,} cm³"
    blank = f"; pot {values.blank_pot} with {_POTTING_MIX}" if values.blank_pot else ""
    return [
        f"Mix the soil gently, add no water, and fill {each} into each pot{blank}.",
        "Sow two seeds a pot of a tomato or cucumber without root-knot resistance.",
        "Number the pots. Stand the one without the bed's soil apart: no splash may reach it.",
        "Keep all at 22 to 28 °C, moist and never soaked; a thermometer in one pot. Feed weekly.",
        "On the day, soak the pots in a bucket and wash the roots free; do not pull.",
        "Count the galls of all seedlings of a pot over a white plate, the blank pot first.",
        "Enter them at this address, or write them below.",
    ]


def _pots(values: PotsSheet, width: float) -> Table:
    heads = ("Pot", "Soil", "Seedlings", "Galls counted", "Grade 0–10", "Remarks")
    rows: list[list[Any]] = [[paragraph(head, "bold") for head in heads]]
    for pot in range(1, values.n_pots + 1):
        soil = _POTTING_MIX if pot == values.blank_pot else "the bed's"
        rows.append([paragraph(str(pot), "bold"), paragraph(soil), "", "", "", ""])
    fixed = (36, 112, 68, 92, 78)
    return Table(
        rows,
        colWidths=[*fixed, width - sum(fixed)],
        rowHeights=[20, *[26 for _ in range(values.n_pots)]],
        repeatRows=1,
        style=TableStyle(GRID),
    )
