"""The beta distribution: share below a value, and its quantiles; standard library only.

Not a statistics library: Student's t, exact intervals of shares and clumped counts lean on it.
"""

import math

_STEPS = 300
_CLOSE = 1e-15
_TINY = 1e-300


def beta_share(a: float, b: float, x: float) -> float:
    """Share of the beta distribution below a value: the incomplete beta function I_x(a, b).

    Parameters
    ----------
    a, b : float
        Shapes [1, above 0].
    x : float
        [1, 0..1]

    Returns
    -------
    float
        [1, 0..1], to about twelve digits.

    Notes
    -----
    The continued fraction of the incomplete beta function, by Lentz's method. The negative
    binomial distribution is I_{k/(k+m)}(k, y + 1) for mean m, clumping k and up to y counted.

    Examples
    --------
    >>> round(beta_share(2, 3, 0.5), 10)
    0.6875
    """
    if x <= 0.0 or x >= 1.0:
        return 0.0 if x <= 0.0 else 1.0
    logged = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
    front = math.exp(logged + a * math.log(x) + b * math.log1p(-x))
    if x < (a + 1.0) / (a + b + 2.0):
        return front * _continued_fraction(a, b, x) / a
    return 1.0 - front * _continued_fraction(b, a, 1.0 - x) / b


def _continued_fraction(a: float, b: float, x: float) -> float:
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


def beta_quantile(share: float, a: float, b: float) -> float:
    """Value below which a share of the beta distribution lies.

    Parameters
    ----------
    share : float
        [1, above 0 and below 1]
    a, b : float
        Shapes [1, above 0].

    Returns
    -------
    float
        [1, 0..1], to about nine digits.

    Examples
    --------
    >>> round(beta_quantile(0.95, 1, 5), 5)
    0.45072
    """
    low, high = 0.0, 1.0
    for _ in range(200):
        middle = (low + high) / 2.0
        if beta_share(a, b, middle) < share:
            low = middle
        else:
            high = middle
        if high - low <= _CLOSE * high:
            break
    return (low + high) / 2.0
