"""One page per bag: its code and QR, its bed drawn, and what a lab asks about it.

Not for who sends the parcel to whom; that stands on the first page.
"""

from collections.abc import Mapping, Sequence

from reportlab.platypus import Flowable, Spacer, Table, TableStyle

from gardens.domain import codes, geometry
from gardens.domain.crop_history import CropGrown
from gardens.domain.geometry import Point
from gardens.sheets import words
from gardens.sheets.answers import ALL, NO_PADDING, TWO_LINES, answer_table, boxes, long_answer
from gardens.sheets.qr import QrCode
from gardens.sheets.sketch import SampleSketch
from gardens.sheets.typed import in_a_row, one_line, paragraph
from gardens.sheets.values import Sample, Submission, Units

_SKETCH_WIDE, _GAP, _LABEL = 186, 12, 80
_CODE = 74
_MOST_CROPS = 6
# The bed as drawn upright, on this page and on the phone's map of the sample.
_HALVES = {
    ("all", "first"): "top half",
    ("all", "second"): "bottom half",
    ("first", "all"): "left half",
    ("second", "all"): "right half",
}
_KEPT = {each: each for each in ("cool and shaded", "in a refrigerator", "warm", "other")}


def area_of(sample: Sample, units: Units) -> str:
    """Area a sample stands for, in words: the whole bed or a part of it.

    Parameters
    ----------
    sample : Sample
        The sample.
    units : {"metric", "us"}
        Of the area.

    Returns
    -------
    str
        E.g. ``whole bed, 3.6 m²`` or ``top half, 1.8 m²``.
    """
    outline = geometry.corners(sample.shape)
    if sample.part is None:
        return f"whole bed, {words.area(geometry.area_cm2(outline), units)}"
    left, top = sample.part["x_cm"], sample.part["y_cm"]
    right, bottom = left + sample.part["width_cm"], top + sample.part["length_cm"]
    part = geometry.area_within_cm2(outline, (left, top, right, bottom))
    return f"{_part_name(outline, sample.part)}, {words.area(part, units)}"


def _part_name(outline: Sequence[Point], part: Mapping[str, int]) -> str:
    _, _, wide, long = geometry.box(outline)
    across = _share(part["x_cm"], part["width_cm"], wide)
    down = _share(part["y_cm"], part["length_cm"], long)
    return _HALVES.get((across, down), "part of it")


def _share(start: float, size: float, side: float) -> str:
    """All of a side, its first or second half (to the centimetre), or something other."""
    if start == 0 and size == side:
        return "all"
    if start == 0 and abs(size - side / 2) < 1:
        return "first"
    return "second" if start + size == side and abs(start - side / 2) < 1 else "other"


def sample_page(submission: Submission, index: int, width: float) -> list[Flowable]:
    """The pieces of one sample's page, in the order a person fills them.

    Parameters
    ----------
    submission : Submission
        The parcel.
    index : int
        Which of its samples [1, 0 to their number less one].
    width : float
        Between the margins [pt].

    Returns
    -------
    list of Flowable
        Pieces of the page, top to bottom.
    """
    sample, units = submission.samples[index], submission.units
    facts = width - _SKETCH_WIDE - _GAP
    sketch = SampleSketch(sample.shape, sample.part, sample.core_places, (_SKETCH_WIDE, 272), units)
    middle = Table(
        [[sketch, "", answer_table(bag_rows(sample, units), facts, _LABEL)]],
        colWidths=[_SKETCH_WIDE, _GAP, facts],
        style=TableStyle([*NO_PADDING, ("VALIGN", *ALL, "TOP")]),
    )
    return [
        _heading(submission, index, width),
        Spacer(0, 4),
        middle,
        Spacer(0, 6),
        answer_table(ground_rows(sample), width, _LABEL),
        Spacer(0, 5),
        *long_answer(
            "Treatments of this bed: product, rate, day", sample.treatments, width, lines=2
        ),
        *long_answer("Remarks", sample.note, width, lines=2),
    ]


