"""Which species and which plant a question about hosts is about.

The species chosen; else those the bed's own roots are consistent with; else all of them.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.asked.answer import Asked
from gardens.domain.biology_lines import latin_names
from gardens.domain.briefing.gathered import Bed, Doc
from gardens.domain.briefing.hints import Hinted, hinted, species_lines
from gardens.domain.briefing.lines import Because, Line
from gardens.domain.errors import DomainError
from gardens.domain.host_table import SPECIES, Plant, plant_of_crop
from gardens.domain.said import Said, together


@dataclass(frozen=True)
class Wanted:
    """The species a question is about, and what has to be said of how they came to be.

    ``species`` are short names; ``others`` are those only shown beside them, none when one
    was chosen; ``regulated`` are all that the law names somewhere.
    """

    species: tuple[str, ...]
    others: tuple[str, ...]
    names: Mapping[str, str]
    regulated: frozenset[str]
    lines: tuple[Line, ...]

    def told(self) -> str:
        """The species asked about.

        Returns
        -------
        str
            Their Latin names, or that it is all of them.
        """
        if self.species == SPECIES:
            return "all six species"
        return together(self.names[each] for each in self.species)


def wanted(asked: Asked) -> Wanted:
    """The species a question is about.

    Parameters
    ----------
    asked : Asked
        Maybe with ``species`` and ``bed``.

    Returns
    -------
    Wanted
        With the lines that say so.
    """
    names = latin_names(asked.tables["species"])
    rows = asked.tables["species"]
    regulated = frozenset(str(row["key"]) for row in rows if row["regulated_in_places"])
    chosen, bed = asked.given.text("species"), asked.bed()
    if chosen:
        lines = [asked.teller.line("species_regulated", listed=names[chosen])]
        told = tuple(lines if chosen in regulated else [])
        return Wanted((chosen,), (), names, regulated, told)
    found = hinted(bed.checks, asked.teller) if bed else None
    if bed and found and found.hint.tells:
        species = tuple(one.species for one in found.hint.consistent_with)
        others = tuple(each for each in SPECIES if each not in species)
        return Wanted(species, others, names, regulated, _of_bed(asked, bed, found))
    line = asked.teller.line("grow_any_species")
    return Wanted(SPECIES, (), names, regulated, (line,))


def _of_bed(asked: Asked, bed: Bed, found: Hinted) -> tuple[Line, ...]:
    _, *others = species_lines(found, asked.teller)
    listed = together(found.names[one.species] for one in found.hint.consistent_with)
    because = [Because(found.words[clue.key], clue.source) for clue in found.hint.clues]
    said = Said("grow_for_hinted", {"bed": bed.doc["name"], "listed": listed})
    return (asked.teller.say(said, because=because), *others)


def newest_planting(bed: Bed | None) -> Doc | None:
    """The crop that was planted last in a bed.

    Parameters
    ----------
    bed : Bed or None
        The bed that was chosen.

    Returns
    -------
    Mapping or None
        The planting's document; None without a bed or a planting.
    """
    return bed.plantings[-1].doc if bed and bed.plantings else None


def plant_asked(asked: Asked, plants: Sequence[Plant]) -> Plant | None:
    """The plant that was chosen, else the newest crop of the chosen bed.

    Parameters
    ----------
    asked : Asked
        Maybe with ``plant`` and ``bed``.
    plants : sequence of Plant
        Rows of the host table.

    Returns
    -------
    Plant or None
        None when neither was given.

    Raises
    ------
    DomainError
        ``grow_crop_not_listed`` when the bed's crop is not in the table.
    """
    chosen = asked.given.text("plant")
    if chosen:
        return next(plant for plant in plants if plant.key == chosen)
    planting = newest_planting(asked.bed())
    if planting is None:
        return None
    crop = str(planting["crop_key"])
    found = plant_of_crop(plants, crop) or next((one for one in plants if one.crop == crop), None)
    if found is None or not crop:
        raise DomainError("grow_crop_not_listed", field="plant", crop=planting["crop"])
    return found
