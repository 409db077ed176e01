"""What has been tried against root-knot in soil, how well it is known, and what to beware of.

Not a recipe and not a recommendation: no product is named, a label is the law where there is
one, and local codes, extension and licensed practice come first.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.amounts import Span
from gardens.domain.errors import DomainError

EFFECTS = ("helps", "mixed", "no", "harms", "unproven", "not_judged")
GRADES = ("strong", "medium", "low", "none")
DOSES = ("by_weight", "label", "not_worked_out", "none")


@dataclass(frozen=True)
class Treatment:
    """One thing that was tried.

    ``effect`` is one of `EFFECTS` and ``evidence`` one of `GRADES`; ``tested_g_per_m2`` is
    the span of rates tried [g/m2], None where it has none; ``nitrogen_percent`` as sold
    [%, 0..100]; ``cautions`` are codes, those that always apply included. ``dose`` is one of
    `DOSES`: only ``"by_weight"`` may be weighed out for a bed. ``tried_as`` is the key of the
    row whose tested rates this one is set beside, its own where it is None.
    """

    key: str
    name: str
    kind: str
    effect: str
    evidence: str
    seen: str
    tested_g_per_m2: Span | None
    wait_days: Span | None
    nitrogen_percent: float | None
    cautions: tuple[str, ...]
    source: tuple[str, ...]
    nitrogen_from_memory: bool = False
    dose: str = "none"
    tried_as: str | None = None


@dataclass(frozen=True)
class CoverCrop:
    """How one cover crop is grown where root-knot is, and how it stands to it.

    ``advice`` is ``"useful"``, ``"holds"``, ``"depends_on_species"`` or ``"avoid"``;
    ``seed_g_per_m2`` is None for what is set out as plants ``plants_apart_cm`` [cm]; weeks in
    the ground [wk].
    """

    crop: str
    name: str
    advice: str
    seed_g_per_m2: Span | None
    seed_source: tuple[str, ...]
    seed_from_memory: bool
    plants_apart_cm: float | None
    soil_at_least_celsius: float | None
    soil_from_memory: bool
    weeks: tuple[int, int | None] | None
    finish: str
    seen: str
    cautions: tuple[str, ...]
    source: tuple[str, ...]


def read_treatments(table: Mapping[str, object]) -> tuple[Treatment, ...]:
    """The treatments of the table, each with every caution that applies to it.

    Parameters
    ----------
    table : Mapping
        Content of ``fixtures/treatments.json``.

    Returns
    -------
    tuple of Treatment
        One for each row, in the order of the table.
    """
    always = _names(table["always"])
    rows = table["treatments"]
    assert isinstance(rows, Sequence)
    return tuple(_treatment(row, always) for row in rows)


def _treatment(row: Mapping[str, object], always: tuple[str, ...]) -> Treatment:
    own = _names(row["cautions"])
    nitrogen, rate = row["nitrogen_percent"], row["tested_rate"]
    return Treatment(
        key=str(row["key"]),
        name=str(row["name"]),
        kind=str(row["kind"]),
        effect=str(row["effect"]),
        evidence=str(row["evidence"]),
        seen=str(row["seen"]),
        tested_g_per_m2=_span(rate),
        wait_days=_span(row["wait_days"]),
        nitrogen_percent=nitrogen["value"] if isinstance(nitrogen, Mapping) else None,
        cautions=(*own, *(code for code in always if code not in own)),
        source=_names(row["source"]),
        nitrogen_from_memory=isinstance(nitrogen, Mapping) and bool(nitrogen["from_memory"]),
        dose=str(row["dose"]),
        tried_as=None if row["tried_as"] is None else str(row["tried_as"]),
    )


def _names(value: object) -> tuple[str, ...]:
    assert isinstance(value, Sequence)
    return tuple(str(one) for one in value)


def _span(value: object) -> Span | None:
    if isinstance(value, Mapping):
        return Span(value["low"], value["high"])
    return Span(value[0], value[1]) if isinstance(value, Sequence) else None


def treatment(key: str, table: Mapping[str, object]) -> Treatment:
    """One treatment of the table.

    Parameters
    ----------
    key : str
        Key of a row.
    table : Mapping
        Content of ``fixtures/treatments.json``.

    Returns
    -------
    Treatment
        With every caution that applies to it.

    Raises
    ------
    DomainError
        ``unknown_treatment``.
    """
    for one in read_treatments(table):
        if one.key == key:
            return one
    raise DomainError("unknown_treatment", key=key)


def beside_tested_rate(one: Treatment, grams_per_m2: float) -> str:
    """How a rate stands to the rates that were tried.

    Parameters
    ----------
    one : Treatment
        A row of the table.
    grams_per_m2 : float
        The rate on the bag, or the one in mind [g/m2, >= 0].

    Returns
    -------
    str
        ``"below_all_tested"``, ``"within_tested"``, ``"above_all_tested"`` or
        ``"no_rate_tested"``. Below, nothing that was seen in a trial may be expected.

    References
    ----------
    shell_meal_pots, riegel_1996_litter

    Examples
    --------
    Crab meal by the bag, 5 lb per 100 square feet, beside what pots were given:

    >>> pots = Treatment("c", "", "", "mixed", "low", "", Span(1950, 26000), None, 4, (), ())
    >>> beside_tested_rate(pots, 244)
    'below_all_tested'
    """
    if one.tested_g_per_m2 is None:
        return "no_rate_tested"
    if grams_per_m2 < one.tested_g_per_m2.low:
        return "below_all_tested"
    above = grams_per_m2 > one.tested_g_per_m2.high
    return "above_all_tested" if above else "within_tested"


def read_cover_crops(table: Sequence[Mapping[str, object]]) -> tuple[CoverCrop, ...]:
    """The cover crops of the table.

    Parameters
    ----------
    table : sequence of Mapping
        Content of ``fixtures/cover_crops.json``, any number of rows.

    Returns
    -------
    tuple of CoverCrop
        One for each row, in the order of the table.
    """
    return tuple(_cover_crop(row) for row in table)


def _cover_crop(row: Mapping[str, object]) -> CoverCrop:
    weeks = row["weeks"]
    return CoverCrop(
        crop=str(row["crop"]),
        name=str(row["name"]),
        advice=str(row["advice"]),
        seed_g_per_m2=_span(row["seed_g_per_m2"]),
        seed_source=_names(row["seed_source"]),
        seed_from_memory=bool(row["seed_from_memory"]),
        plants_apart_cm=_maybe(row["plants_apart_cm"]),
        soil_at_least_celsius=_maybe(row["soil_at_least_celsius"]),
        soil_from_memory=bool(row["soil_from_memory"]),
        weeks=(weeks[0], weeks[1]) if isinstance(weeks, Sequence) else None,
        finish=str(row["finish"]),
        seen=str(row["seen"]),
        cautions=_names(row["cautions"]),
        source=_names(row["source"]),
    )


def _maybe(value: object) -> float | None:
    return float(value) if isinstance(value, int | float) else None
