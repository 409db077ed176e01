"""The gamma distribution: share below a value, and its quantiles; standard library only.

Not a statistics library: chi-squared shares and exact Poisson limits lean on it.
"""

import math

_STEPS = 2000
_CLOSE = 1e-16
_NARROW = 1e-15


def gamma_share(a: float, x: float) -> float:
    """Share of the gamma distribution below a value: the incomplete gamma function P(a, x).

    Parameters
    ----------
    a : float
        Shape [1, above 0].
    x : float
        [1, any]

    Returns
    -------
    float
        [1, 0..1], to about twelve digits.

    Notes
    -----
    By its series. Up to y counted of a Poisson mean m is 1 - P(y + 1, m).

    Examples
    --------
    >>> round(gamma_share(2, 3), 10)
    0.8008517265
    """
    if x <= 0:
        return 0.0
    front = a * math.log(x) - x - math.lgamma(a + 1)
    if x > a + 40 * math.sqrt(a) + 40:
        return 1.0
    term, total = 1.0, 1.0
    for step in range(1, _STEPS + int(4 * x)):
        term *= x / (a + step)
        total += term
        if term < _CLOSE * total:
            break
    return min(1.0, math.exp(front) * total)


def gamma_quantile(share: float, a: float) -> float:
    """Value below which a share of the gamma distribution lies.

    Parameters
    ----------
    share : float
        [1, above 0 and below 1]
    a : float
        Shape [1, above 0].

    Returns
    -------
    float
        [1, > 0], to about nine digits.

    Examples
    --------
    The largest mean that still gives a count of nothing one time in twenty:

    >>> round(gamma_quantile(0.95, 1), 7)
    2.9957323
    """
    low, high = 0.0, a + 1.0
    while gamma_share(a, high) < share:
        high *= 2
    for _ in range(200):
        middle = (low + high) / 2
        if gamma_share(a, middle) < share:
            low = middle
        else:
            high = middle
        if high - low <= _NARROW * high:
            break
    return (low + high) / 2
