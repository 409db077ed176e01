"""How many plants of a bed are galled, and how many could be when few or none were found.

Not for how badly they are galled: that is the mean grade.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

from gardens.domain.beta import beta_quantile
from gardens.domain.bounded import Interval

SURE = 0.975
AT_MOST_SURE = 0.95


@dataclass(frozen=True)
class Incidence:
    """Galled plants of those dug, and what that says of the bed.

    ``code`` is ``"none_rated"``, ``"picked"`` (the worst-looking plants: no share of the bed),
    ``"whole_bed"``, ``"some_galled"`` or ``"none_galled"``. ``low`` and ``high`` are the share
    of the bed [1, 0..1]; ``at_most`` is the most galled plants a bed of known size could hold
    when none was found [plants, >= 0].
    """

    code: str
    n_galled: int
    n_dug: int
    n_plants: int | None = None
    low: float | None = None
    high: float | None = None
    at_most: int | None = None


def wilson_interval(n_galled: int, n_dug: int, sure: float = SURE) -> Interval | None:
    """Interval for the share of galled plants, by Wilson's score.

    Parameters
    ----------
    n_galled : int
        Plants with a gall [1, 0..n_dug].
    n_dug : int
        Plants rated [1, >= 0].
    sure : float
        Share below the upper end [1, above 0.5 and below 1]; 0.975 gives 95 %.

    Returns
    -------
    (float, float) or None
        Low and high end [1, 0..1]; None when no plant was rated.

    Notes
    -----
    For plants chosen without looking at their tops, from a bed much larger than the number dug.

    References
    ----------
    wilson_1927, newcombe_1998_single

    Examples
    --------
    >>> [round(end, 4) for end in wilson_interval(81, 263)]
    [0.2553, 0.3662]
    """
    if n_dug == 0:
        return None
    share, z = n_galled / n_dug, NormalDist().inv_cdf(sure)
    pull = z * z / n_dug
    centre = (share + pull / 2) / (1 + pull)
    half = z * math.sqrt(share * (1 - share) / n_dug + pull / (4 * n_dug)) / (1 + pull)
    low = 0.0 if n_galled == 0 else centre - half
    return low, 1.0 if n_galled == n_dug else centre + half


def exact_interval(n_galled: int, n_dug: int, sure: float = SURE) -> Interval | None:
    """Interval for the share of galled plants that never covers less than it says.

    Parameters
    ----------
    n_galled : int
        Plants with a gall [1, 0..n_dug].
    n_dug : int
        Plants rated [1, >= 0].
    sure : float
        Share below the upper end [1, above 0.5 and below 1]; 0.975 gives 95 %.

    Returns
    -------
    (float, float) or None
        Low and high end [1, 0..1]; None when no plant was rated.

    Notes
    -----
    Clopper and Pearson's; wider than Wilson's. Used where the sentence says "at most".

    References
    ----------
    clopper_pearson_1934

    Examples
    --------
    >>> [round(end, 4) for end in exact_interval(15, 148)]
    [0.0578, 0.1617]
    """
    if n_dug == 0:
        return None
    k, n = n_galled, n_dug
    low = 0.0 if k == 0 else beta_quantile(1 - sure, k, n - k + 1)
    return low, 1.0 if k == n else beta_quantile(sure, k + 1, n - k)


def at_most_share(n_galled: int, n_dug: int) -> float | None:
    """Largest share of galled plants that would still give so few, 1 time in 20.

    Parameters
    ----------
    n_galled : int
        Plants with a gall [1, 0..n_dug].
    n_dug : int
        Plants rated [1, >= 0].

    Returns
    -------
    float or None
        [1, 0..1]; None when no plant was rated.

    Notes
    -----
    One-sided 95 %. When none was galled this is 1 - 0.05^(1/n).

    References
    ----------
    clopper_pearson_1934

    Examples
    --------
    >>> round(at_most_share(0, 5), 5)
    0.45072
    """
    ends = exact_interval(n_galled, n_dug, AT_MOST_SURE)
    return ends[1] if ends else None


def most_galled(n_dug: int, n_plants: int) -> int:
    """Most galled plants a bed could hold when none of those dug was galled.

    Parameters
    ----------
    n_dug : int
        Plants rated, none of them galled [1, 0..n_plants].
    n_plants : int
        Plants that stood in the bed [1, >= n_dug].

    Returns
    -------
    int
        [plants, 0..n_plants - n_dug]; with more, finding none would happen less than 1 time
        in 20.

    Notes
    -----
    Drawing without putting back, in whole numbers: the largest K for which
    C(N - K, n) / C(N, n) is above 0.05.

    References
    ----------
    hypergeometric

    Examples
    --------
    >>> [most_galled(n, 12) for n in (2, 4, 6, 8, 10, 12)]
    [8, 5, 3, 2, 1, 0]
    """
    every = math.comb(n_plants, n_dug)
    galled = n_plants - n_dug
    while galled > 0 and 20 * math.comb(n_plants - galled, n_dug) <= every:
        galled -= 1
    return galled


def incidence(grades: Sequence[float], how: str, is_whole: bool, n_plants: int | None) -> Incidence:
    """Galled plants of those dug, and the honest thing to say of the bed.

    Parameters
    ----------
    grades : sequence of float
        One grade per rated plant, any number [one scale, 0..10].
    how : str
        ``"all"``, ``"every_kth"``, ``"random"`` or ``"worst_looking"``.
    is_whole : bool
        Whether every plant of the bed was dug.
    n_plants : int or None
        Plants that stood in the bed [1, >= number rated]; None when nobody counted.

    Returns
    -------
    Incidence
        A code with the numbers its sentence needs.

    References
    ----------
    wilson_1927, clopper_pearson_1934, hypergeometric

    Examples
    --------
    >>> incidence([0] * 6, "random", False, 12).at_most
    3
    """
    n_galled, n = sum(grade > 0 for grade in grades), len(grades)
    for code, holds in (
        ("none_rated", n == 0),
        ("picked", how == "worst_looking"),
        ("whole_bed", is_whole),
    ):
        if holds:
            return Incidence(code, n_galled, n, n_plants)
    if n_galled:
        low, high = wilson_interval(n_galled, n) or (0.0, 1.0)
        return Incidence("some_galled", n_galled, n, n_plants, low, high)
    at_most = None if n_plants is None else most_galled(n, n_plants)
    return Incidence("none_galled", 0, n, n_plants, 0.0, at_most_share(0, n), at_most)


def severity_index(counts: Sequence[int], top: int) -> float | None:
    """Disease severity index: the sum of all grades as a share of the largest there could be.

    Parameters
    ----------
    counts : sequence of int
        Plants with grade 0, 1, 2 and so on, ``top`` + 1 of them at most [1, >= 0].
    top : int
        Highest grade of the scale [1, >= 1].

    Returns
    -------
    float or None
        [%, 0..100]; None when there is no plant.

    Notes
    -----
    On a 0-to-10 scale this is ten times the mean grade, so the two are never shown as two
    pieces of evidence. On scales whose classes are not equally wide it comes out too high.

    References
    ----------
    mckinney_1923, chiang_liu_bock_2017

    Examples
    --------
    >>> severity_index([2, 3, 4, 1, 0, 0], 5)
    28.0
    """
    n = sum(counts)
    if n == 0:
        return None
    return 100 * sum(grade * count for grade, count in enumerate(counts)) / (top * n)
