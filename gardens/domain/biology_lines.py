"""What to say about species, packets, hosts, trap crops and nitrogen.

Not for deciding any of it: every line follows from a code found elsewhere.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from gardens.domain.hosts import AcrossSpecies
from gardens.domain.rates import Nitrogen
from gardens.domain.resistance import Packet
from gardens.domain.said import Said, figure, together
from gardens.domain.species import Hint
from gardens.domain.trap_crops import LiftBy

Names = Mapping[str, str]


def latin_names(table: Iterable[Mapping[str, object]]) -> dict[str, str]:
    """Latin name of each species by its short name.

    Parameters
    ----------
    table : iterable of Mapping
        Content of ``fixtures/species.json``.

    Returns
    -------
    dict
        E.g. ``{"Mi": "M. incognita"}``.
    """
    return {str(row["key"]): str(row["latin"]) for row in table}


def _listed(species: Iterable[str], names: Names) -> str:
    return together(names[one] for one in species)


def species_lines(found: Hint, names: Names) -> tuple[Said, ...]:
    """Lines about the species of a bed; their reasons are the words of the hint's clues.

    Parameters
    ----------
    found : Hint
        Of one bed.
    names : Mapping
        Latin names, from `latin_names`.

    Returns
    -------
    tuple of Said
        The hint first, never with fewer than two species.
    """
    listed = _listed((one.species for one in found.consistent_with), names)
    lines = [Said("species_hint" if found.tells else "species_no_clue", {"listed": listed})]
    if found.identify:
        lines.append(Said("species_identify"))
    if found.may_be_regulated:
        lines.append(Said("species_may_be_regulated"))
    return tuple(lines)


def packet_line(packet: Packet, names: Names) -> Said:
    """Line about the resistance a packet states.

    Parameters
    ----------
    packet : Packet
        As it was read.
    names : Mapping
        Latin names, from `latin_names`.

    Returns
    -------
    Said
        "Not stated" when no nematode code was read.
    """
    sure = [name for one in packet.stated if not one.assumed for name in one.species]
    assumed = [name for one in packet.stated if one.assumed for name in one.species]
    if sure:
        return Said("packet_stated", {"listed": _listed(dict.fromkeys(sure), names)})
    if assumed:
        return Said("packet_assumed", {"listed": _listed(dict.fromkeys(assumed), names)})
    return Said("packet_not_stated")


def host_lines(
    plant_name: str, found: AcrossSpecies, asked: Sequence[str], names: Names
) -> tuple[Said, ...]:
    """Lines about what a plant feeds, one for each way it stands to the species asked about.

    Parameters
    ----------
    plant_name : str
        As growers call it.
    found : AcrossSpecies
        How the plant stands to them.
    asked : sequence of str
        Short names, one or more.
    names : Mapping
        Latin names, from `latin_names`.

    Returns
    -------
    tuple of Said
        The worst first; every species is in one of them.
    """
    open_ones = {*found.feeds, *found.uncertain, *found.not_known}
    parts = {
        "host_feeds_some": found.feeds,
        "host_uncertain": found.uncertain,
        "host_not_known": found.not_known,
        "host_feeds_none_listed": tuple(one for one in asked if one not in open_ones),
    }
    return tuple(
        Said(code, {"plant": plant_name, "listed": _listed(species, names)})
        for code, species in parts.items()
        if species
    )


def lift_line(found: LiftBy) -> Said:
    """Line about the last day of a trap crop.

    Parameters
    ----------
    found : LiftBy
        Of one trap crop.

    Returns
    -------
    Said
        With the day.
    """
    return Said(f"lift_{found.limit}", {"lift_on": date.fromisoformat(found.lift_on)})


def nitrogen_line(found: Nitrogen) -> Said:
    """Line about the nitrogen a dressing carries.

    Parameters
    ----------
    found : Nitrogen
        Of one dressing.

    Returns
    -------
    Said
        A warning where it is more than a season's crops take up.
    """
    params = {
        "carried": figure(found.grams_per_m2, 2),
        "pounds": figure(found.lb_per_100_ft2, 2),
        "need": figure(found.season_need_grams_per_m2, 2),
    }
    return Said(f"nitrogen_{found.warn}", params)
