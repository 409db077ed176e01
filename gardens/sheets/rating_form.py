"""A blank sheet to rate the roots of one planting with a pencil.

Not for results; they are typed into the app afterwards.
"""

from reportlab.platypus import Flowable, Paragraph, Spacer, Table, TableStyle

from gardens.domain import geometry
from gardens.domain.scales import Scale
from gardens.sheets import fonts, page, words
from gardens.sheets.answers import ALL, NO_PADDING, answer_table, boxes
from gardens.sheets.plant_map import PlantMap
from gardens.sheets.rating_rows import HEAD, ROW, RatingRows
from gardens.sheets.typed import in_a_row, one_line, paragraph, style
from gardens.sheets.values import Paper, RatingForm

_LABEL = 86
_MAP_WIDE, _GAP, _MAP_HIGH, _MAP_HIGHEST = 150, 16, 214, 280
_CHOSEN = {
    "all": "every plant",
    "every_kth": "every ____th",
    "random": "drawn at random",
    "worst_looking": "worst-looking",
}


def rating_form(form: RatingForm, paper: Paper) -> bytes:
    """Print a blank form for one planting.

    Parameters
    ----------
    form : RatingForm
        The planting, its bed and the scale to rate on.
    paper : {"a4", "letter"}
        Paper to print on.

    Returns
    -------
    bytes
        A PDF; the same bytes for the same planting.
    """
    fonts.register()
    width, height = page.room(paper)
    title = f"Root-gall rating, for whoever digs {one_line(form.bed_name)}"
    story: list[Flowable] = [
        paragraph(title, "title"),
        paragraph(f"{form.garden_name}: {words.crop_with_days(form.crop)}"),
        Spacer(0, 2),
        _to_fill(width),
        Spacer(0, 8),
        *_scale_and_map(form, width),
        Spacer(0, 6),
    ]
    room = height - page.height_of(story, width)
    names = [str(number) for number in range(1, len(form.plants) + 1)]
    rows = RatingRows(names or [""] * int((room - HEAD) / ROW), width)
    return page.build([*story, rows], title=title, paper=paper)


def _to_fill(width: float) -> Table:
    half = (width - _GAP) / 2
    left = answer_table([("Day", ""), ("Plants standing", "")], half, _LABEL)
    right = answer_table([("Rated by", ""), ("Remarks", "")], half, _LABEL - 30)
    chosen = answer_table([("Plants dug", boxes(_CHOSEN, None))], width, _LABEL)
    return Table(
        [[left, "", right], [chosen, "", ""]],
        colWidths=[half, _GAP, half],
        style=TableStyle([*NO_PADDING, ("SPAN", (0, 1), (-1, 1))]),
    )


def _scale_and_map(form: RatingForm, width: float) -> list[Flowable]:
    """The scale with the bed beside it where its numbers stay readable, else under it."""
    left, top, right, bottom = geometry.box(geometry.corners(form.shape))
    wide = width - _MAP_WIDE - _GAP
    scale = _scale_words(form.scale, wide)
    high = max(_MAP_HIGH, page.height_of([scale], wide))
    beside = PlantMap(form, (_MAP_WIDE, high))
    if right - left > bottom - top or not beside.numbers_fit:
        under = PlantMap(form, (width, _MAP_HIGHEST))
        return [_scale_words(form.scale, width), Spacer(0, 8), under]
    return [
        Table(
            [[scale, "", beside]],
            colWidths=[wide, _GAP, _MAP_WIDE],
            style=TableStyle([*NO_PADDING, ("VALIGN", *ALL, "TOP")]),
        )
    ]


def _scale_words(scale: Scale, width: float) -> Table:
    heading = f"<b>{in_a_row(scale.name)}</b>: {in_a_row(scale.term)}"
    rows: list[list[Paragraph | str]] = [[Paragraph(heading, style("body")), ""]]
    rows += [[paragraph(str(each.grade), "bold"), paragraph(each.words)] for each in scale.grades]
    if scale.from_memory:
        rows.append([paragraph("Criteria from memory, in our own words."), ""])
    spans = [("SPAN", (0, 0), (1, 0))]
    if scale.from_memory:
        spans.append(("SPAN", (0, -1), (1, -1)))
    return Table(
        rows,
        colWidths=[24, width - 24],
        style=TableStyle([*NO_PADDING, ("VALIGN", *ALL, "TOP"), *spans]),
    )
