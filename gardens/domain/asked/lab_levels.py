"""The published levels a lab's number is set beside: a spread, row by row, never averaged.

Not for a share of harvest: no count gives one.
"""

from collections.abc import Mapping

from gardens.domain.asked.answer import Asked, Row, row
from gardens.domain.briefing.bags import Bag
from gardens.domain.briefing.soil_levels import (
    NO_CROP,
    Crop,
    Levels,
    crop_named,
    levels_of_crop,
)
from gardens.domain.said import capital, figure
from gardens.domain.thresholds import Level
from gardens.domain.units import Unit

KINDS: Mapping[str, str] = {
    "tolerance_limit": "harm begins above this, by a fitted curve (tolerance limit)",
    "first_loss": "the lowest at which harm was seen",
    "loss_seen": "harm was seen at this; where it begins was not",
    "no_loss_up_to": "no harm up to this",
    "any_found": "any find counts as a risk",
}
_AMOUNTS = {
    ("volume", 1.0): "per cm³",
    ("volume", 1000.0): "per litre",
    ("weight", 1.0): "per g of soil",
    ("weight", 1000.0): "per kg of soil",
}
_ONE_NOT_LISTED = {"Mc": "M. chitwoodi", "any": "any root-knot species"}


def crop_of(asked: Asked, bag: Bag | None) -> Crop:
    """The crop to be grown.

    Parameters
    ----------
    asked : Asked
        With ``crop``, or nothing.
    bag : Bag or None
        What its sample names as the next crop stands in for ``crop``.

    Returns
    -------
    (str, str)
        Key and name in ``fixtures/crops.json``; both empty when none is known.
    """
    chosen = crop_named(asked.given.text("crop"), asked.teller)
    if chosen == NO_CROP and bag is not None:
        return crop_named(bag.next_crop, asked.teller)
    return chosen


def levels_of(asked: Asked, bag: Bag | None) -> Levels:
    """The levels for the crop to be grown.

    Parameters
    ----------
    asked : Asked
        With ``crop``, or nothing.
    bag : Bag or None
        See `crop_of`.

    Returns
    -------
    Levels
        With the levels of vegetables at large when no crop is named.
    """
    return levels_of_crop(crop_of(asked, bag), asked.teller)


def level_rows(
    levels: Levels, asked: Asked, bed: tuple[float, float] | None = None
) -> tuple[Row, ...]:
    """Each published level as a row.

    Parameters
    ----------
    levels : Levels
        For the crop to be grown.
    asked : Asked
        Has the names of the species.
    bed : (float, float) or None
        What the bed may hold [J2 per 100 cm3, >= 0]; None when that is not known.

    Returns
    -------
    tuple of Row
        The crop's from the lowest up, then the one for very susceptible vegetables.
    """
    latin = {str(one["key"]): str(one["latin"]) for one in asked.teller.rows("species")}
    latin |= _ONE_NOT_LISTED
    every = (*sorted(levels.of_crop, key=_lowest), *levels.at_large)
    return tuple(_row(level, levels.crop, latin, bed) for level in every)


def _lowest(level: Level) -> float:
    ends = (level.low_per_100_cm3, level.high_per_100_cm3)
    return min((end for end in ends if end is not None), default=0.0)


def _row(level: Level, crop: str, latin: Mapping[str, str], bed: tuple[float, float] | None) -> Row:
    subject = crop if level.crop else level.form
    kind = level.form if level.crop and level.form else ""
    known = [one for one in (level.setting, level.region) if one != "not stated"]
    where = ", ".join(known) or "place not stated"
    name = ", ".join(one for one in (subject, kind, latin[level.species], where) if one)
    if level.kind in ("no_loss_up_to", "loss_seen"):
        name += f": {KINDS[level.kind].split(';')[0]}"
    cells = {
        "Level": _printed(level),
        "What it says": KINDS[level.kind],
        "Beside your bed": _beside(level, bed),
        "Note": level.note,
    }
    return row(capital(name), cells, (level.source,))


def _printed(level: Level) -> str:
    """The level in our unit, and as it was published."""
    stage = "stage not stated" if level.stage == "not stated" else level.stage
    counted = f"{stage}, {level.season}"
    if level.high is None or level.high_per_100_cm3 is None:
        return counted
    here = f"{_ends(level.low_per_100_cm3, level.high_per_100_cm3)} per 100 cm³"
    by_weight = ", by an assumed weight of soil" if level.flag == "bulk_density_assumed" else ""
    printed = f"{_ends(level.low, level.high)} {_per(level.unit)}"
    return f"{here}{by_weight} (published: {printed}; {counted})"


def _per(unit: Unit) -> str:
    fixed = _AMOUNTS.get((unit.basis, unit.amount))
    return fixed or f"per {unit.amount:g} {'cm³' if unit.basis == 'volume' else 'g of soil'}"


def _ends(low: float | None, high: float) -> str:
    if low is None:
        return f"up to {figure(high)}"
    return figure(low) if low == high else f"{figure(low)} to {figure(high)}"


def _beside(level: Level, bed: tuple[float, float] | None) -> str:
    """Where the bed lies, as far as the two can be set beside each other."""
    if bed is None or level.high_per_100_cm3 is None:
        return ""
    at_least = level.high_per_100_cm3 if level.low_per_100_cm3 is None else level.low_per_100_cm3
    if bed[1] < at_least:
        return "below it"
    return "above it" if bed[0] > level.high_per_100_cm3 else "may lie on either side of it"
