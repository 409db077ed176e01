"""The next soil sample of a bed: why, when, where to push the probe, how much soil to ask for.

Not for the day to send it (see ``lab_days``), nor for a bag that was lifted.
"""

import math
from collections.abc import Sequence
from datetime import date, timedelta

from gardens.domain.briefing import remembered
from gardens.domain.briefing.bags import Bag
from gardens.domain.briefing.gathered import Bed, Entry, part
from gardens.domain.briefing.lab_days import Setting
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.briefing.soil_levels import Levels, crop_named, levels_of_crop
from gardens.domain.briefing.soil_roots import roots_of
from gardens.domain.core_plan import LEAST_GROUND_CM2, Place
from gardens.domain.geometry import Point, area_cm2, corners
from gardens.domain.judgements import judged
from gardens.domain.none_recovered import Ask, soil_to_ask

MORE_THAN_LABS_TAKE = 1000
# Guides would have samples two weeks after the last picks at the latest, roots still alive.
_ROOTS_LAST = timedelta(days=14)


def plan_told(bed: Bed, bags: Sequence[Bag], setting: Setting, teller: Teller) -> dict[str, object]:
    """The plan of a bed's next sample, as it travels.

    Parameters
    ----------
    bed : Bed
        The bed.
    bags : sequence of Bag
        Its samples, those still to be lifted last.
    setting : Setting
        With the day.
    teller : Teller
        Has the tables and makes the lines.

    Returns
    -------
    dict
        Plain values; the same places each time for the same bed.
    """
    planned = next((bag for bag in reversed(bags) if bag.lifted_on is None), None)
    n_cores = _n_cores(bed, teller)
    levels = levels_of_crop(crop_named(planned.next_crop if planned else "", teller), teller)
    ask = soil_to_ask(levels.ends[0], n_cores, teller.judgements)
    standing = rooted(bed, setting.today)
    why = planned.purpose if planned else _why(bed, standing, setting.today)
    from_cm, to_cm = (
        int(judged(teller.judgements, f"soil_core_{end}_cm")) for end in ("discard", "depth")
    )
    return {
        "why": why,
        "window": _window(standing),
        "n_cores": n_cores,
        "cores_cm": [list(place) for place in cores_of(bed, n_cores, bed.id, standing, teller)],
        "depth": {
            "from_cm": int(judged(teller.judgements, "soil_core_discard_cm")),
            "to_cm": to_cm,
        },
        "ask_cm3": up_to_ten(ask.volume_cm3),
        "ask_if_poor_cm3": up_to_ten(ask.volume_if_poor_cm3),
        "level": levels.ends[0],
        "crop": levels.crop,
        "symptom": _symptom(bed, setting.today, teller),
        "lines": [
            teller.line(f"cores_to_{why}"),
            _window_line(bed, standing, setting.today, teller),
            *_volume_lines(levels, n_cores, ask, teller),
            *deep_lines(bed, to_cm, teller),
        ],
    }


def _symptom(bed: Bed, today: date, teller: Teller) -> str:
    """What a lab is told of the plants, where galls were seen lately; a person may change it."""
    roots = roots_of(bed, today, teller)
    if roots is None or not roots.is_near or roots.n_galled == 0:
        return ""
    return f"galls on the roots of {roots.n_galled} of {roots.n_rated} plants dug ({roots.crop})"


def _n_cores(bed: Bed, teller: Teller) -> int:
    room = int(area_cm2(corners(part(bed.doc, "shape"))) / LEAST_GROUND_CM2)
    return max(1, min(room, int(judged(teller.judgements, "soil_cores_per_bed"))))


def _why(bed: Bed, standing: Entry | None, today: date) -> str:
    """A crop that stands is asked why it does poorly; a bare bed what the next one faces."""
    ends = None if standing is None else part(standing.doc, "grown")["to_on"]
    stands = standing is not None and (ends is None or str(ends) >= today.isoformat())
    return "diagnose" if stands and bed.checks else "predict"


def cores_of(
    bed: Bed, n_cores: int, seed: str, standing: Entry | None, teller: Teller
) -> tuple[Place, ...]:
    """Where to push the probe.

    Parameters
    ----------
    bed : Bed
        The bed.
    n_cores : int
        [cores, 1..200]
    seed : str
        Any text; another one shifts the places.
    standing : Entry or None
        The planting whose roots are in the ground.
    teller : Teller
        Has the judged values.

    Returns
    -------
    tuple of (int, int)
        In walking order [cm].
    """
    plants: list[Point] = []
    if standing is not None:
        stands = standing.doc["plants"]
        assert isinstance(stands, list)
        plants = [(x, y) for x, y in stands]
    zone = judged(teller.judgements, "soil_core_root_zone_cm")
    outline = tuple(corners(part(bed.doc, "shape")))
    return remembered.cores(outline, n_cores, seed, tuple(plants), zone)


def rooted(bed: Bed, today: date) -> Entry | None:
    """The planting whose roots are in a bed, or were until not long ago.

    Parameters
    ----------
    bed : Bed
        With its plantings by first day.
    today : date
        The day.

    Returns
    -------
    Entry or None
        The one planted last when there are several.
    """
    found = None
    for planting in bed.plantings:
        begun, ended = _grown(planting)
        if begun <= today and (ended is None or today - ended <= _ROOTS_LAST):
            found = planting
    return found


