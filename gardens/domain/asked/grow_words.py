"""How hosts, genes and species are put into a few words, for rows that compare them.

Not for sentences: those stand in ``fixtures/verdicts.json``.
"""

from collections.abc import Iterable, Mapping, Sequence

from gardens.domain.asked.answer import Asked, Row
from gardens.domain.briefing.lines import Because
from gardens.domain.host_table import Plant
from gardens.domain.hosts import Suitability, suitability
from gardens.domain.said import capital, together

MEMORY = "from memory, not confirmed"
REGULATED = (
    "Regulated in many places. If a laboratory names it, tell the local plant-health "
    "authority and move no soil or plants."
)
LEVEL_WORDS: Mapping[str, str] = {
    "antagonistic": "holds them down",
    "none_found": "none found on it",
    "resistant": "resistant",
    "poor": "poor host",
    "moderate": "moderate host",
    "host": "host",
    "good": "good host",
}


def full_name(plant: Plant) -> str:
    """Name of a plant with the kind the row is about.

    Parameters
    ----------
    plant : Plant
        A row of the host table.

    Returns
    -------
    str
        E.g. ``Tomato (susceptible)``.
    """
    return f"{plant.name} ({plant.form})" if plant.form else plant.name


def standing(found: Suitability) -> str:
    """How well a plant feeds a species, in a few words.

    Parameters
    ----------
    found : Suitability
        Of one plant and one species.

    Returns
    -------
    str
        Every level that was found; "uncertain" where sources disagree.

    Examples
    --------
    >>> standing(Suitability("uncertain", ("poor", "good"), None, False))
    'uncertain: poor host in some reports, good host in others'
    >>> standing(Suitability("range", ("none_found", "poor"), False, True))
    'none found on it, or poor host (from memory, not confirmed)'
    """
    memory = f" ({MEMORY})" if found.from_memory else ""
    levels = [LEVEL_WORDS[level] for level in found.levels]
    if found.answer == "not_known":
        return "not known"
    if found.answer != "uncertain":
        return ", or ".join(levels) + memory
    if not levels:
        return f"uncertain: it depends on the kind, the race or the trial{memory}"
    if len(levels) == 1:
        return f"uncertain: {levels[0]} in some reports, not in all{memory}"
    return f"uncertain: {', '.join(levels[:-1])} in some reports, {levels[-1]} in others{memory}"


def standings(plant: Plant, species: Sequence[str], names: Mapping[str, str]) -> dict[str, str]:
    """How a plant stands to several species, those of one standing together.

    Parameters
    ----------
    plant : Plant
        A row of the host table.
    species : sequence of str
        Short names, any number.
    names : Mapping
        Latin names by short name.

    Returns
    -------
    dict
        Latin names by the standing, which begins with a capital; what is not known comes last.
    """
    found = _by_standing(plant, species, names)
    return {capital(words): listed for words, listed in found.items()}


def _by_standing(plant: Plant, species: Sequence[str], names: Mapping[str, str]) -> dict[str, str]:
    grouped: dict[str, list[str]] = {}
    for each in species:
        grouped.setdefault(standing(suitability(plant, each)), []).append(names[each])
    gap = standing(Suitability("not_known", (), None, False))
    in_order = sorted(grouped, key=lambda words: words == gap)
    return {words: together(grouped[words]) for words in in_order}


def reasons(plant: Plant, species: Sequence[str], names: Mapping[str, str]) -> list[Because]:
    """The same as reasons for a line.

    Parameters
    ----------
    plant : Plant
        A row of the host table.
    species : sequence of str
        Short names, any number.
    names : Mapping
        Latin names by short name.

    Returns
    -------
    list of Because
        One for each standing, with the sources of the row.
    """
    found = _by_standing(plant, species, names)
    return [Because(f"{listed}: {words}.", plant.source) for words, listed in found.items()]


def one_row_each(told: Iterable[Row]) -> list[Row]:
    """Rows of several species, those that say the same as one.

    Parameters
    ----------
    told : iterable of dict
        One row for each species, named by it.

    Returns
    -------
    list of dict
        As many as say different things, in the order of their first.
    """
    alike: list[tuple[Row, list[str]]] = []
    for one in told:
        name = str(one["name"])
        same = [names for first, names in alike if {**one, "name": first["name"]} == first]
        if same:
            same[0].append(name)
        else:
            alike.append((one, [name]))
    return [{**first, "name": together(names)} for first, names in alike]


def caution_keys(asked: Asked, plant: Plant) -> tuple[str, ...]:
    """What to take care of when a plant is grown.

    Parameters
    ----------
    asked : Asked
        Has the tables.
    plant : Plant
        A row of the host table.

    Returns
    -------
    tuple of str
        Keys of the cautions of ``fixtures/treatments.json``; none for most plants.
    """
    covers = [row for row in asked.tables["cover_crops"] if row["crop"] == plant.crop]
    own = [row for row in asked.tables["host_status"] if row["key"] == plant.key]
    return tuple(dict.fromkeys(key for row in (*covers, *own) for key in row.get("cautions", ())))
