"""The map of one root check: likely grade between the dug plants, and where nobody knows.

Not for counts in soil, and not beyond the edge of the bed.
"""

import math
import statistics
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gardens.domain.geometry import Point, box, is_inside
from gardens.domain.judgements import Table, judged


@dataclass(frozen=True)
class Rules:
    """How far one plant speaks [cm], how much the bed's mean weighs and what is drawn [plants]."""

    reach_cm: float
    mean_weight: float
    full_support: float
    pale_support: float


@dataclass(frozen=True)
class Plant:
    """A dug plant: where it stood [cm] and its grade [one scale, 0..10]."""

    place: Point
    grade: float


@dataclass(frozen=True)
class Spot:
    """Likely grade at a place and its support: as if so many plants were dug right there."""

    grade: float
    support: float


@dataclass(frozen=True)
class Cell:
    """One square of the map by its middle [cm].

    ``shade`` is ``"full"``, ``"pale"`` or ``"hatched"``: nobody dug here, and ``grade`` is None.
    """

    x_cm: float
    y_cm: float
    grade: float | None
    support: float
    shade: str


@dataclass(frozen=True)
class Misses:
    """Mean miss when each plant is guessed from the others [grades, >= 0]."""

    by_surface: float
    by_mean: float


@dataclass(frozen=True)
class Surface:
    """A map, or why there is none.

    ``code`` is ``"drawn"``, ``"too_few"``, ``"all_equal"`` or ``"place_did_not_help"``; only the
    first has cells. ``is_hint`` while plants are few.
    """

    code: str
    is_hint: bool
    cell_cm: float
    cells: tuple[Cell, ...] = ()
    misses: Misses | None = None


def read_rules(table: Table, spacing_cm: float) -> Rules:
    """Rules of the map for a plant spacing.

    Parameters
    ----------
    table : Mapping
        Content of ``fixtures/judgements.json``.
    spacing_cm : float
        Distance between neighbouring plants [cm, above 0].

    Returns
    -------
    Rules
        The reach is the spacing, within its judged ends.
    """
    least, most = judged(table, "surface_least_reach_cm"), judged(table, "surface_most_reach_cm")
    return Rules(
        reach_cm=min(most, max(least, spacing_cm)),
        mean_weight=judged(table, "surface_mean_weight"),
        full_support=judged(table, "surface_full_support"),
        pale_support=judged(table, "surface_pale_support"),
    )


def spot_at(place: Point, plants: Sequence[Plant], rules: Rules) -> Spot | None:
    """Likely grade at one place.

    Parameters
    ----------
    place : (float, float)
        In the bed's frame [cm].
    plants : sequence of Plant
        The dug plants, any number.
    rules : Rules
        Reach and weight of the mean.

    Returns
    -------
    Spot or None
        Falls back to the mean of the plants where none is near; None without a plant.

    Notes
    -----
    Mean of the grades with weights exp(-d^2 / 2 reach^2), drawn towards the bed's mean. It does
    not run exactly through the dug plants: a rating has an error too.

    References
    ----------
    nadaraya_watson_1964, our_shrunk_surface
    """
    if not plants:
        return None
    weights = [
        math.exp(-((math.dist(place, one.place) / rules.reach_cm) ** 2) / 2) for one in plants
    ]
    support, mean = sum(weights), statistics.fmean(one.grade for one in plants)
    pulled = sum(w * one.grade for w, one in zip(weights, plants, strict=True))
    total = support + rules.mean_weight
    # Without a weight for the mean, a far place has neither: then the mean is all there is.
    grade = (pulled + rules.mean_weight * mean) / total if total > 0 else mean
    return Spot(grade, support)


def misses(plants: Sequence[Plant], rules: Rules) -> Misses | None:
    """How well the map guesses each plant from the others, against their plain mean.

    Parameters
    ----------
    plants : sequence of Plant
        The dug plants, any number.
    rules : Rules
        Reach and weight of the mean.

    Returns
    -------
    Misses or None
        None for fewer than two plants.

    References
    ----------
    our_shrunk_surface
    """
    if len(plants) < 2:
        return None
    by_surface, by_mean = [], []
    for at, one in enumerate(plants):
        others = [*plants[:at], *plants[at + 1 :]]
        spot = spot_at(one.place, others, rules)
        assert spot is not None
        by_surface.append(abs(one.grade - spot.grade))
        by_mean.append(abs(one.grade - statistics.fmean(other.grade for other in others)))
    return Misses(statistics.fmean(by_surface), statistics.fmean(by_mean))


def bed_surface(
    outline: Sequence[Point],
    plants: Sequence[Plant],
    spacing_cm: float,
    table: Table,
    cell_cm: float = 10.0,
) -> Surface:
    """The map of one root check, or why there is none.

    Parameters
    ----------
    outline : sequence of (float, float)
        3 or more corners of the bed [cm].
    plants : sequence of Plant
        The rated plants, any number, in any order.
    spacing_cm : float
        Distance between neighbouring plants [cm, above 0].
    table : Mapping
        Content of ``fixtures/judgements.json``.
    cell_cm : float
        Side of a square of the map [cm, above 0].

    Returns
    -------
    Surface
        Squares whose middle lies in the bed, row by row. No map where guessing each plant from
        the others does worse than their plain mean: then only the dots are drawn.

    Notes
    -----
    One plant counts for about one and a half spacings around it.

    References
    ----------
    nadaraya_watson_1964, our_shrunk_surface
    """
    n, rules = len(plants), read_rules(table, spacing_cm)
    is_hint = n < judged(table, "pattern_sure_plants")
    if n < judged(table, "pattern_least_plants"):
        return Surface("too_few", is_hint, cell_cm)
    if len({one.grade for one in plants}) == 1:
        return Surface("all_equal", is_hint, cell_cm)
    ordered = sorted(plants, key=lambda one: (one.place, one.grade))
    found = misses(ordered, rules)
    if found is None or found.by_surface >= found.by_mean:
        return Surface("place_did_not_help", is_hint, cell_cm, misses=found)
    places = _middles(outline, cell_cm)
    cells = tuple(_cell(place, ordered, rules) for place in places)
    return Surface("drawn", is_hint, cell_cm, cells, found)


def _middles(outline: Sequence[Point], cell_cm: float) -> Iterator[Point]:
    left, top, right, bottom = box(outline)
    for row in range(math.ceil((bottom - top) / cell_cm)):
        for column in range(math.ceil((right - left) / cell_cm)):
            middle = left + (column + 0.5) * cell_cm, top + (row + 0.5) * cell_cm
            if is_inside(outline, middle):
                yield middle


def _cell(place: Point, plants: Sequence[Plant], rules: Rules) -> Cell:
    spot = spot_at(place, plants, rules)
    assert spot is not None
    if spot.support < rules.pale_support:
        return Cell(*place, None, spot.support, "hatched")
    shade = "full" if spot.support >= rules.full_support else "pale"
    return Cell(*place, spot.grade, spot.support, shade)
