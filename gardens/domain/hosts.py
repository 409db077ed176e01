"""Which plants feed which root-knot nematodes, and which suffer: two axes, never one.

Not for a season's plan, and never an average: where sources disagree the answer is
"uncertain", with every level that was found.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from gardens.domain.errors import DomainError
from gardens.domain.host_table import SPECIES, Plant
from gardens.domain.judgements import Table, judged

FEEDS = frozenset({"moderate", "host", "good"})


@dataclass(frozen=True)
class Suitability:
    """How well a plant feeds a species.

    ``answer`` is one of `LEVELS`, ``"range"`` (from the first to the last level),
    ``"uncertain"`` (sources disagree, or it depends on the kind or the race) or
    ``"not_known"``. ``feeds`` is None whenever that cannot be said.
    """

    answer: str
    levels: tuple[str, ...]
    feeds: bool | None
    from_memory: bool


@dataclass(frozen=True)
class AcrossSpecies:
    """How a plant stands to several species at once, as when the species is not known.

    ``answer`` is ``"feeds_some"``, ``"uncertain"``, ``"not_known"`` or ``"feeds_none_listed"``.
    """

    answer: str
    feeds: tuple[str, ...]
    uncertain: tuple[str, ...]
    not_known: tuple[str, ...]


def suitability(plant: Plant, species: str) -> Suitability:
    """How well a plant feeds one species.

    Parameters
    ----------
    plant : Plant
        A row of the table.
    species : str
        One of `SPECIES`.

    Returns
    -------
    Suitability
        ``"uncertain"`` wherever the row says that sources disagree: never a middle.

    Raises
    ------
    DomainError
        ``unknown_species``.

    References
    ----------
    our_host_reading

    Examples
    --------
    >>> from gardens.domain.host_table import HostCell
    >>> cell = HostCell(("poor", "good"), True, False, False, ())
    >>> okra = Plant("x", "x", "X", "crop", "", None, {"Mi": cell}, (), False, "")
    >>> suitability(okra, "Mi").answer, suitability(okra, "Mh").answer
    ('uncertain', 'not_known')
    """
    if species not in SPECIES:
        raise DomainError("unknown_species", species=species)
    cell = plant.cells.get(species)
    if cell is None or not (cell.levels or cell.conflict):
        return Suitability("not_known", (), None, False)
    feeding = {level in FEEDS for level in cell.levels}
    if cell.conflict:
        return Suitability("uncertain", cell.levels, None, cell.from_memory)
    answer = cell.levels[0] if len(cell.levels) == 1 else "range"
    feeds = feeding.pop() if len(feeding) == 1 else None
    return Suitability(answer, cell.levels, feeds, cell.from_memory)


def across_species(plant: Plant, species: Sequence[str]) -> AcrossSpecies:
    """How a plant stands to every species that may be in a bed.

    Parameters
    ----------
    plant : Plant
        A row of the table.
    species : sequence of str
        One or more of `SPECIES`.

    Returns
    -------
    AcrossSpecies
        The worst that can be said comes first; a gap in the table is never a good sign.

    Raises
    ------
    DomainError
        ``unknown_species``.
    """
    found = {each: suitability(plant, each) for each in species}
    feeds = tuple(each for each, one in found.items() if one.feeds)
    not_known = tuple(each for each, one in found.items() if one.answer == "not_known")
    uncertain = tuple(
        each for each, one in found.items() if one.feeds is None and each not in not_known
    )
    if feeds:
        answer = "feeds_some"
    elif uncertain:
        answer = "uncertain"
    else:
        answer = "not_known" if not_known or not found else "feeds_none_listed"
    return AcrossSpecies(answer, feeds, uncertain, not_known)


def tolerance(plant: Plant, species: str, judgements: Table) -> str:
    """How much a plant suffers from one species: the other axis.

    Parameters
    ----------
    plant : Plant
        A row of the table.
    species : str
        One of `SPECIES`.
    judgements : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    str
        ``"suffers_heavily"``, ``"suffers"``, ``"suffers_lightly"``, ``"uncertain"`` when
        trials fall in different bands, or ``"not_known"``.

    Raises
    ------
    DomainError
        ``unknown_species``.

    Notes
    -----
    From the loss at the highest density of each trial; densities, soils and stages differ, so
    only the band is given. The bands are a judgement.
    """
    if species not in SPECIES:
        raise DomainError("unknown_species", species=species)
    cell = plant.cells.get(species)
    bands = {_band(one.loss_percent, judgements) for one in cell.losses} if cell else set()
    if len(bands) > 1:
        return "uncertain"
    return bands.pop() if bands else "not_known"


def _band(loss_percent: float, judgements: Table) -> str:
    if loss_percent >= judged(judgements, "tolerance_heavy_loss_percent"):
        return "suffers_heavily"
    light = judged(judgements, "tolerance_light_loss_percent")
    return "suffers" if loss_percent > light else "suffers_lightly"


def weeds_cancel(weed_cover_percent: float | None, judgements: Table) -> bool | None:
    """Whether weeds undo a fallow or a season without a host.

    Parameters
    ----------
    weed_cover_percent : float or None
        Ground under weeds that may feed nematodes [%, 0..100]; None when nobody looked.
    judgements : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    bool or None
        True when the season gets no credit for falling numbers; None when not known.

    References
    ----------
    rich_2008_weeds, tedford_fortnum_weeds

    Examples
    --------
    >>> table = {"weeds_cancel_cover_percent": {"value": 10, "range": [0, 50]}}
    >>> [weeds_cancel(cover, table) for cover in (10, 11, None)]
    [False, True, None]
    """
    if weed_cover_percent is None:
        return None
    return weed_cover_percent > judged(judgements, "weeds_cancel_cover_percent")
