"""An interval for the mean of a few grades on a scale that ends at 0 and at 10.

Not for counts, and not for grades of the plants that looked worst.
"""

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from gardens.domain.student import t_quantile

TOP_GRADE = 10
SURE = 0.975

Interval = tuple[float, float]


@dataclass(frozen=True)
class Spread:
    """How grades vary: a share of the largest possible variance [1, 0.02..1].

    ``has_floor`` when the grades vary less than is believed of a bed near one end.
    """

    share: float
    has_floor: bool


def mean_interval(grades: Sequence[float], n_plants: int | None = None) -> Interval | None:
    """95 % interval for the mean grade of a bed from a few of its plants.

    Parameters
    ----------
    grades : sequence of float
        One grade per plant dug, any number [one scale, 0..10].
    n_plants : int or None
        Plants that stood in the bed [1, more than were dug]; None when nobody counted.

    Returns
    -------
    (float, float) or None
        Low and high end [same scale, 0..10]; None for two plants or fewer and when every
        plant of the bed was dug.

    Notes
    -----
    Wilson's score interval with a quasi-binomial variance: our own construction, not a
    textbook interval. Where nearly all grades are at one end the variance has a floor, so
    that five grades of 0 do not claim certainty. Holds for plants chosen without looking at
    their tops; it covers the difference between plants, not the rater's eye.

    References
    ----------
    our_bounded_interval, wilson_1927

    Examples
    --------
    >>> [round(end, 6) for end in mean_interval([0, 1, 1, 2, 3, 5])]
    [0.807342, 4.157667]
    """
    if len(grades) <= 2:
        return None
    return interval_at(statistics.fmean(grades), spread_of(grades), len(grades), n_plants)


def spread_of(grades: Sequence[float]) -> Spread:
    """How much grades vary, as a share of the most that a bounded scale allows.

    Parameters
    ----------
    grades : sequence of float
        Two or more grades [one scale, 0..10].

    Returns
    -------
    Spread
        Never less than 0.02, and than 0.30 where all grades are at one end.

    References
    ----------
    our_bounded_interval
    """
    n, share = len(grades), statistics.fmean(grades) / TOP_GRADE
    softened = (sum(grades) / TOP_GRADE + 0.5) / (n + 1)
    seen = statistics.variance(grades) / TOP_GRADE**2 / (softened * (1 - softened))
    floor = max(0.02, 0.30 * max(0.0, 1 - min(share, 1 - share) / 0.15))
    return Spread(min(1.0, max(seen, floor)), floor > seen)


def interval_at(mean: float, spread: Spread, n: int, n_plants: int | None) -> Interval | None:
    """95 % interval that ``n`` plants with this mean and spread would give.

    Parameters
    ----------
    mean : float
        Mean grade [one scale, 0..10].
    spread : Spread
        Of the grades seen.
    n : int
        Plants dug, or thought of [1, >= 2].
    n_plants : int or None
        Plants that stood in the bed [1, >= n]; None when nobody counted.

    Returns
    -------
    (float, float) or None
        Low and high end [same scale, 0..10]; None when that is every plant of the bed.

    References
    ----------
    our_bounded_interval
    """
    if n_plants is not None and n_plants <= n:
        return None
    share = mean / TOP_GRADE
    sized = n if n_plants is None else n * (n_plants - 1) / (n_plants - n)
    n_effective = sized / spread.share
    q = t_quantile(SURE, max(n - 1, 3) if spread.has_floor else n - 1)
    pull = q * q / n_effective
    centre = (share + pull / 2) / (1 + pull)
    half = q * math.sqrt(share * (1 - share) / n_effective + pull / (4 * n_effective)) / (1 + pull)
    return TOP_GRADE * max(0.0, centre - half), TOP_GRADE * min(1.0, centre + half)