def _heading(submission: Submission, index: int, width: float) -> Table:
    sample, qr = submission.samples[index], QrCode(submission.samples[index].link)
    code = codes.as_printed(sample.code)
    lab = one_line(submission.lab.name) if submission.lab else ""
    said = [
        paragraph(f"Soil sample for {lab or 'a nematode lab'}", "head"),
        paragraph(f"Bag {code}", "title"),
        paragraph(f"Bed: {one_line(sample.bed_name)}", "bold"),
        paragraph(f"Sample {index + 1} of {len(submission.samples)} in this parcel"),
    ]
    beside = [paragraph(code, "head"), paragraph("scan to open")]
    words_wide = width - qr.width - _CODE - 8
    return Table(
        [[said, "", beside, qr]],
        colWidths=[words_wide, 8, _CODE, qr.width],
        style=TableStyle([*NO_PADDING, ("VALIGN", *ALL, "MIDDLE")]),
    )


def bag_rows(sample: Sample, units: Units) -> list[tuple[str, str]]:
    """The lines about the bag and its soil.

    Parameters
    ----------
    sample : Sample
        The sample.
    units : {"metric", "us"}
        Of lengths and warmth.

    Returns
    -------
    list of (str, str)
        Label and markup; empty markup is a line to write on.
    """
    cores = "" if sample.n_cores is None else str(sample.n_cores)
    return [
        ("Lifted", in_a_row(_hour_and_clock(sample))),
        ("Stands for", in_a_row(area_of(sample, units))),
        ("Cores mixed", cores),
        ("Depth", in_a_row(words.depth(sample.depth, units))),
        ("Moisture", boxes(words.MOISTURES, sample.moisture)),
        ("Soil temp.", words.temperature(sample.soil_temperature_celsius, units)),
        ("Soil", in_a_row(sample.soil)),
        ("Irrigated", boxes(words.YES_NO, sample.irrigated)),
        ("Roots in bag", boxes(words.YES_NO, sample.has_roots)),
        ("Spot", boxes(words.SPOTS, sample.good_or_poor)),
        ("Kept so far", boxes(_KEPT, None)),
    ]


def _hour_and_clock(sample: Sample) -> str:
    clock = words.clock(sample.lifted_at)
    return f"{words.hour(sample.lifted_at)} ({clock})" if clock else ""


def ground_rows(sample: Sample) -> list[tuple[str, str]]:
    """The lines about the bed: purpose, crops and symptoms.

    Parameters
    ----------
    sample : Sample
        The sample.

    Returns
    -------
    list of (str, str)
        Label and markup; empty markup is a line to write on.
    """
    next_crop = ", ".join(
        part for part in (one_line(sample.next_crop), words.day(sample.next_crop_on)) if part
    )
    return [
        ("Purpose", boxes(words.PURPOSES, sample.purpose)),
        ("Tests wanted", boxes(words.TESTS, sample.tests_wanted)),
        *_extract(sample),
        ("Crop now", _crops(sample.crops.current)),
        ("Crops before", _crops(sample.crops.previous) or TWO_LINES),
        ("Next crop, day", in_a_row(next_crop)),
        ("Symptoms", in_a_row(sample.symptom) or TWO_LINES),
        ("Pattern", boxes(words.PATTERNS, sample.symptom_pattern)),
        ("Seen since", ""),
    ]


def _extract(sample: Sample) -> list[tuple[str, str]]:
    """How much soil is asked for; no line when the grower asks for no amount."""
    asked = sample.extract_cm3_asked
    return [] if asked is None else [("Please extract", f"at least {asked:,} cm³ of this soil")]


def _crops(crops: tuple[CropGrown, ...]) -> str:
    shown = [in_a_row(words.crop_with_days(crop)) for crop in crops[:_MOST_CROPS]]
    if len(crops) > _MOST_CROPS:
        shown.append(f"and {len(crops) - _MOST_CROPS} earlier")
    return "<br/>".join(shown)
