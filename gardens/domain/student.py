"""Quantiles of Student's t distribution, with nothing but the standard library.

Not a statistics library: this one quantile is all the core needs.
"""

import math

_STEPS = 300
_CLOSE = 1e-15
_TINY = 1e-300


def _continued_fraction(a: float, b: float, x: float) -> float:
    """Continued fraction of the incomplete beta function, by Lentz's method."""
    above, below = 1.0, 1.0 / _nonzero(1.0 - (a + b) * x / (a + 1.0))
    value = below
    for m in range(1, _STEPS):
        even = m * (b - m) * x / ((a + 2 * m - 1.0) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1.0))
        for term in (even, odd):
            below = 1.0 / _nonzero(1.0 + term * below)
            above = _nonzero(1.0 + term / above)
            change = above * below
            value *= change
        if abs(change - 1.0) < _CLOSE:
            break
    return value


def _nonzero(value: float) -> float:
    return value if abs(value) > _TINY else _TINY


def _beta_share(a: float, b: float, x: float) -> float:
    """Regularised incomplete beta function I_x(a, b) for x in (0, 1)."""
    logged = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
    front = math.exp(logged + a * math.log(x) + b * math.log1p(-x))
    if x < (a + 1.0) / (a + b + 2.0):
        return front * _continued_fraction(a, b, x) / a
    return 1.0 - front * _continued_fraction(b, a, 1.0 - x) / b


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
    return _beta_share(degrees / 2.0, 0.5, degrees / (degrees + t * t)) / 2.0
