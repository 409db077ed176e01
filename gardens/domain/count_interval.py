"""How unsure one lab count is, before anything else went wrong.

Needs what was really counted; a report rounded to "per 100 cm3" hides that.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from gardens.domain.beta import beta_share
from gardens.domain.errors import DomainError
from gardens.domain.gamma import gamma_share

Interval = tuple[float, float]

TAIL = 0.025
_HALVINGS = 200
_NARROW = 1e-13


@dataclass(frozen=True)
class Examined:
    """What a lab looked at.

    ``volume_cm3`` is the soil extracted [cm3, > 0], ``efficiency`` the share of its nematodes
    that came out [1, above 0..1], ``counted_share`` the share of the extract that was counted
    [1, above 0..1].
    """

    volume_cm3: float
    efficiency: float
    counted_share: float = 1.0

    def __post_init__(self) -> None:
        if not self.volume_cm3 > 0:
            raise DomainError("not_above_zero", volume_cm3=self.volume_cm3)
        if not (0 < self.efficiency <= 1 and 0 < self.counted_share <= 1):
            raise DomainError(
                "not_a_share", efficiency=self.efficiency, counted_share=self.counted_share
            )

    @property
    def exposure(self) -> float:
        """Nematodes counted for each in 100 cm3 of the bed [1, > 0]."""
        return self.volume_cm3 / 100 * self.efficiency * self.counted_share

    @property
    def step(self) -> float:
        """What one more counted nematode adds to the lab's figure [per 100 cm3, > 0]."""
        return 100 / (self.volume_cm3 * self.counted_share)


def pooled_k(n_cores: int | None, k: float) -> float | None:
    """Clumping left in a mixed sample.

    Parameters
    ----------
    n_cores : int or None
        Cores that were mixed [cores, >= 1]; None when that is not known.
    k : float
        Clumping between single cores [1, > 0].

    Returns
    -------
    float or None
        Cores times k [1, > 0]; None for no clumping, which understates what is unsure.

    Notes
    -----
    Negative binomial cores add up to one with n k; taking a part of the mix changes nothing.

    References
    ----------
    negative_binomial

    Examples
    --------
    >>> pooled_k(10, 0.5)
    5.0
    """
    if n_cores is None:
        return None
    if n_cores < 1 or not k > 0:
        raise DomainError("not_above_zero", n_cores=n_cores, k=k)
    return n_cores * k


def up_to(counted: int, mean: float, k: float | None) -> float:
    """Chance of counting so many or fewer.

    Parameters
    ----------
    counted : int
        y [nematodes, >= 0].
    mean : float
        Expected count [nematodes, > 0].
    k : float or None
        Clumping of the sample [1, > 0]; None for none (Poisson).

    Returns
    -------
    float
        [1, 0..1]

    References
    ----------
    negative_binomial, poisson

    Examples
    --------
    >>> round(up_to(0, 2, None), 6)
    0.135335
    """
    if k is None:
        return 1 - gamma_share(counted + 1, mean)
    return beta_share(k, counted + 1, k / (k + mean))


def expected_count_interval(counted: int, k: float | None = None) -> Interval:
    """Exact 95 % interval of the expected count, for one count.

    Parameters
    ----------
    counted : int
        Nematodes really counted [nematodes, >= 0].
    k : float or None
        Clumping of the mixed sample, cores times k [1, > 0]; None for none (Poisson).

    Returns
    -------
    (float, float)
        [nematodes, >= 0]

    Raises
    ------
    DomainError
        ``negative`` or ``not_above_zero``.

    Notes
    -----
    Both tails are put to 2.5 %; for Poisson that is Garwood's interval. Clumping widens it;
    only at one counted does the low end rise as well.

    References
    ----------
    negative_binomial, garwood_1936

    Examples
    --------
    >>> [round(end, 4) for end in expected_count_interval(20, 10)]
    [9.6725, 47.8455]
    """
    if counted < 0:
        raise DomainError("negative", counted=counted)
    if k is not None and not k > 0:
        raise DomainError("not_above_zero", k=k)
    high = _mean_where(lambda mean: up_to(counted, mean, k), TAIL, counted + 1.0)
    if counted == 0:
        return 0.0, high
    return _mean_where(lambda mean: up_to(counted - 1, mean, k), 1 - TAIL, counted + 1.0), high


def _mean_where(falling: Callable[[float], float], share: float, start: float) -> float:
    """Mean at which a chance that falls with it has come down to a share."""
    low, high = 0.0, start
    while falling(high) > share:
        low, high = high, 2 * high
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if falling(middle) > share else (low, middle)
        if high - low <= _NARROW * high:
            break
    return (low + high) / 2


def density_interval(counted: int, examined: Examined, k: float | None = None) -> Interval:
    """Exact 95 % interval of the density in the ground, for one count.

    Parameters
    ----------
    counted : int
        Nematodes really counted [nematodes, >= 0].
    examined : Examined
        What the lab looked at.
    k : float or None
        Clumping of the mixed sample [1, > 0]; None for none.

    Returns
    -------
    (float, float)
        [J2 per 100 cm3, >= 0]

    Notes
    -----
    The efficiency is taken as known; labs rarely state it, and 11 methods on one soil
    differed a hundredfold.

    References
    ----------
    negative_binomial, garwood_1936, ring_test_2013

    Examples
    --------
    >>> [round(end, 2) for end in density_interval(0, Examined(100, 0.35), 5)]
    [0.0, 15.59]
    """
    low, high = expected_count_interval(counted, k)
    return low / examined.exposure, high / examined.exposure


def counted_from_report(reported: float, per_cm3: float, examined: Examined) -> int:
    """How many a lab must have counted, from a rounded report.

    Parameters
    ----------
    reported : float
        As printed [nematodes per ``per_cm3``, >= 0].
    per_cm3 : float
        Volume the report is for [cm3, > 0].
    examined : Examined
        What the lab looked at; its efficiency plays no part.

    Returns
    -------
    int
        A guess: say that it is one [nematodes, >= 0].

    Raises
    ------
    DomainError
        ``negative`` or ``not_above_zero``.

    References
    ----------
    by_hand

    Examples
    --------
    >>> counted_from_report(120, 100, Examined(250, 0.35, 0.1))
    30
    """
    if not reported >= 0:
        raise DomainError("negative", reported=reported)
    if not per_cm3 > 0:
        raise DomainError("not_above_zero", per_cm3=per_cm3)
    exact = reported / per_cm3 * examined.volume_cm3 * examined.counted_share
    return math.floor(exact + 0.5)
