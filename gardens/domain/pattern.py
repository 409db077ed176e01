"""Do badly galled plants stand together, or is the bed the same all over.

Not for where they stand: that is the map of the surface.
"""

import itertools
import math
import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from gardens.domain.geometry import Point
from gardens.domain.judgements import Table, judged

NEAREST_CM = 5.0
EVERY_ORDER = 7
MOST_SHUFFLED = 40
ENOUGH_AS_PATCHY = 100
SEED = 20310802
_SAME = 1e-12

Weights = list[list[float]]


@dataclass(frozen=True)
class Pattern:
    """Whether neighbours are alike.

    ``code`` is ``"too_few"``, ``"all_equal"``, ``"hint"`` or ``"patchy"`` (neighbours are
    alike; a hint while plants are few), ``"no_sign_yet"`` or ``"no_sign"``. ``index`` is Moran's I
    [1], ``chance`` the share of shufflings at least as patchy [1, above 0 and up to 1].
    """

    code: str
    n_plants: int
    index: float | None = None
    chance: float | None = None


def inverse_distance_weights(places: Sequence[Point]) -> Weights:
    """How much each plant is a neighbour of each other one.

    Parameters
    ----------
    places : sequence of (float, float)
        One place per plant, two or more [cm].

    Returns
    -------
    list of list of float
        One row per plant, each adding up to 1 [1, 0..1].

    Notes
    -----
    One over the distance, which is taken as 5 cm at least. No radius has to be chosen, and no
    plant is without neighbours.

    Examples
    --------
    >>> inverse_distance_weights([(0, 0), (10, 0), (30, 0)])[0]
    [0.0, 0.75, 0.25]
    """
    rows = []
    for at, here in enumerate(places):
        near = [1 / max(math.dist(here, there), NEAREST_CM) for there in places]
        near[at] = 0.0
        total = sum(near)
        rows.append([one / total for one in near])
    return rows


def moran_index(grades: Sequence[float], weights: Weights) -> float | None:
    """Moran's I: are neighbours more alike than any two plants of the bed.

    Parameters
    ----------
    grades : sequence of float
        One grade per plant, in the order of the weights [one scale].
    weights : list of list of float
        One row per plant, each adding up to 1.

    Returns
    -------
    float or None
        [1, about -1..1]; about -1 / (n - 1) when there is no pattern. None for fewer than three
        plants or when all grades are equal.

    References
    ----------
    moran_1950

    Examples
    --------
    >>> round(moran_index([0, 0, 9], inverse_distance_weights([(0, 0), (10, 0), (30, 0)])), 6)
    -0.291667
    """
    if len(grades) < 3 or min(grades) == max(grades):
        return None
    mean = sum(grades) / len(grades)
    apart = [grade - mean for grade in grades]
    return _joint(apart, _pairs(weights)) / sum(one * one for one in apart)


def _pairs(weights: Weights) -> Weights:
    """Weights of each unordered pair, kept once: row i holds the pairs with earlier plants."""
    return [[one + weights[j][i] for j, one in enumerate(row[:i])] for i, row in enumerate(weights)]


def _joint(apart: Sequence[float], pairs: Weights) -> float:
    return sum(
        one * sum(map(float.__mul__, row, apart)) for one, row in zip(apart, pairs, strict=True)
    )


