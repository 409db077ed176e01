"""How numbers fall where nothing feeds them, in the published figures.

Not a promise for a bed: weeds, volunteers and cold undo a fallow, and numbers below what an
assay can see are still numbers. For comparing and for "what if".
"""

import math

from gardens.domain.errors import DomainError

IMMOBILE_PER_DEGREE_DAY = math.log(10) / 500
RYE_SLOPE, RYE_SHIFT = 0.863, -0.26


def density_without_host(density: float, survival: float, periods: float) -> float:
    """Density after some months or years without a host.

    Parameters
    ----------
    density : float
        At the start [any one unit, >= 0].
    survival : float
        s, share that is left after one period [1, 0..1].
    periods : float
        How many periods, of the length s is for [1, >= 0].

    Returns
    -------
    float
        [same unit, >= 0]

    Raises
    ------
    DomainError
        ``not_a_share`` or ``negative``.

    References
    ----------
    uc_fallow

    Examples
    --------
    A fallow that loses 90 % a year, after half a year:

    >>> round(density_without_host(1000, monthly_survival(0.90), 6))
    316
    """
    if not 0 <= survival <= 1:
        raise DomainError("not_a_share", survival=survival)
    if not (density >= 0 and periods >= 0):
        raise DomainError("negative", density=density, periods=periods)
    return density * math.pow(survival, periods)


def monthly_survival(yearly_loss: float) -> float:
    """Share left after a month, from the share lost in a year.

    Parameters
    ----------
    yearly_loss : float
        [1, 0 and below 1]

    Returns
    -------
    float
        s [1 per month, above 0..1].

    Raises
    ------
    DomainError
        ``not_a_share``.

    References
    ----------
    uc_fallow

    Examples
    --------
    >>> [round(monthly_survival(loss), 4) for loss in (0.90, 0.85)]
    [0.8254, 0.8538]
    """
    if not 0 <= yearly_loss < 1:
        raise DomainError("not_a_share", yearly_loss=yearly_loss)
    return math.pow(1 - yearly_loss, 1 / 12)


def half_life_days(yearly_loss: float) -> float:
    """Days until half is left, from the share lost in a year.

    Parameters
    ----------
    yearly_loss : float
        [1, above 0 and below 1]

    Returns
    -------
    float
        [d, > 0]

    Raises
    ------
    DomainError
        ``not_a_share``.

    References
    ----------
    uc_fallow

    Examples
    --------
    >>> [round(half_life_days(loss)) for loss in (0.90, 0.85)]
    [110, 133]
    """
    if not 0 < yearly_loss < 1:
        raise DomainError("not_a_share", yearly_loss=yearly_loss)
    return 365 * math.log(2) / -math.log(1 - yearly_loss)


def survival_after(days: float, half_life: float) -> float:
    """Share left after some days, from a half-life.

    Parameters
    ----------
    days : float
        [d, >= 0]
    half_life : float
        [d, > 0]

    Returns
    -------
    float
        [1, 0..1]

    Raises
    ------
    DomainError
        ``negative`` or ``not_above_zero``.

    Notes
    -----
    Half-lives of *M. javanica* in soil: 110 days where moist, 10 where dry, 2.6 where very dry.

    References
    ----------
    towson_apt_drying

    Examples
    --------
    >>> round(survival_after(72, 110), 3), round(survival_after(72, 10), 4)
    (0.635, 0.0068)
    """
    if days < 0:
        raise DomainError("negative", days=days)
    if not half_life > 0:
        raise DomainError("not_above_zero", half_life=half_life)
    return math.pow(0.5, days / half_life)


def juveniles_still_moving(degree_days: float) -> float:
    """Share of juveniles without a root that can still move, after some warmth.

    Parameters
    ----------
    degree_days : float
        Above 10 degrees C [degree-days, >= 0].

    Returns
    -------
    float
        [1, 0..1]

    Raises
    ------
    DomainError
        ``negative``.

    Notes
    -----
    More than 90 % were immobile within 500 degree-days; an even rate is assumed. Eggs live on.

    References
    ----------
    goodell_ferris_survival

    Examples
    --------
    >>> round(juveniles_still_moving(250), 3)
    0.316
    """
    if degree_days < 0:
        raise DomainError("negative", degree_days=degree_days)
    return math.exp(-IMMOBILE_PER_DEGREE_DAY * degree_days)


def final_density_winter_rye(initial_density: float) -> float:
    """Density after a winter under cereal rye, from the density before it.

    Parameters
    ----------
    initial_density : float
        Pi in autumn [J2 per 100 cm3, 0..about 1000].

    Returns
    -------
    float
        Pf in spring [J2 per 100 cm3, >= 0].

    Raises
    ------
    DomainError
        ``negative``.

    Notes
    -----
    ln(Pf + 1) = 0.863 ln(Pi + 1) - 0.26, from Florida sites ruled by *M. arenaria*. The prose
    of the paper says numbers were nearly maintained, its equation loses 60 % at 100: both are
    shown. Below about Pi 5 the equation is not to be trusted, and never goes under nothing.

    References
    ----------
    mcsorley_1994_rye

    Examples
    --------
    >>> [round(final_density_winter_rye(p), 2) for p in (10, 100, 1000)]
    [5.11, 40.38, 298.54]
    """
    if initial_density < 0:
        raise DomainError("negative", initial_density=initial_density)
    return max(0.0, math.exp(RYE_SLOPE * math.log1p(initial_density) + RYE_SHIFT) - 1)
