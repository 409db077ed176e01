"""Do several helpers rate the same plants alike, when there is no key.

Not for saying who is right.
"""

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.judgements import Table, judged

Ratings = Sequence[Sequence[float | None]]


@dataclass(frozen=True)
class Raters:
    """Whether ratings of several helpers may be put together.

    ``code`` is ``"too_few"``, ``"no_spread"``, ``"may_be_mixed"`` or ``"differ_too_much"``;
    ``alpha`` [1, up to 1] is 1 when all agree and 0 when they agree as chance would.
    """

    code: str
    n_raters: int
    n_shared: int
    alpha: float | None = None


def ordinal_alpha(ratings: Ratings) -> float | None:
    """Krippendorff's alpha for grades in order.

    Parameters
    ----------
    ratings : sequence of sequences of float or None
        One row per rater, any number, each with one grade per plant in the same order; None
        where a rater did not rate [one scale].

    Returns
    -------
    float or None
        [1, up to 1]; None when no plant was rated twice, or when all grades are equal.

    Notes
    -----
    Plants with one rating are left out. The distance of two grades counts the ratings between
    them, so steps need not be equal. Other packages mean other weights by "ordinal".

    References
    ----------
    krippendorff_2011

    Examples
    --------
    >>> round(ordinal_alpha([[1, 2, 3, 4], [1, 2, 3, 4]]), 6)
    1.0
    """
    together = _coincidences(ratings)
    sizes: dict[float, float] = {}
    for (one, _), weight in together.items():
        sizes[one] = sizes.get(one, 0.0) + weight
    n, far = sum(sizes.values()), _squared_distances(sizes)
    by_chance = sum(sizes[a] * sizes[b] * far[a, b] for a in sizes for b in sizes)
    if not by_chance:
        return None
    return 1 - (n - 1) * sum(w * far[pair] for pair, w in together.items()) / by_chance


def _coincidences(ratings: Ratings) -> dict[tuple[float, float], float]:
    """How often two grades met on one plant; each plant weighs as many as its ratings."""
    together: dict[tuple[float, float], float] = {}
    for column in zip(*ratings, strict=True):
        given = [grade for grade in column if grade is not None]
        for pair in itertools.permutations(given, 2):
            together[pair] = together.get(pair, 0.0) + 1 / (len(given) - 1)
    return together


def _squared_distances(sizes: Mapping[float, float]) -> dict[tuple[float, float], float]:
    order = sorted(sizes)
    up_to = dict(zip(order, itertools.accumulate(sizes[g] for g in order), strict=True))
    middle = {grade: up_to[grade] - sizes[grade] / 2 for grade in order}
    return {(a, b): (middle[a] - middle[b]) ** 2 for a in order for b in order}


def raters_agree(ratings: Ratings, table: Table) -> Raters:
    """What may be said about several helpers who rated the same plants.

    Parameters
    ----------
    ratings : sequence of sequences of float or None
        One row per rater, any number, each with one grade per plant in the same order; None
        where a rater did not rate [one scale].
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Raters
        Nothing is shown for one rater or for few shared plants.

    Notes
    -----
    The usual limit, from memory, is 0.67, and 0.80 for firm conclusions.

    References
    ----------
    krippendorff_2011
    """
    n_raters = sum(any(grade is not None for grade in row) for row in ratings)
    columns = zip(*ratings, strict=True)
    n_shared = sum(sum(grade is not None for grade in column) >= 2 for column in columns)
    if n_raters < 2 or n_shared < judged(table, "raters_least_shared"):
        return Raters("too_few", n_raters, n_shared)
    alpha = ordinal_alpha(ratings)
    if alpha is None:
        return Raters("no_spread", n_raters, n_shared)
    is_alike = alpha >= judged(table, "raters_least_alpha")
    return Raters("may_be_mixed" if is_alike else "differ_too_much", n_raters, n_shared, alpha)