def moran_chance(
    grades: Sequence[float], weights: Weights, n_shufflings: int, seed: int = SEED
) -> float | None:
    """How often shuffling the grades over the plants makes the bed at least as patchy.

    Parameters
    ----------
    grades : sequence of float
        One grade per plant, in the order of the weights [one scale].
    weights : list of list of float
        One row per plant, each adding up to 1.
    n_shufflings : int
        Random orders to try [1, >= 1].
    seed : int
        Start of the shuffling, the same every time, so that the answer does not flicker.

    Returns
    -------
    float or None
        One-sided [1, above 0 and up to 1]. None where there is no index.

    Notes
    -----
    Every order is tried up to seven plants. Shuffling ends early once a hundred orders were as
    patchy, for then the bed is surely not. Above 40 plants shuffling takes long, and the normal
    distribution with the variance under shuffling stands in; it is a little too ready to see a
    pattern (0.05 where shuffling gives 0.06).

    References
    ----------
    moran_1950, besag_clifford_1991, cliff_ord_1973
    """
    index = moran_index(grades, weights)
    if index is None:
        return None
    if len(grades) > MOST_SHUFFLED:
        return _chance_if_normal(index, grades, weights)
    mean, pairs = sum(grades) / len(grades), _pairs(weights)
    apart = [grade - mean for grade in grades]
    seen = _joint(apart, pairs) - _SAME
    if len(grades) <= EVERY_ORDER:
        joints = [_joint(order, pairs) for order in itertools.permutations(apart)]
        return sum(joint >= seen for joint in joints) / len(joints)
    as_patchy = 0
    for n_tried, order in enumerate(_shufflings(apart, n_shufflings, seed), 1):
        as_patchy += _joint(order, pairs) >= seen
        if as_patchy == ENOUGH_AS_PATCHY:
            return as_patchy / n_tried
    return (1 + as_patchy) / (1 + n_shufflings)


def _chance_if_normal(index: float, grades: Sequence[float], weights: Weights) -> float:
    expected, variance = moran_moments(grades, weights)
    return math.erfc((index - expected) / math.sqrt(2 * variance)) / 2


def moran_moments(grades: Sequence[float], weights: Weights) -> tuple[float, float]:
    """Mean and variance of Moran's I over all shufflings of the grades.

    Parameters
    ----------
    grades : sequence of float
        Four or more grades, not all equal, in the order of the weights [one scale].
    weights : list of list of float
        One row per plant, each adding up to 1.

    Returns
    -------
    (float, float)
        [1]

    References
    ----------
    cliff_ord_1973
    """
    n, mean = len(grades), sum(grades) / len(grades)
    m2, m4 = (sum((grade - mean) ** power for grade in grades) / n for power in (2, 4))
    peaked = m4 / m2**2
    s1 = sum(both * both for row in _pairs(weights) for both in row)
    s2 = sum((1 + sum(column)) ** 2 for column in zip(*weights, strict=True))
    # Rows add up to 1, so the sum of all weights is n.
    usual = n * ((n * n - 3 * n + 3) * s1 - n * s2 + 3 * n * n)
    for_peak = peaked * ((n * n - n) * s1 - 2 * n * s2 + 6 * n * n)
    scale = (n - 1) * (n - 2) * (n - 3) * n * n
    expected = -1 / (n - 1)
    return expected, (usual - for_peak) / scale - expected**2


def _shufflings(values: Sequence[float], n: int, seed: int) -> Iterable[list[float]]:
    chance, order = random.Random(seed), list(values)
    for _ in range(n):
        chance.shuffle(order)
        yield order


def pattern(places: Sequence[Point], grades: Sequence[float], table: Table) -> Pattern:
    """What may be said about a pattern in one root check.

    Parameters
    ----------
    places : sequence of (float, float)
        One place per rated plant, any number [cm].
    grades : sequence of float
        One grade per rated plant, in the same order [one scale, 0..10].
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Pattern
        The same whatever the order the plants are given in.

    Notes
    -----
    With eight plants a bed whose one end is five grades worse is found out 56 times in 100, with
    sixteen 96 times, so "no sign yet" says little. False alarms: 3 to 6 in 100.

    References
    ----------
    moran_1950, our_small_simulation
    """
    n = len(grades)
    if n < judged(table, "pattern_least_plants"):
        return Pattern("too_few", n)
    plants = sorted(zip(places, (float(grade) for grade in grades), strict=True))
    values, weights = (
        [grade for _, grade in plants],
        inverse_distance_weights([p for p, _ in plants]),
    )
    index = moran_index(values, weights)
    chance = moran_chance(values, weights, int(judged(table, "pattern_shufflings")))
    if index is None or chance is None:
        return Pattern("all_equal", n)
    is_few = n < judged(table, "pattern_sure_plants")
    if chance <= judged(table, "pattern_most_chance"):
        return Pattern("hint" if is_few else "patchy", n, index, chance)
    return Pattern("no_sign_yet" if is_few else "no_sign", n, index, chance)
