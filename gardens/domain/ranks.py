"""Comparing two groups of grades by rank: exact chance, shift, and the sign test.

Not for means: a grade of 8 is worse than a grade of 4, but not proven twice as bad.
"""

import math
import statistics
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

from gardens.domain.bounded import Interval

SURE = 0.975
MOST_EXACT = 80


@dataclass(frozen=True)
class RankTest:
    """Mann and Whitney's count and its exact two-sided chance [1, above 0 and up to 1].

    ``u`` counts pairs in which the first group is higher, ties as halves [pairs, 0..n1 n2].
    """

    u: float
    chance: float


def exact_rank_test(first: Sequence[float], second: Sequence[float]) -> RankTest | None:
    """How often chance alone parts two groups as far as this.

    Parameters
    ----------
    first, second : sequence of float
        Grades of two groups, any number [one scale].

    Returns
    -------
    RankTest or None
        None when a group is empty.

    Notes
    -----
    Mid-ranks for ties; the share of all splits of the pooled grades whose rank sum is at least
    as far from the middle. Holds with ties. Above 80 plants in all, where the splits take long
    to count, the normal distribution with the correction for ties stands in.

    References
    ----------
    mann_whitney_1947

    Examples
    --------
    >>> exact_rank_test([8, 7, 9], [2, 0, 3])
    RankTest(u=9.0, chance=0.1)
    """
    n1, n2 = len(first), len(second)
    if not n1 or not n2:
        return None
    doubled = _doubled_ranks([*first, *second])
    seen, middle = sum(doubled[:n1]), n1 * (n1 + n2 + 1)
    u, far = (seen - n1 * (n1 + 1)) / 2, abs(seen - middle)
    if n1 + n2 > MOST_EXACT:
        return RankTest(u, _chance_if_normal(doubled, n1, far / 2))
    splits = _splits_by_sum(doubled, n1)
    extreme = sum(n for total, n in splits.items() if abs(total - middle) >= far)
    return RankTest(u, extreme / math.comb(n1 + n2, n1))


def _chance_if_normal(doubled: Sequence[int], n1: int, far: float) -> float:
    n = len(doubled)
    tied = sum(size**3 - size for size in Counter(doubled).values()) / (n * (n - 1))
    variance = n1 * (n - n1) * (n + 1 - tied) / 12
    if variance <= 0:
        return 1.0
    z = max(0.0, far - 0.5) / math.sqrt(variance)
    return math.erfc(z / math.sqrt(2))


def _doubled_ranks(values: Sequence[float]) -> list[int]:
    """Twice the mid-rank of every value, so that ties stay whole numbers."""
    counts = Counter(values)
    rank_of, below = {}, 0
    for value in sorted(counts):
        rank_of[value] = 2 * below + counts[value] + 1
        below += counts[value]
    return [rank_of[value] for value in values]


def _splits_by_sum(ranks: Sequence[int], size: int) -> dict[int, int]:
    """How many ways there are to draw ``size`` of the ranks, by their sum.

    One long number holds the ways for every sum, each in a slot wide enough for all of them:
    adding a rank to every sum is then one shift, and 75 plants take no minutes.
    """
    slot = math.comb(len(ranks), size).bit_length() // 8 + 1
    ways = [1] + [0] * size
    for rank in ranks:
        for drawn in range(size, 0, -1):
            ways[drawn] += ways[drawn - 1] << (8 * slot * rank)
    packed = ways[size].to_bytes((sum(ranks) + 1) * slot, "little")
    counts = (
        int.from_bytes(packed[at : at + slot], "little") for at in range(0, len(packed), slot)
    )
    return {total: n for total, n in enumerate(counts) if n}


def shift(before: Sequence[float], after: Sequence[float]) -> float | None:
    """Typical difference between two groups: the median of all differences.

    Parameters
    ----------
    before, after : sequence of float
        Grades of two groups, any number [one scale].

    Returns
    -------
    float or None
        Before minus after [same scale]; None when a group is empty.

    Notes
    -----
    With ties it jumps in whole grades, so the drop of the mean is what is shown.

    References
    ----------
    hodges_lehmann_1963

    Examples
    --------
    >>> shift([7, 8, 5, 6, 9, 4], [3, 5, 2, 4, 0, 6])
    3.0
    """
    differences = [b - a for b in before for a in after]
    return float(statistics.median(differences)) if differences else None


def shift_interval(before: Sequence[float], after: Sequence[float]) -> Interval | None:
    """Exact 95 % interval of the typical difference.

    Parameters
    ----------
    before, after : sequence of float
        Grades of two groups, any number [one scale].

    Returns
    -------
    (float, float) or None
        Before minus after [same scale]; None with so few plants that no such interval exists,
        e.g. three and three.

    Notes
    -----
    Ordered differences, cut off by the exact distribution without ties; with ties it covers
    more than it says. Above 80 plants in all the cut comes from the normal distribution.

    References
    ----------
    hodges_lehmann_1963, mann_whitney_1947

    Examples
    --------
    >>> shift_interval([7, 8, 5, 6, 9, 4], [3, 5, 2, 4, 0, 6])
    (0.0, 6.0)
    """
    n1, n2 = len(before), len(after)
    if not n1 or not n2:
        return None
    cut = _cut(n1, n2)
    if cut == 0:
        return None
    differences = sorted(b - a for b in before for a in after)
    return float(differences[cut - 1]), float(differences[-cut])


def _cut(n1: int, n2: int) -> int:
    """How many differences to leave out at either end [1, >= 0]."""
    if n1 + n2 > MOST_EXACT:
        sd = math.sqrt(n1 * n2 * (n1 + n2 + 1) / 12)
        return max(0, math.floor(n1 * n2 / 2 - NormalDist().inv_cdf(SURE) * sd))
    splits = _splits_by_sum(list(range(1, n1 + n2 + 1)), n1)
    least, total = n1 * (n1 + 1) // 2, math.comb(n1 + n2, n1)
    cut, tail = 0, splits[least]
    while 40 * tail < total:
        cut += 1
        tail += splits[least + cut]
    return cut


def sign_test(n_one_way: int, n_pairs: int) -> float | None:
    """How often chance alone sends so many pairs the same way.

    Parameters
    ----------
    n_one_way : int
        Pairs that went one way [1, 0..n_pairs].
    n_pairs : int
        Pairs that went either way; equal pairs left out [1, >= 0].

    Returns
    -------
    float or None
        Exact two-sided chance [1, above 0 and up to 1]; None without a pair.

    Notes
    -----
    One pair is one treated bed and the untreated bed beside it. Six pairs, all the same way,
    are the fewest that can be clear.

    Examples
    --------
    >>> sign_test(5, 5), sign_test(6, 6), sign_test(4, 5)
    (0.0625, 0.03125, 0.375)
    """
    if n_pairs == 0:
        return None
    fewer = min(n_one_way, n_pairs - n_one_way)
    tail = sum(math.comb(n_pairs, k) for k in range(fewer + 1))
    return min(1.0, tail / float(2 ** (n_pairs - 1)))
