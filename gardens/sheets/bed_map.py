"""One page to hang on the shed door: a bed, its plants and how galled their roots are.

Not for advice; it shows what one root check found and how sure its mean is.
"""

from reportlab.platypus import Flowable, Spacer, Table, TableStyle

from gardens.domain import galling, geometry
from gardens.domain.geometry import Point
from gardens.domain.scales import Scale
from gardens.sheets import fonts, page, words
from gardens.sheets.answers import ALL, NO_PADDING, answer_table
from gardens.sheets.legend import Legend
from gardens.sheets.plant_map import PlantMap
from gardens.sheets.qr import QrCode
from gardens.sheets.typed import in_a_row, one_line, paragraph
from gardens.sheets.values import BedMap, Paper

_LABEL, _GAP = 84, 18
# Width through length: above _WIDE a bed lies across the page, below _SLIM down its side.
_WIDE, _SLIM = 1.25, 0.42
_SCAN = "scan to open"
_LONGEST, _LONGEST_GARDEN = 150, 60

NO_INTERVAL = {
    "none_rated": "no plant rated yet",
    "too_few": "two plants or fewer: no interval",
    "picked": "of the plants you picked, the worst-looking: no interval for the bed",
    "whole_bed": "of every plant in the bed, so there is no interval",
    "unfinished": "not all plants dug yet: no interval for the bed",
}


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
    garden = _cut(sheet.garden_name, _LONGEST_GARDEN)
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
        _facts_by_code(sheet, width),
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
        answer_table(_facts(sheet), rest, _LABEL, row=18),
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


def _facts_by_code(sheet: BedMap, width: float) -> Table:
    """Facts with the QR at their right, where it takes no height from the map."""
    if not sheet.link:
        return answer_table(_facts(sheet), width, _LABEL, row=18)
    code = QrCode(sheet.link)
    beside = Table([[code], [paragraph(_SCAN)]], style=TableStyle(NO_PADDING))
    left = width - code.width - _GAP
    return Table(
        [[answer_table(_facts(sheet), left, _LABEL, row=18), "", beside]],
        colWidths=[left, _GAP, code.width],
        style=TableStyle([*NO_PADDING, ("VALIGN", *ALL, "TOP")]),
    )


def _facts(sheet: BedMap) -> list[tuple[str, str]]:
    rows = [
        ("Crop", in_a_row(_cut(words.crop_with_days(sheet.crop), _LONGEST))),
        ("Mean grade", in_a_row(mean_in_words(sheet))),
        ("Plants", in_a_row(_plants_in_words(sheet))),
        ("Scale", in_a_row(_scale_in_words(sheet.scale))),
        ("Rated by", in_a_row(sheet.rater)),
    ]
    if sheet.note.strip():
        rows.append(("Note", in_a_row(_cut(sheet.note, _LONGEST))))
    return rows


def _cut(text: str, most: int) -> str:
    """Text on one line and short enough for a page that stays one page."""
    shown = one_line(text)
    return shown if len(shown) <= most else shown[:most].rstrip() + "…"


def mean_in_words(sheet: BedMap) -> str:
    """Mean with its interval, or with the reason why it has none.

    Parameters
    ----------
    sheet : BedMap
        The check; all its ratings on one scale.

    Returns
    -------
    str
        E.g. ``2.0 of 10; the bed's mean is likely 0.8 to 4.2 …``.
    """
    readings = [mark.reading for mark in sheet.marks]
    summary = galling.summarize(readings)
    sure = galling.sureness(readings, str(sheet.chosen["how"]), sheet.n_plants_stood)
    if summary.mean is None:
        return NO_INTERVAL[sure.why]
    said = f"{summary.mean:.1f} of 10"
    if sure.low is None or sure.high is None:
        return f"{said}, {NO_INTERVAL[sure.why]}"
    low, high = galling.rounded_outward(sure.low, sure.high)
    return (
        f"{said}; the bed's mean is likely {low:.1f} to {high:.1f} (95 % interval, our own method)"
    )


def _plants_in_words(sheet: BedMap) -> str:
    summary = galling.summarize([mark.reading for mark in sheet.marks])
    stood = "" if sheet.n_plants_stood is None else f" of {sheet.n_plants_stood} that stood"
    said = [f"{summary.n_rated} rated{stood}", f"{summary.n_galled} galled"]
    if summary.n_missing:
        said.append(f"{summary.n_missing} missing")
    if summary.n_dead:
        said.append(f"{summary.n_dead} dead")
    return ", ".join(said) + "; chosen: " + words.chosen(sheet.chosen)


def _scale_in_words(scale: Scale) -> str:
    unsure = "; its criteria are from memory" if scale.from_memory else ""
    return f"{scale.name}: {scale.term}{unsure}"
