"""What a map says in words: crop, mean and how sure it is, plants, scale, rater.

Not for where it stands on the page.
"""

from gardens.domain import galling
from gardens.domain.scales import Scale
from gardens.sheets import words
from gardens.sheets.typed import in_a_row, one_line
from gardens.sheets.values import BedMap

NO_INTERVAL = {
    "none_rated": "no plant rated yet",
    "too_few": "two plants or fewer: no interval",
    "picked": "of the plants you picked, the worst-looking: no interval for the bed",
    "whole_bed": "of every plant in the bed, so there is no interval",
    "unfinished": "not every plant dug, as far as noted: no interval for the bed",
}


def map_facts(sheet: BedMap, most: int) -> list[tuple[str, str]]:
    """What stands beside or under a map, as labels and ready markup.

    Parameters
    ----------
    sheet : BedMap
        The check; all its ratings on one scale.
    most : int
        Longest typed text [characters, > 0]; a map is one page whatever people typed.

    Returns
    -------
    list of (str, str)
        Five or six rows.
    """
    rows = [
        ("Crop", in_a_row(cut(words.crop_with_days(sheet.crop), most))),
        ("Mean grade", in_a_row(mean_in_words(sheet))),
        ("Plants", in_a_row(_plants_in_words(sheet))),
        ("Scale", in_a_row(_scale_in_words(sheet.scale))),
        ("Rated by", in_a_row(cut(sheet.rater, most))),
    ]
    if sheet.note.strip():
        rows.append(("Note", in_a_row(cut(sheet.note, most))))
    return rows


def cut(text: str, most: int) -> str:
    """Text on one line and no longer than it may be.

    Parameters
    ----------
    text : str
        Any text.
    most : int
        [characters, > 0]

    Returns
    -------
    str
        The text, or its beginning and an ellipsis.
    """
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
    sure = galling.sureness(
        readings,
        str(sheet.chosen["how"]),
        sheet.n_plants_stood,
        n_laid_out=len(sheet.plants),
    )
    if summary.mean is None:
        return NO_INTERVAL[sure.why]
    said = f"{summary.mean:.1f} of 10"
    if not sheet.scale.linear:
        said += ", a mean of ranks (this scale's steps are not equal)"
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
