"""Answers that take long, kept for as long as the same plants are asked about again.

Each is a pure function of what it is given, so an old answer is as good as a new one. Not for
anything that hangs on the day.
"""

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from gardens.domain import change, effort, pattern, surface
from gardens.domain.core_plan import Place, core_plan
from gardens.domain.evidence import Evidence, weigh
from gardens.domain.findings import Found
from gardens.domain.geometry import Point, box
from gardens.domain.judgements import Table, judged

_QUICK = 5
_CLOSE = 3
_SHADES = {"full": "full", "pale": "pale", "hatched": "hatch"}


@dataclass(frozen=True)
class Squares:
    """A map row by row over the box around its bed; empty when there is none.

    ``values`` are grades to two decimals [one scale, 0..10], None outside the bed and where
    nobody dug; ``ground`` is ``"full"``, ``"pale"``, ``"hatch"`` or ``"outside"``.
    """

    surface: surface.Surface
    values: tuple[float | None, ...] = ()
    ground: tuple[str, ...] = ()


@lru_cache(maxsize=8)
def _table(rules: str) -> Table:
    table: Table = json.loads(rules)
    return table


@lru_cache(maxsize=4096)
def more_plants(grades: tuple[float, ...], n_plants: int | None, rules: str) -> effort.More:
    """How many more plants to dig (see ``effort.more_plants``).

    Parameters
    ----------
    grades : tuple of float
        One grade per rated plant, any number [one scale, 0..10].
    n_plants : int or None
        Plants that stood in the bed [1, >= number rated].
    rules : str
        Content of ``fixtures/judgements.json`` as text.

    Returns
    -------
    More
        About how many.
    """
    return effort.more_plants(grades, _table(rules), n_plants)


@lru_cache(maxsize=4096)
def verdict(before: change.Side, after: change.Side, rules: str) -> change.Verdict:
    """What may be said about the change between two checks (see ``change.verdict``).

    Parameters
    ----------
    before, after : Side
        Two checks on one scale.
    rules : str
        Content of ``fixtures/judgements.json`` as text.

    Returns
    -------
    Verdict
        With its interval.
    """
    return change.verdict(before, after, _table(rules))


@lru_cache(maxsize=4096)
def found_pattern(
    places: tuple[Point, ...], grades: tuple[float, ...], rules: str
) -> pattern.Pattern:
    """Whether galled plants stand together (see ``pattern.pattern``).

    Parameters
    ----------
    places : tuple of (float, float)
        One place per rated plant, any number [cm].
    grades : tuple of float
        One grade per rated plant, in the same order [one scale, 0..10].
    rules : str
        Content of ``fixtures/judgements.json`` as text.

    Returns
    -------
    Pattern
        From a fifth of the shufflings where it can only be a hint or is not close; from all
        where more plants were dug and it is.
    """
    table = _table(rules)
    n = int(judged(table, "pattern_shufflings"))
    few = {**table["pattern_shufflings"], "value": max(99, n // _QUICK)}
    quick = pattern.pattern(places, grades, {**table, "pattern_shufflings": few})
    line = judged(table, "pattern_most_chance")
    is_close = quick.chance is not None and line / _CLOSE < quick.chance < line * _CLOSE
    if is_close and len(grades) >= judged(table, "pattern_sure_plants"):
        return pattern.pattern(places, grades, table)
    return quick


@lru_cache(maxsize=512)
def squares(
    outline: tuple[Point, ...],
    plants: tuple[surface.Plant, ...],
    spacing_cm: float,
    cell_cm: float,
    rules: str,
) -> Squares:
    """The map of a check, row by row over the box around its bed (see ``surface.bed_surface``).

    Parameters
    ----------
    outline : tuple of (float, float)
        3 or more corners of the bed [cm].
    plants : tuple of Plant
        The rated plants, any number.
    spacing_cm : float
        Distance between neighbouring plants [cm, above 0].
    cell_cm : float
        Side of a square [cm, above 0].
    rules : str
        Content of ``fixtures/judgements.json`` as text.

    Returns
    -------
    Squares
        Or why there are none, in its ``surface``.
    """
    found = surface.bed_surface(outline, plants, spacing_cm, _table(rules), cell_cm)
    if found.code != "drawn":
        return Squares(found)
    at = {(cell.x_cm, cell.y_cm): cell for cell in found.cells}
    every = [at.get(place) for place in _middles(outline, cell_cm)]
    return Squares(
        replace(found, cells=()),
        tuple(None if one is None or one.grade is None else round(one.grade, 2) for one in every),
        tuple("outside" if one is None else _SHADES[one.shade] for one in every),
    )


@lru_cache(maxsize=512)
def cores(
    outline: tuple[Point, ...],
    n_cores: int,
    seed: str,
    plants: tuple[Point, ...],
    root_zone_cm: float,
) -> tuple[Place, ...]:
    """Where to push the probe (see ``core_plan.core_plan``).

    Parameters
    ----------
    outline : tuple of (float, float)
        3 or more corners of the bed [cm].
    n_cores : int
        [cores, 1..200]
    seed : str
        Any text.
    plants : tuple of (float, float)
        Where plants stand, any number [cm].
    root_zone_cm : float
        How far from a stem a core is lifted [cm, 3..40].

    Returns
    -------
    tuple of (int, int)
        In walking order [cm].
    """
    return core_plan(outline, n_cores, seed, plants=plants, root_zone_cm=root_zone_cm)


@lru_cache(maxsize=512)
def weighed(found: Found, level: float, prior: str, rules: str) -> Evidence:
    """What all checks of a bed say of a level (see ``evidence.weigh``).

    Parameters
    ----------
    found : Found
        All checks of a bed.
    level : float
        The level that matters [J2 per 100 cm3, > 0].
    prior : str
        One of ``evidence.PRIORS``.
    rules : str
        Content of ``fixtures/judgements.json`` as text.

    Returns
    -------
    Evidence
        Under the worse of two beginnings.
    """
    return weigh(found, level, prior, _table(rules))


def grid_size(outline: Sequence[Point], cell_cm: float) -> tuple[int, int]:
    """Squares across and down that cover a bed.

    Parameters
    ----------
    outline : sequence of (float, float)
        3 or more corners of the bed [cm].
    cell_cm : float
        Side of a square [cm, above 0].

    Returns
    -------
    (int, int)
        Columns and rows [squares, >= 1].
    """
    left, top, right, bottom = box(outline)
    return -int(-(right - left) // cell_cm), -int(-(bottom - top) // cell_cm)


def _middles(outline: Sequence[Point], cell_cm: float) -> list[Point]:
    (n_columns, n_rows), (left, top, _, _) = grid_size(outline, cell_cm), box(outline)
    across = [left + (column + 0.5) * cell_cm for column in range(n_columns)]
    return [(x, top + (row + 0.5) * cell_cm) for row in range(n_rows) for x in across]


def forget() -> None:
    """Forget every kept answer, so that the time of a first briefing can be measured."""
    for kept in (more_plants, verdict, found_pattern, squares, cores, weighed):
        kept.cache_clear()
