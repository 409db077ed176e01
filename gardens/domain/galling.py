"""What a root check says about a bed: mean, spread, and how sure that is.

Not for comparing beds or years, and never across scales.
"""

import math
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.bounded import TOP_GRADE, Interval, mean_interval
from gardens.domain.errors import DomainError


@dataclass(frozen=True)
class Reading:
    """What one person saw on one plant; ``grade`` only when ``state`` is ``"rated"``.

    Readings with the same ``plant`` are of one plant: two people, or one who looked again.
    ``None`` stands for a plant of its own.
    """

    state: str
    grade: int | None
    gall_scale: str
    plant: str | None = None


@dataclass(frozen=True)
class Summary:
    """A root check in numbers; None where nothing was rated.

    A plant read more than once counts once, with the mean of its readings. ``counts`` holds how
    many readings had each grade, 0 to 10; grades are those of ``gall_scale`` [0..10];
    ``n_galled`` counts plants with any grade above 0.
    """

    gall_scale: str | None
    n_rated: int
    n_missing: int
    n_dead: int
    n_galled: int
    mean: float | None
    median: float | None
    lowest: int | None
    highest: int | None
    counts: tuple[int, ...]


@dataclass(frozen=True)
class Sureness:
    """How sure a mean is: an interval, or the reason why there is none.

    ``why`` is ``"interval"`` (then ``low`` and ``high`` are set), ``"none_rated"``,
    ``"too_few"``, ``"picked"`` (the worst-looking plants), ``"whole_bed"`` (nothing left to
    guess) or ``"unfinished"`` (all were to be dug, and
    are not yet as far as anybody noted).
    """

    why: str
    low: float | None = None
    high: float | None = None


def read_reading(part: Mapping[str, object], plant: str | None = None) -> Reading:
    """Reading from the wire composite ``gall_rating.reading``.

    Parameters
    ----------
    part : Mapping
        A checked ``gall_rating.reading``.
    plant : str or None
        Which plant it is of (see ``plant_key``).

    Returns
    -------
    Reading
        The same as a plain value.
    """
    grade = part["grade"]
    assert grade is None or isinstance(grade, int)
    return Reading(str(part["state"]), grade, str(part["gall_scale"]), plant)


def plant_key(place: Mapping[str, object]) -> str:
    """Key of the plant, or of the spot when its plants were never laid out.

    Parameters
    ----------
    place : Mapping
        A checked ``gall_rating.place``.

    Returns
    -------
    str
        The same for every reading of that plant within one check.
    """
    if place["plant"] is None:
        return f"spot {place['x_cm']} {place['y_cm']}"
    return f"plant {place['plant']}"


def plant_grades(readings: Sequence[Reading]) -> list[float]:
    """One grade for each rated plant, in the order the plants were first read.

    Parameters
    ----------
    readings : sequence of Reading
        Any number, all on one scale.

    Returns
    -------
    list of float
        Mean of each plant's readings [0..10].

    Examples
    --------
    >>> plant_grades([Reading("rated", 3, "pct10", "a"), Reading("rated", 4, "pct10", "a")])
    [3.5]
    """
    return [statistics.fmean(grades) for grades in _grades_by_plant(readings) if grades]


def _plants(readings: Sequence[Reading]) -> list[list[Reading]]:
    plants: dict[object, list[Reading]] = {}
    for number, one in enumerate(readings):
        plants.setdefault(number if one.plant is None else one.plant, []).append(one)
    return list(plants.values())


def _grades_by_plant(readings: Sequence[Reading]) -> list[list[int]]:
    return [
        [one.grade for one in plant if one.state == "rated" and one.grade is not None]
        for plant in _plants(readings)
    ]


def _n_only(state: str, readings: Sequence[Reading]) -> int:
    """Plants that nobody rated and whose last reading has that state [1, >= 0]."""
    return sum(
        plant[-1].state == state and all(one.state != "rated" for one in plant)
        for plant in _plants(readings)
    )


def summarize(readings: Sequence[Reading]) -> Summary:
    """Count and average one root check.

    Parameters
    ----------
    readings : sequence of Reading
        Any number of plants, all on one scale; readings of one plant in the order they were made.

    Returns
    -------
    Summary
        Missing and dead plants are counted apart and are never grade 0.

    Raises
    ------
    DomainError
        ``scales_differ`` when rated plants are on more than one scale.

    Examples
    --------
    >>> found = summarize([Reading("rated", g, "pct10") for g in (0, 0, 0, 1, 3, 3)])
    >>> found.mean, found.median, found.n_galled
    (1.1666666666666667, 0.5, 3)
    """
    scales = {one.gall_scale for one in readings if one.state == "rated"}
    if len(scales) > 1:
        raise DomainError("scales_differ", gall_scales=sorted(scales))
    every = [grade for grades in _grades_by_plant(readings) for grade in grades]
    means = plant_grades(readings)
    return Summary(
        gall_scale=scales.pop() if scales else None,
        n_rated=len(means),
        n_missing=_n_only("missing", readings),
        n_dead=_n_only("dead", readings),
        n_galled=sum(mean > 0 for mean in means),
        mean=statistics.fmean(means) if means else None,
        median=statistics.median(means) if means else None,
        lowest=min(every, default=None),
        highest=max(every, default=None),
        counts=tuple(every.count(grade) for grade in range(TOP_GRADE + 1)),
    )


def sureness(
    readings: Sequence[Reading],
    how: str,
    n_plants_stood: int | None,
    *,
    n_laid_out: int | None = None,
) -> Sureness:
    """How sure the mean of a root check is, given how its plants were chosen.

    Parameters
    ----------
    readings : sequence of Reading
        Any number of plants, all on one scale.
    how : str
        ``"all"``, ``"every_kth"``, ``"random"`` or ``"worst_looking"``.
    n_plants_stood : int or None
        Plants that stood in the bed [1, 1..2000].
    n_laid_out : int or None
        Places the planting was drawn with [1, >= 0]; tells a bed dug whole from one begun
        where nobody counted, and never narrows an interval.

    Returns
    -------
    Sureness
        An interval, or why there is none.

    References
    ----------
    our_bounded_interval
    """
    summary = summarize(readings)
    if summary.n_rated == 0:
        return Sureness("none_rated")
    if how == "worst_looking":
        return Sureness("picked")
    # Where nobody counted and nothing was drawn, no number of plants is known to be all.
    n_in_bed = n_laid_out or None if n_plants_stood is None else n_plants_stood
    if n_in_bed is not None and len(_plants(readings)) >= n_in_bed:
        return Sureness("whole_bed")
    if how == "all":
        return Sureness("unfinished")
    ends = mean_interval(plant_grades(readings), n_plants_stood)
    return Sureness("interval", *ends) if ends else Sureness("too_few")


def rounded_outward(low: float, high: float) -> Interval:
    """Interval as it is shown: one decimal, never narrower than it is.

    Parameters
    ----------
    low, high : float
        Ends of an interval [one scale, 0..10].

    Returns
    -------
    (float, float)
        Both ends to one decimal [same scale, 0..10].

    Examples
    --------
    >>> rounded_outward(0.807342, 4.157667)
    (0.8, 4.2)
    """
    return math.floor(round(low * 10, 6)) / 10, math.ceil(round(high * 10, 6)) / 10
