"""Does a helper rate as the key does, told from practice photos.

Not for the nematode, and not for comparing helpers who rated other photos: agreement rises
with the spread of what is rated.
"""

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass, replace
from statistics import NormalDist

from gardens.domain.bounded import Interval
from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged

SURE = 0.975


@dataclass(frozen=True)
class Concordance:
    """Lin's concordance of a helper with the key, and its parts.

    ``value`` [1, -1..1] is ``precision`` (how close to a line, r) times ``accuracy`` (how close
    that line is to equality); ``scale_shift`` is the helper's spread over the key's, below 1
    when the ends are avoided; ``location_shift`` the difference of means in spreads, above 0
    when the helper rates high [1]. ``bias`` is the mean difference [grades], ``within_one`` the
    share of photos within one grade [1, 0..1]. None where a part has no value.
    """

    n: int
    value: float
    precision: float | None
    accuracy: float | None
    scale_shift: float | None
    location_shift: float | None
    bias: float
    within_one: float
    interval: Interval | None = None
    se: float | None = None


@dataclass(frozen=True)
class Practice:
    """Whether a helper passes, what is missing and what to tell.

    ``misses`` are ``"too_few_photos"``, ``"agreement"``, ``"bias"`` and ``"within_one"``;
    ``hints`` are ``"rates_high"``, ``"rates_low"`` and ``"avoids_ends"``.
    """

    passes: bool
    misses: tuple[str, ...]
    hints: tuple[str, ...]


def concordance(key: Sequence[float], helper: Sequence[float]) -> Concordance | None:
    """How closely a helper's grades are those of the key, not only in order.

    Parameters
    ----------
    key, helper : sequence of float
        Grades of the same photos in the same order, any number [one scale].

    Returns
    -------
    Concordance or None
        None for fewer than three photos. No interval when helper and key are the same, or when
        either gave one grade throughout.

    Raises
    ------
    DomainError
        ``not_the_same_photos`` when the two are not equally long.

    Notes
    -----
    Variances with 1/n. On whole grades it is the same number as kappa with squared weights,
    so that one is not told beside it. Interval after Lin's correction of 2000, by way of the
    inverse hyperbolic tangent.

    References
    ----------
    lin_1989

    Examples
    --------
    >>> found = concordance([0, 2, 4, 6, 8], [2, 4, 6, 8, 10])
    >>> found.value, found.precision, found.accuracy
    (0.8, 1.0, 0.8)
    """
    if len(key) != len(helper):
        raise DomainError("not_the_same_photos", n_key=len(key), n_helper=len(helper))
    n = len(key)
    if n < 3:
        return None
    bias = statistics.fmean(helper) - statistics.fmean(key)
    within_one = sum(abs(h - k) <= 1 for k, h in zip(key, helper, strict=True)) / n
    var_key, var_helper = statistics.pvariance(key), statistics.pvariance(helper)
    if not var_key or not var_helper:
        is_same = list(key) == list(helper)
        return Concordance(n, float(is_same), None, None, None, None, bias, within_one)
    both = statistics.covariance(key, helper) * (n - 1) / n
    v, u = math.sqrt(var_helper / var_key), bias / (var_key * var_helper) ** 0.25
    r = min(1.0, max(-1.0, both / math.sqrt(var_key * var_helper)))
    value = 2 * both / (var_key + var_helper + bias * bias)
    found = Concordance(n, value, r, 2 / (v + 1 / v + u * u), v, u, bias, within_one)
    return found if value == 0 or list(key) == list(helper) else _with_interval(found, r, u)


def _with_interval(found: Concordance, r: float, u: float) -> Concordance:
    c, c2, r2 = found.value, found.value**2, r * r
    parts = (
        (1 - r2) * c2 * (1 - c2) / r2 + 2 * c * c2 * (1 - c) * u * u / r - c2 * c2 * u**4 / (2 * r2)
    )
    if parts <= 0:
        return found
    se = math.sqrt(parts / (found.n - 2))
    z, half = math.atanh(c), NormalDist().inv_cdf(SURE) * se / (1 - c2)
    return replace(found, interval=(math.tanh(z - half), math.tanh(z + half)), se=se)


def practice(found: Concordance, n_needed: int, table: Table) -> Practice:
    """Does a helper pass, and what to tell.

    Parameters
    ----------
    found : Concordance
        Of the helper with the key.
    n_needed : int
        Photos in the practice set, the same number for each grade [1, >= 3].
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Practice
        A helper who rates every photo as the key does passes without an interval.

    Notes
    -----
    Lower limit of the agreement, mean difference and share within one grade must all hold. Of
    22 photos a good helper passes nearly always, one who rates one grade high does not. Fewer
    photos show a bias, but let nobody pass.

    References
    ----------
    lin_1989, our_small_simulation
    """
    if found.interval:
        lower = found.interval[0]
    else:
        lower = 1.0 if found.within_one == 1 and found.value > 1 - 1e-9 else -1.0
    asked = (
        ("too_few_photos", found.n < n_needed),
        ("agreement", lower < judged(table, "rater_least_agreement")),
        ("bias", abs(found.bias) > judged(table, "rater_most_bias")),
        ("within_one", found.within_one < judged(table, "rater_least_within_one")),
    )
    misses = tuple(name for name, is_missed in asked if is_missed)
    return Practice(not misses, misses, _hints(found, table))


def _hints(found: Concordance, table: Table) -> tuple[str, ...]:
    if found.location_shift is None or found.scale_shift is None:
        return ()
    high = judged(table, "rater_high_shift")
    told = (
        ("rates_high", found.location_shift > high),
        ("rates_low", found.location_shift < -high),
        ("avoids_ends", found.scale_shift < judged(table, "rater_squeezed_scale")),
    )
    return tuple(name for name, holds in told if holds)
