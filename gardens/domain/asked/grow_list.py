"""What can be grown after a bad bed: plants that feed them poorly, in rows to choose from.

Not a plan of seasons, and never a promise: what is not known is named beside each.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.grow_species import Wanted, wanted
from gardens.domain.asked.grow_words import caution_keys, full_name, standings
from gardens.domain.asked.treatment_rows import cautions
from gardens.domain.host_table import Plant, read_plants
from gardens.domain.hosts import across_species, suitability
from gardens.domain.said import Said

BREAKS = "; hot soil and some strains break it"
# In the order they are shown; what feeds them, and what nothing is known of, is only counted.
STANDS: Mapping[str, str] = {
    "poor": "Poor host or non-host where it was tried",
    "resistant": f"Resistant kind{BREAKS}",
    "uncertain": "Uncertain",
}


def after_a_bad_bed(asked: Asked) -> Answer:
    """What can be grown after a bad bed.

    Parameters
    ----------
    asked : Asked
        With ``use`` and ``season``, and maybe ``species`` or ``bed``.

    Returns
    -------
    Answer
        Poor hosts first, then resistant kinds, then what is uncertain.
    """
    about = wanted(asked)
    season, use = asked.given.text("season"), asked.given.text("use")
    grown = {row["key"]: row["season"] for row in asked.tables["host_status"]}
    fitting = [
        plant
        for plant in read_plants(asked.tables["host_status"])
        if plant.kind == use and grown[plant.key] in (season, "either")
    ]
    sorted_out: dict[str, list[Plant]] = {}
    for plant in fitting:
        sorted_out.setdefault(_stand(plant, about.species), []).append(plant)
    counted = {f"n_{name}": len(sorted_out.get(name, ())) for name in (*STANDS, "feeds", "unknown")}
    code = "grow_list" if any(sorted_out.get(name) for name in STANDS) else "grow_list_none"
    care = [asked.teller.line("grow_list_cover")] if use == "cover" else []
    feed = "feed it" if len(about.species) == 1 else "feed one of them or more"
    told = {"listed": about.told(), "feed": feed, **counted}
    lines = [asked.teller.say(Said(code, told)), *care, *about.lines]
    rows = [
        _row(asked, plant, stand, about)
        for stand in STANDS
        for plant in sorted(sorted_out.get(stand, ()), key=lambda one: _n_gaps(one, about))
    ]
    return Answer(tuple(lines), tuple(rows))


def _stand(plant: Plant, species: Sequence[str]) -> str:
    """A kind with a gene is listed where it holds one species at least; a gap is never good."""
    found = across_species(plant, species)
    holds = [one for one in species if suitability(plant, one).feeds is False]
    if plant.gene and holds:
        return "resistant"
    if found.feeds:
        return "feeds"
    if found.uncertain:
        return "uncertain"
    return "poor" if holds else "unknown"


def _n_gaps(plant: Plant, about: Wanted) -> int:
    return len(across_species(plant, about.species).not_known)


def _row(asked: Asked, plant: Plant, stand: str, about: Wanted) -> Row:
    keys = caution_keys(asked, plant)
    table: Mapping[str, Mapping[str, Any]] = asked.tables["treatments"]["cautions"]
    cells = {
        **_standing(plant, stand, about),
        "To bear in mind": plant.note,
        **cautions(asked, keys),
    }
    sources = (*plant.source, *(str(table[key]["source"]) for key in keys))
    hurts = any(table[key]["can_hurt"] for key in keys)
    return row(full_name(plant), cells, tuple(dict.fromkeys(sources)), caution=hurts)


def _standing(plant: Plant, stand: str, about: Wanted) -> dict[str, str]:
    found = standings(plant, about.species, about.names)
    if len(about.species) > 1:
        return {"How it stands": STANDS[stand], **found}
    (words,) = found
    return {"How it stands": words + (BREAKS if stand == "resistant" else "")}


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"after_a_bad_bed": after_a_bad_bed}
