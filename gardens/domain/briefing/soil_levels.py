"""The published levels a bed's soil is set beside: those of the crop to come, or at large.

Not for a share of harvest: no count gives one.
"""

from dataclasses import dataclass

from gardens.domain.briefing.lines import Line, Teller
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

Crop = tuple[str, str]
NO_CROP: Crop = ("", "")


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


def crop_named(words: str, teller: Teller) -> Crop:
    """A crop of the list by its key or its name.

    Parameters
    ----------
    words : str
        As typed or chosen.
    teller : Teller
        Has the list.

    Returns
    -------
    (str, str)
        Key and name in ``fixtures/crops.json``; both empty when it is not in there.
    """
    wanted = words.strip().casefold()
    names = {str(one["key"]): str(one["name"]) for one in teller.rows("crops")}
    found = (one for one, name in names.items() if wanted and wanted in (one, name.casefold()))
    key = next(found, "")
    return (key, names[key]) if key else NO_CROP


def levels_of_crop(crop: Crop, teller: Teller) -> Levels:
    """The levels for a crop to be grown.

    Parameters
    ----------
    crop : (str, str)
        Key and name.
    teller : Teller
        Has the table.

    Returns
    -------
    Levels
        With the levels of vegetables at large when no crop is named.
    """
    key, name = crop
    every = teller.once("levels", lambda: read_levels(teller.rows("thresholds"), teller.judgements))
    at_large = levels_for(GENERAL, every)
    of_crop = levels_for(key, every) if key else ()
    return Levels(name, of_crop, at_large, spread(of_crop if key else at_large))


def beside_lines(levels: Levels, bed: tuple[float, float], teller: Teller) -> list[Line]:
    """Where a bed lies beside the published onsets of harm.

    Parameters
    ----------
    levels : Levels
        For the crop to be grown.
    bed : (float, float)
        What the bed may hold [J2 per 100 cm3, >= 0].
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        With what to bear in mind; first that no crop was named, when none was.
    """
    published = levels.published
    cautions = caution_lines(published) if published else ()
    line = teller.say(set_beside(*bed, published), *cautions)
    return [line] if levels.crop else [teller.line("levels_at_large"), line]
