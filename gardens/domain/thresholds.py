"""At how many nematodes a crop was hurt, as published: a spread to set a count beside.

Never averaged, and never turned into a share of yield: a tolerance limit comes from finely
dosed eggs and juveniles, a lab reports the juveniles it recovered.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.judgements import Table
from gardens.domain.said import Said
from gardens.domain.units import PER_100_CM3, Unit, convert_count

ONSETS = ("tolerance_limit", "first_loss")
GENERAL = ""


@dataclass(frozen=True)
class Level:
    """One published level, as it was printed and per 100 cm3.

    ``kind`` is ``"tolerance_limit"`` (fitted), ``"first_loss"`` (seen), ``"loss_seen"`` (at a
    tried density, whatever it is below), ``"no_loss_up_to"`` or ``"any_found"``. ``low`` and
    ``high`` are in ``unit`` [nematodes, >= 0]; no low end means at or below the high one.
    """

    crop: str
    form: str
    species: str
    kind: str
    low: float | None
    high: float | None
    unit: Unit
    stage: str
    season: str
    setting: str
    region: str
    note: str
    source: str
    from_memory: bool
    low_per_100_cm3: float | None
    high_per_100_cm3: float | None
    flag: str | None


@dataclass(frozen=True)
class Spread:
    """Where the published onsets of harm lie, lowest and highest [per 100 cm3, >= 0].

    ``cautions`` are codes: ``eggs_counted_too``, ``pots_only``, ``pots_overstate``,
    ``weight_crossed``, ``species_differ``, ``only_one``.
    """

    low: float
    high: float
    n_levels: int
    cautions: tuple[str, ...]


def read_levels(
    rows: Iterable[Mapping[str, object]], table: Table, bulk_density: float | None = None
) -> tuple[Level, ...]:
    """The published levels of the table.

    Parameters
    ----------
    rows : iterable of Mapping
        Content of ``fixtures/thresholds.json``.
    table : Mapping
        Content of ``fixtures/judgements.json``.
    bulk_density : float or None
        Dry weight of the grower's soil [g per cm3]; None takes the judged one, flagged.

    Returns
    -------
    tuple of Level
        One for each row.

    References
    ----------
    by_hand
    """
    return tuple(_level(row, table, bulk_density) for row in rows)


def _level(row: Mapping[str, object], table: Table, bulk_density: float | None) -> Level:
    printed = row["unit"]
    assert isinstance(printed, Mapping)
    unit = Unit(str(printed["basis"]), float(str(printed["amount"])))
    low, high = _number(row["low"]), _number(row["high"])
    ends = [
        None if end is None else convert_count(end, unit, PER_100_CM3, table, bulk_density)
        for end in (low, high)
    ]
    names = ("crop", "form", "species", "kind", "stage", "season", "setting", "region", "note")
    return Level(
        **{name: str(row[name]) for name in names},
        low=low,
        high=high,
        unit=unit,
        source=str(row["source"]),
        from_memory=bool(row["from_memory"]),
        low_per_100_cm3=ends[0].value if ends[0] else None,
        high_per_100_cm3=ends[1].value if ends[1] else None,
        flag=ends[1].flag if ends[1] else None,
    )


def _number(value: object) -> float | None:
    assert value is None or isinstance(value, int | float)
    return None if value is None else float(value)


def levels_for(crop: str, levels: Sequence[Level], species: str | None = None) -> tuple[Level, ...]:
    """Published levels of one crop.

    Parameters
    ----------
    crop : str
        Key of ``fixtures/crops.json``; ``""`` for what is said of vegetables at large.
    levels : sequence of Level
        Any number.
    species : str or None
        E.g. ``"Mi"``; None when it is not known, which is usual.

    Returns
    -------
    tuple of Level
        All that apply; none for most crops.
    """
    of_crop = [level for level in levels if level.crop == crop]
    return tuple(one for one in of_crop if species is None or one.species in (species, "any"))


def spread(levels: Sequence[Level]) -> Spread | None:
    """Lowest and highest published onset of harm.

    Parameters
    ----------
    levels : sequence of Level
        Of one crop, any number.

    Returns
    -------
    Spread or None
        None when no onset is published; a density at which loss was seen is not an onset.

    Notes
    -----
    On tomato alone the onsets lie a hundredfold apart, by heat, soil, stage counted and pot or
    field; lettuce in pots bore 3.5 to 8 times what it bore in the ground.

    References
    ----------
    barker_1976_tomato, viaene_abawi_1996
    """
    onsets = [one for one in levels if one.kind in ONSETS and one.high_per_100_cm3 is not None]
    if not onsets:
        return None
    ends = [end for one in onsets for end in (one.low_per_100_cm3, one.high_per_100_cm3)]
    known = [end for end in ends if end is not None]
    return Spread(min(known), max(known), len(onsets), _cautions(onsets))


def _cautions(onsets: Sequence[Level]) -> tuple[str, ...]:
    told = {
        "eggs_counted_too": any("eggs" in one.stage for one in onsets),
        "pots_only": all(one.setting == "pots" for one in onsets),
        "pots_overstate": any(one.setting == "pots" for one in onsets),
        "weight_crossed": any(one.flag for one in onsets),
        "species_differ": len({one.species for one in onsets}) > 1,
        "only_one": len(onsets) == 1,
    }
    return tuple(code for code, applies in told.items() if applies)


def set_beside(low: float, high: float, published: Spread | None) -> Said:
    """Where a count, with its interval, lies beside the published onsets of harm.

    Parameters
    ----------
    low, high : float
        Ends of the interval of the density, or nothing and the bound when none was recovered
        [J2 per 100 cm3, >= 0].
    published : Spread or None
        Of the crop to be grown.

    Returns
    -------
    Said
        ``threshold_below_all``, ``threshold_within``, ``threshold_above_all``,
        ``threshold_pots_only`` (below it, and pots bear more than beds: no comfort) or
        ``threshold_no_levels``; no share of yield.

    References
    ----------
    barker_1976_tomato

    Examples
    --------
    >>> set_beside(0, 12, Spread(4, 400, 8, ())).code
    'threshold_within'
    """
    if published is None:
        return Said("threshold_no_levels")
    ends = dict.fromkeys(f"{end:.3g}" for end in (published.low, published.high))
    numbers = {"span": " to ".join(ends), "n": published.n_levels}
    if high < published.low:
        comfort = "pots_only" if "pots_only" in published.cautions else "below_all"
        return Said(f"threshold_{comfort}", numbers)
    if low > published.high:
        return Said("threshold_above_all", numbers)
    return Said("threshold_within", numbers)


def caution_lines(published: Spread) -> tuple[Said, ...]:
    """What to bear in mind with a spread.

    Parameters
    ----------
    published : Spread
        Of one crop.

    Returns
    -------
    tuple of Said
        Up to six.
    """
    return tuple(Said(f"threshold_caution_{code}") for code in published.cautions)
