"""How many of a few must be looked at to find one that has it: drawing without putting back.

For a bed whose plants can be counted; ``detection`` is for a number that has no end.
"""

import math

from gardens.domain.detection import SURE
from gardens.domain.errors import DomainError


def chance_of_missing(
    n_standing: int, n_having: int, n_looked: int, recognised: float = 1.0
) -> float:
    """Chance that none is found among those looked at, though some of all have it.

    Parameters
    ----------
    n_standing : int
        All there are [units, >= 1].
    n_having : int
        Those that have it [units, 0..n_standing].
    n_looked : int
        Those looked at, each once, picked by chance [units, 0..n_standing].
    recognised : float
        Chance that one that has it is recognised [1, above 0..1].

    Returns
    -------
    float
        [1, 0..1]

    Raises
    ------
    DomainError
        ``not_a_share`` or ``negative``.

    Notes
    -----
    The sum over j of C(K, j) C(N - K, n - j) / C(N, n) (1 - e)^j.

    References
    ----------
    hypergeometric, chen_2011_detection

    Examples
    --------
    >>> round(chance_of_missing(12, 3, 6), 4), chance_of_missing(12, 3, 12)
    (0.0909, 0.0)
    """
    if not 0 < recognised <= 1:
        raise DomainError("not_a_share", recognised=recognised)
    if not (0 <= n_having <= n_standing and 0 <= n_looked <= n_standing):
        raise DomainError("negative", n_standing=n_standing, n_having=n_having, n_looked=n_looked)
    every = math.comb(n_standing, n_looked)
    return sum(
        math.comb(n_having, j)
        * math.comb(n_standing - n_having, n_looked - j)
        / every
        * (1 - recognised) ** j
        for j in range(min(n_having, n_looked) + 1)
    )


def units_of_few(
    n_standing: int, n_having: int, sure: float = SURE, recognised: float = 1.0
) -> int | None:
    """Units to look at to find one, when so many of so few have it.

    Parameters
    ----------
    n_standing : int
        All there are [units, >= 1].
    n_having : int
        Those that have it [units, 1..n_standing].
    sure : float
        [1, above 0 and below 1]
    recognised : float
        Chance that one that has it is recognised [1, above 0..1].

    Returns
    -------
    int or None
        [units, 1..n_standing]; None when even all of them would not be enough.

    Raises
    ------
    DomainError
        ``not_a_share`` or ``negative``.

    References
    ----------
    hypergeometric, chen_2011_detection

    Examples
    --------
    >>> units_of_few(100, 5), units_of_few(20, 2), units_of_few(20, 1, 0.95, 0.5)
    (45, 16, None)
    """
    if not 0 < sure < 1:
        raise DomainError("not_a_share", sure=sure)
    if chance_of_missing(n_standing, n_having, n_standing, recognised) > 1 - sure:
        return None
    low, high = 0, n_standing
    while high - low > 1:
        middle = (low + high) // 2
        enough = chance_of_missing(n_standing, n_having, middle, recognised) <= 1 - sure
        low, high = (low, middle) if enough else (middle, high)
    return high
