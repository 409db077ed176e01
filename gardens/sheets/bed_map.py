"""One page to hang on the shed door: a bed, its plants and how galled their roots are.

Not for advice; it shows what one root check found and how sure its mean is.
"""

from reportlab.platypus import Flowable, Spacer, Table, TableStyle

from gardens.domain import geometry
from gardens.domain.geometry import Point
from gardens.sheets import fonts, page, words
from gardens.sheets.answers import ALL, NO_PADDING, answer_table
from gardens.sheets.legend import Legend
from gardens.sheets.map_facts import cut, map_facts
from gardens.sheets.plant_map import PlantMap
from gardens.sheets.qr import QrCode
from gardens.sheets.typed import one_line, paragraph
from gardens.sheets.values import BedMap, Paper

_LABEL, _GAP = 84, 18
# Width through length: above _WIDE a bed lies across the page, below _SLIM down its side.
_WIDE, _SLIM = 1.25, 0.42
_SCAN = "scan to open"
_LONGEST_GARDEN = 60
_TEXT_LENGTHS = (400, 200, 120, 60, 30)


def bed_map(sheet: BedMap, paper: Paper) -> bytes:
    """Print the map of one root check.

    Parameters
    ----------
    sheet : BedMap
        The check, its bed and its plants.
    paper : {"a4", "letter"}
        Paper to print on; a bed wider than long lies on the long side of the page.

    Returns
    -------
    bytes
        A PDF of one page; the same bytes for the same check.

    Raises
    ------
    DomainError
        ``scales_differ`` when the plants were rated on more than one scale.
    """
    fonts.register()
    left, top, right, bottom = geometry.box(geometry.corners(sheet.shape))
    slimness = (right - left) / (bottom - top)
    wide = slimness > _WIDE
    width, height = page.room(paper, wide=wide)
    garden = cut(sheet.garden_name, _LONGEST_GARDEN)
    title = f"Root-gall map for {garden}: {one_line(sheet.bed_name)}"
    head: list[Flowable] = [
        paragraph(title, "title"),
        paragraph(f"Roots dug {words.day(sheet.checked_on)}"),
        Spacer(0, 6),
    ]
    room = (width, height - page.height_of(head, width) - 2)
    body = _beside(sheet, room) if slimness < _SLIM else _below(sheet, room)
    return page.build([*head, *body], title=title, paper=paper, wide=wide)


def _below(sheet: BedMap, room: Point) -> list[Flowable]:
    """The bed across the page, its legend and facts under it."""
    width, height = room
    under: list[Flowable] = [
        Spacer(0, 6),
        Legend(sheet.scale, width, columns=4),
        Spacer(0, 2),
        _facts_by_code(sheet, width, 0.4 * height),
    ]
    return [PlantMap(sheet, (width, height - page.height_of(under, width))), *under]


def _beside(sheet: BedMap, room: Point) -> list[Flowable]:
    """A slim bed down the page, its legend and facts beside it."""
    width, height = room
    bed = min(0.5 * width, max(_SLIM * height, 150))
    rest = width - bed - _GAP
    facts: list[Flowable] = [
        Legend(sheet.scale, rest, columns=2),
        Spacer(0, 10),
        _fitting_facts(sheet, rest, 0.6 * height),
    ]
    code: list[Flowable] = [Spacer(0, 12), QrCode(sheet.link), paragraph(_SCAN)]
    if sheet.link and page.height_of([*facts, *code], rest) < height:
        facts += code
    return [
        Table(
            [[PlantMap(sheet, (bed, height)), "", facts]],
            colWidths=[bed, _GAP, rest],
            style=TableStyle([*NO_PADDING, ("VALIGN", *ALL, "TOP")]),
        )
    ]


def _facts_by_code(sheet: BedMap, width: float, room: float) -> Table:
    """Facts with the QR at their right, where it takes no height from the map."""
    if not sheet.link:
        return _fitting_facts(sheet, width, room)
    code = QrCode(sheet.link)
    beside = Table([[code], [paragraph(_SCAN)]], style=TableStyle(NO_PADDING))
    left = width - code.width - _GAP
    return Table(
        [[_fitting_facts(sheet, left, room), "", beside]],
        colWidths=[left, _GAP, code.width],
        style=TableStyle([*NO_PADDING, ("VALIGN", *ALL, "TOP")]),
    )


def _fitting_facts(sheet: BedMap, width: float, room: float) -> Table:
    """Facts with typed texts as long as the height allows [pt]."""
    for most in _TEXT_LENGTHS:
        facts = answer_table(map_facts(sheet, most), width, _LABEL, row=18)
        if page.height_of([facts], width) <= room:
            break
    return facts
