"""What galled and what did not, matched with published host differences.

Not for weighing: `gardens.domain.species` does that.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged

FACTS = ("bead_galls", "corn_only_and_rose", "frozen_winters")


@dataclass(frozen=True)
class Seen:
    """One crop of one bed in one season, as its roots were rated.

    ``grades`` [one 0-to-10 scale, 0..10] holds one grade a plant; ``resistant`` is whether the
    packet states root-knot resistance; ``soil_highest_celsius`` [degrees C] is the warmest
    daily soil temperature of that season, None where nobody measured.
    """

    crop_key: str
    grades: tuple[int, ...]
    resistant: bool = False
    soil_highest_celsius: float | None = None


@dataclass(frozen=True)
class Clue:
    """One piece of evidence that was found in the garden, and what it speaks for."""

    key: str
    confidence: str
    raises: tuple[str, ...]
    lowers: tuple[str, ...]
    identify: bool
    also: tuple[str, ...]
    words: str
    source: tuple[str, ...]
    from_memory: bool


def galls_of(grades: Sequence[int], judgements: Table) -> str:
    """How a crop galled, in the words of the evidence table.

    Parameters
    ----------
    grades : sequence of int
        One grade a plant, any number [one scale, 0..10].
    judgements : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    str
        ``"heavy"``, ``"clear"``, ``"none"`` or ``"unclear"``: a trace, or too few plants for
        their want of galls to count.

    Examples
    --------
    >>> table = {"galls_clear_grade": {"value": 2, "range": [1, 10]},
    ...     "galls_heavy_grade": {"value": 5, "range": [2, 10]},
    ...     "species_no_galls_least_plants": {"value": 3, "range": [1, 20]}}
    >>> [galls_of(grades, table) for grades in ((0, 0, 0), (0, 0), (1, 0, 3), (4, 6, 8))]
    ['none', 'unclear', 'clear', 'heavy']
    """
    if not grades:
        return "unclear"
    if sum(grades) / len(grades) >= judged(judgements, "galls_heavy_grade"):
        return "heavy"
    if max(grades) >= judged(judgements, "galls_clear_grade"):
        return "clear"
    enough = len(grades) >= judged(judgements, "species_no_galls_least_plants")
    return "none" if enough and max(grades) == 0 else "unclear"


def clues_of(
    seen: Iterable[Seen],
    facts: Collection[str],
    evidence: Iterable[Mapping[str, object]],
    judgements: Table,
) -> tuple[Clue, ...]:
    """The rows of the evidence table that a garden bears out.

    Parameters
    ----------
    seen : iterable of Seen
        Any number of crops of one bed in one season.
    facts : collection of str
        Which of `FACTS` the grower ticked, any number.
    evidence : iterable of Mapping
        Content of ``fixtures/species_evidence.json``.
    judgements : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    tuple of Clue
        In the order of the table; none when nothing fits.

    Raises
    ------
    DomainError
        ``unknown_fact``.
    """
    unknown = sorted(set(facts) - set(FACTS))
    if unknown:
        raise DomainError("unknown_fact", facts=unknown)
    crops = tuple(seen)
    found = []
    for row in evidence:
        wanted = set(_names(row["facts"]))
        needs = _needs(row["needs"])
        met = all(any(_meets(crop, need, judgements) for crop in crops) for need in needs)
        if wanted <= set(facts) and met:
            found.append(_clue(row))
    return tuple(found)


def _names(value: object) -> tuple[str, ...]:
    assert isinstance(value, Sequence)
    return tuple(str(one) for one in value)


def _needs(value: object) -> Sequence[Mapping[str, object]]:
    assert isinstance(value, Sequence)
    return value


def _meets(crop: Seen, need: Mapping[str, object], judgements: Table) -> bool:
    if crop.crop_key not in _names(need["crops"]):
        return False
    galls = galls_of(crop.grades, judgements)
    galled_enough = galls == need["galls"] or (need["galls"] == "clear" and galls == "heavy")
    stated = "stated" if crop.resistant else "none"
    soil = _soil(crop.soil_highest_celsius, judgements)
    return galled_enough and need["resistance"] in ("any", stated) and need["soil"] in ("any", soil)


def _soil(highest_celsius: float | None, judgements: Table) -> str:
    if highest_celsius is None:
        return "unknown"
    if highest_celsius < judged(judgements, "resistance_cool_soil_celsius"):
        return "cool"
    hot = highest_celsius > judged(judgements, "resistance_hot_soil_celsius")
    return "hot" if hot else "unknown"


def _clue(row: Mapping[str, object]) -> Clue:
    return Clue(
        key=str(row["key"]),
        confidence=str(row["confidence"]),
        raises=_names(row["raises"]),
        lowers=_names(row["lowers"]),
        identify=bool(row["identify"]),
        also=_names(row["also"]),
        words=str(row["words"]),
        source=_names(row["source"]),
        from_memory=bool(row["from_memory"]),
    )
