"""Cores for counts whose variance is a power of their mean, and Green's stop line.

Needs Taylor's two numbers from somebody's trial; never fitted from a garden's few beds.
"""

import math

from gardens.domain.errors import DomainError
from gardens.domain.sampling import above_zero
from gardens.domain.student import t_quantile

SURE = 0.975
_ROUNDS = 200


def cores_needed_taylor(mean: float, a: float, b: float, precision: float, t: float = 1) -> float:
    """Cores for a precision, for counts whose variance is a m^b.

    Parameters
    ----------
    mean : float
        [unit of the fit, > 0]
    a, b : float
        Taylor's numbers [of the fit, a > 0]; never fitted from a garden's few beds.
    precision : float
        D, standard error over mean [1, > 0]; half the width of an interval over the mean
        when ``t`` is given.
    t : float
        1 for the standard error, about 2 for a 95 % half width [1, > 0].

    Returns
    -------
    float
        [cores, > 0]

    Raises
    ------
    DomainError
        ``not_above_zero``.

    Notes
    -----
    n = t^2 a m^(b-2) / D^2. The published table rounds to the nearest core.

    References
    ----------
    taylor_power_law, abd_elgawad_2020

    Examples
    --------
    >>> [round(cores_needed_taylor(m, 2.92, 1.47, 0.10)) for m in (5, 8)]
    [124, 97]
    """
    above_zero(mean=mean, a=a, precision=precision, t=t)
    return t * t * a * math.pow(mean, b - 2) / precision**2


def cores_for_half_width(mean: float, a: float, b: float, half_width: float) -> float:
    """Cores for a 95 % half width, with Student's t for the number of cores itself.

    Parameters
    ----------
    mean : float
        [unit of the fit, > 0]
    a, b : float
        Taylor's numbers [of the fit, a > 0].
    half_width : float
        Half the width of the interval over the mean [1, > 0].

    Returns
    -------
    float
        [cores, >= 2]

    Raises
    ------
    DomainError
        ``not_above_zero``.

    Notes
    -----
    n = t(n - 1)^2 a m^(b-2) / D^2, gone round until it stays.

    References
    ----------
    taylor_power_law, abd_elgawad_2020

    Examples
    --------
    >>> [round(cores_for_half_width(m, 2.92, 1.47, 0.10)) for m in (5, 8)]
    [480, 375]
    """
    once = cores_needed_taylor(mean, a, b, half_width)
    n = max(2.0, 4 * once)
    for _ in range(_ROUNDS):
        before, t = n, t_quantile(SURE, max(1.0, n - 1))
        n = max(2.0, t * t * once)
        if abs(n - before) < 1e-9 * n:
            break
    return n


def stop_line(n_cores: int, a: float, b: float, precision: float) -> float:
    """Green's stop line: the running total at which counting single cores may end.

    Parameters
    ----------
    n_cores : int
        Cores counted so far, each by itself [cores, >= 1].
    a, b : float
        Taylor's numbers [of the fit, a > 0, b not 2].
    precision : float
        D, standard error over mean [1, > 0].

    Returns
    -------
    float
        T, stop when the total is at or above it [nematodes, > 0].

    Raises
    ------
    DomainError
        ``not_above_zero``; ``no_stop_line`` for b = 2, where the line stands upright.

    Notes
    -----
    T = (D^2 / a)^(1/(b-2)) n^((b-1)/(b-2)). With a = b = 1 it says: count to 1 / D^2.

    References
    ----------
    green_1970, taylor_power_law

    Examples
    --------
    >>> [round(stop_line(n, 2.92, 1.47, 0.25), 1) for n in (5, 10, 20)]
    [339.0, 183.3, 99.1]
    """
    above_zero(n_cores=n_cores, a=a, precision=precision)
    if b == 2:
        raise DomainError("no_stop_line", b=b)
    return math.pow(precision**2 / a, 1 / (b - 2)) * math.pow(n_cores, (b - 1) / (b - 2))
