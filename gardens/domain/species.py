"""Which root-knot species a bed is consistent with, from what galled and what did not.

Not an identification: several species are always listed, and only a laboratory settles it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.clues import Clue
from gardens.domain.judgements import Table, judged

# The two races of M. arenaria are weighed apart, because peanut tells them apart.
FORMS: Mapping[str, str] = {
    "Mi": "Mi",
    "Mj": "Mj",
    "Ma_race_1": "Ma",
    "Ma_race_2": "Ma",
    "Mh": "Mh",
    "Me": "Me",
    "Mfl": "Mfl",
}
LEAST_LISTED = 2


@dataclass(frozen=True)
class Candidate:
    """One species; ``weight`` [1, 0..0.9] is for ordering, not for showing."""

    species: str
    weight: float
    speaks_for: tuple[str, ...]
    speaks_against: tuple[str, ...]


@dataclass(frozen=True)
class Hint:
    """What a bed is consistent with: never fewer than two species, never more than a hint.

    ``identify`` asks for a laboratory's identification; ``may_be_regulated`` is set when
    *M. enterolobii* is listed: the local plant-health authority wants to know. ``tells`` is
    False when no clue bears on the species.
    """

    consistent_with: tuple[Candidate, ...]
    less_consistent: tuple[Candidate, ...]
    clues: tuple[Clue, ...]
    tells: bool
    identify: bool
    may_be_regulated: bool


def hint(clues: Sequence[Clue], judgements: Table) -> Hint:
    """What the clues are consistent with.

    Parameters
    ----------
    clues : sequence of Clue
        Any number, in any order.
    judgements : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Hint
        At least two species in ``consistent_with``, the likelier first.

    Notes
    -----
    All species start level, which no region is; each clue multiplies or divides their odds by
    3, 2 or 1.3, and none is ever held above nine in ten. This is a judgement on published
    host differences, and it was never tried against identified populations.

    References
    ----------
    our_species_odds, differential_hosts_memory, floridensis_2022_tables
    """
    weights = _capped(_weighed(clues, judgements), judged(judgements, "species_most_share"))
    ranked = sorted(
        (_candidate(species, weight, clues) for species, weight in weights.items()),
        key=lambda one: (-round(one.weight, 9), list(FORMS.values()).index(one.species)),
    )
    line = judged(judgements, "species_listed_share") * ranked[0].weight
    n_listed = max(LEAST_LISTED, sum(one.weight >= line - 1e-9 for one in ranked))
    listed = tuple(ranked[:n_listed])
    tells = any(clue.raises or clue.lowers for clue in clues)
    return Hint(
        consistent_with=listed,
        less_consistent=tuple(ranked[n_listed:]),
        clues=tuple(clues),
        tells=tells,
        identify=any(clue.identify for clue in clues) or (tells and listed[0].species == "Me"),
        may_be_regulated=tells and any(one.species == "Me" for one in listed),
    )


def _weighed(clues: Sequence[Clue], judgements: Table) -> dict[str, float]:
    """Share of each species when every clue has been counted [1, 0..1]."""
    weights = {form: 1.0 / list(FORMS.values()).count(name) for form, name in FORMS.items()}
    for clue in sorted(clues, key=lambda one: one.key):
        if not (clue.raises or clue.lowers):
            continue
        factor = judged(judgements, f"species_odds_{clue.confidence}")
        for form in clue.raises:
            weights[form] *= factor
        for form in clue.lowers:
            weights[form] /= factor
    total = sum(weights.values())
    shares = dict.fromkeys(FORMS.values(), 0.0)
    for form, weight in weights.items():
        shares[FORMS[form]] += weight / total
    return shares


def _capped(shares: Mapping[str, float], most: float) -> dict[str, float]:
    """The same shares with none above the most that is ever claimed."""
    leader = max(shares, key=lambda name: shares[name])
    if shares[leader] <= most:
        return dict(shares)
    rest = (1 - most) / (1 - shares[leader])
    return {name: most if name == leader else share * rest for name, share in shares.items()}


def _candidate(species: str, weight: float, clues: Sequence[Clue]) -> Candidate:
    def named(forms: Sequence[str]) -> bool:
        return any(FORMS[form] == species for form in forms)

    return Candidate(
        species=species,
        weight=weight,
        speaks_for=tuple(clue.key for clue in clues if named(clue.raises)),
        speaks_against=tuple(clue.key for clue in clues if named(clue.lowers)),
    )
