"""Quantiles of Student's t distribution, with nothing but the standard library.

Not for other distributions: the beta distribution, on which this rests, is beside it.
"""

from functools import lru_cache

from gardens.domain.beta import beta_share

_CLOSE = 1e-15


@lru_cache(maxsize=4096)
def t_quantile(share: float, degrees: float) -> float:
    """Value of t below which a share of Student's distribution lies.

    Parameters
    ----------
    share : float
        [1, above 0.5 and below 1]
    degrees : float
        Degrees of freedom [1, >= 1].

    Returns
    -------
    float
        [1, > 0], to about nine digits.

    Notes
    -----
    Bisection on P(T > t) = I_x(degrees / 2, 1 / 2) / 2 with x = degrees / (degrees + t^2).

    Examples
    --------
    >>> round(t_quantile(0.975, 7), 4)
    2.3646
    """
    low, high = 0.0, 1.0
    while _beyond(high, degrees) > 1.0 - share:
        high *= 2.0
    for _ in range(200):
        middle = (low + high) / 2.0
        if _beyond(middle, degrees) > 1.0 - share:
            low = middle
        else:
            high = middle
        if high - low <= _CLOSE * high:
            break
    return (low + high) / 2.0


def _beyond(t: float, degrees: float) -> float:
    if t == 0.0:
        return 0.5
    return beta_share(degrees / 2.0, 0.5, degrees / (degrees + t * t)) / 2.0
