"""The published levels a lab's number is set beside: a spread, row by row, never averaged.

Not for a share of harvest: no count gives one.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from gardens.domain.asked.answer import Asked, Row, row
from gardens.domain.asked.lab_bags import Bag
from gardens.domain.briefing.lines import Line
from gardens.domain.said import capital, figure
from gardens.domain.thresholds import (
    GENERAL,
    Level,
    Spread,
    caution_lines,
    levels_for,
    read_levels,
    set_beside,
    spread,
)
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


@dataclass(frozen=True)
class Levels:
    """What is published for the crop to be grown, and for vegetables at large.

    ``crop`` is its name, empty when none was named; ``published`` the spread its count is set
    beside, None when no onset of harm is published.
    """

    crop: str
    of_crop: tuple[Level, ...]
    at_large: tuple[Level, ...]
    published: Spread | None

    @property
    def ends(self) -> tuple[float, ...]:
        """Lowest and highest onset of harm to weigh, one of them when they are the same.

        [J2 per 100 cm3, > 0]; those of very susceptible vegetables when the crop has none.
        """
        found = self.published or spread(self.at_large)
        assert found is not None
        rounded = [float(f"{end:.3g}") for end in (found.low, found.high)]
        return tuple(dict.fromkeys(rounded))


def crop_of(asked: Asked, bag: Bag | None) -> tuple[str, str]:
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
    names = {str(one["key"]): str(one["name"]) for one in asked.teller.rows("crops")}
    key = asked.given.text("crop")
    if key not in names and bag is not None:
        wanted = bag.next_crop.strip().casefold()
        key = next((one for one, name in names.items() if wanted and name.casefold() == wanted), "")
    return (key, names[key]) if key in names else ("", "")


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
    key, name = crop_of(asked, bag)
    every = read_levels(asked.teller.rows("thresholds"), asked.teller.judgements)
    at_large = levels_for(GENERAL, every)
    of_crop = levels_for(key, every) if key else ()
    return Levels(name, of_crop, at_large, spread(of_crop if key else at_large))


def beside_lines(levels: Levels, asked: Asked, bed: tuple[float, float]) -> list[Line]:
    """Where a bed lies beside the published onsets of harm.

    Parameters
    ----------
    levels : Levels
        For the crop to be grown.
    asked : Asked
        Makes the lines.
    bed : (float, float)
        What the bed may hold [J2 per 100 cm3, >= 0].

    Returns
    -------
    list of Line
        With what to bear in mind; first that no crop was named, when none was.
    """
    published = levels.published
    cautions = caution_lines(published) if published else ()
    line = asked.teller.say(set_beside(*bed, published), *cautions)
    return [line] if levels.crop else [asked.teller.line("levels_at_large"), line]


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