def _grown(planting: Entry) -> tuple[date, date | None]:
    grown = part(planting.doc, "grown")
    ended = None if grown["to_on"] is None else date.fromisoformat(str(grown["to_on"]))
    return date.fromisoformat(str(grown["from_on"])), ended


def days_bare(bed: Bed, on: date) -> int | None:
    """Days a bed had been without a crop.

    Parameters
    ----------
    bed : Bed
        With its plantings.
    on : date
        The day.

    Returns
    -------
    int or None
        [d, >= 1]; None while a crop stood, and when none ever did.
    """
    spans = [_grown(one) for one in bed.plantings]
    ends = [ended for begun, ended in spans if begun <= on]
    gone = [ended for ended in ends if ended is not None and ended < on]
    if not gone or len(gone) < len(ends):
        return None
    return (on - max(gone)).days


def _window(standing: Entry | None) -> dict[str, str | None]:
    ended = None if standing is None else _grown(standing)[1]
    if ended is None:
        return {"from_on": None, "to_on": None}
    return {"from_on": ended.isoformat(), "to_on": (ended + _ROOTS_LAST).isoformat()}


def _window_line(bed: Bed, standing: Entry | None, today: date, teller: Teller) -> Line:
    if standing is not None:
        ended, crop = _grown(standing)[1], standing.doc["crop"]
        if ended is None:
            return teller.line("plan_window_standing", crop=crop)
        last = ended + _ROOTS_LAST
        return teller.line("plan_window_open", by=last.isoformat(), crop=crop, on=ended, until=last)
    bare = days_bare(bed, today)
    if bare is None:
        return teller.line("plan_window_no_crop")
    return teller.line("plan_window_past", days=bare)


def _volume_lines(levels: Levels, n_cores: int, ask: Ask, teller: Teller) -> list[Line]:
    lines = [ask_line(levels.ends[0], n_cores, teller), level_line(levels, teller)]
    if ask.volume_cm3 > MORE_THAN_LABS_TAKE:
        lines.insert(1, teller.line("extract_more_than_labs"))
    return lines


def ask_line(level: float, n_cores: int, teller: Teller) -> Line:
    """How much soil to ask the lab to extract.

    Parameters
    ----------
    level : float
        The level that matters [J2 per 100 cm3, > 0].
    n_cores : int
        Cores mixed in the sample [cores, >= 1].
    teller : Teller
        Makes the line.

    Returns
    -------
    Line
        With the volume for a middling and for a poor extraction.
    """
    wanted = soil_to_ask(level, n_cores, teller.judgements)
    middling, poor = (
        f"{up_to_ten(volume):,}" for volume in (wanted.volume_cm3, wanted.volume_if_poor_cm3)
    )
    return teller.line(
        "extract_ask", volume=middling, poor=poor, n_cores=n_cores, level=f"{level:g}"
    )


def up_to_ten(volume: float) -> int:
    """A volume as it is asked for.

    Parameters
    ----------
    volume : float
        [cm3, > 0]

    Returns
    -------
    int
        The next ten above [cm3].

    Examples
    --------
    >>> up_to_ten(233.1)
    240
    """
    return 10 * math.ceil(round(volume / 10, 9))


def level_line(levels: Levels, teller: Teller) -> Line:
    """Why this level: the lowest of the crop's, or that of vegetables at large.

    Parameters
    ----------
    levels : Levels
        For the crop to be grown.
    teller : Teller
        Makes the line.

    Returns
    -------
    Line
        With the spread where one is published.
    """
    if not levels.crop:
        return teller.line("levels_at_large")
    if levels.published is None:
        return teller.line("extract_level_none_published", crop=levels.crop)
    low, high = levels.ends[0], levels.ends[-1]
    code = "extract_level_only" if low == high else "extract_level_uncertain"
    return teller.line(code, crop=levels.crop, low=f"{low:g}", high=f"{high:g}")


def deep_lines(bed: Bed, to_cm: float, teller: Teller) -> list[Line]:
    """What a bed's depth changes.

    Parameters
    ----------
    bed : Bed
        With its depth, where that is known.
    to_cm : float
        How deep a core goes [cm, > 0].
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        None or one.
    """
    deep = bed.doc["depth_cm"]
    if not isinstance(deep, int):
        return []
    if deep < to_cm:
        return [teller.line("cores_below_bed", depth=deep)]
    second = judged(teller.judgements, "soil_core_depth_cm")
    if deep >= 2 * second and to_cm < 2 * second:
        return [teller.line("cores_deep_bed", depth=deep, first=second, to=2 * second)]
    return []


def sampling_told(teller: Teller) -> dict[str, object]:
    """What to take along and what never to do, as it travels.

    Parameters
    ----------
    teller : Teller
        Has the table.

    Returns
    -------
    dict
        ``take`` and ``never``: sentences with the keys of their sources.
    """
    rows = teller.rows("sampling_advice")
    return {
        which: [
            {"words": one["words"], "sources": one["sources"]}
            for one in rows
            if one["part"] == which
        ]
        for which in ("take", "never")
    }
