"""How many soil cores to mix: cores for a precision, and what a number of cores is worth.

For negative binomial counts; ``taylor`` has the other kind. Not for plants: their grades have
two ends and are counted in another way.
"""

import math
from dataclasses import dataclass

from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged


@dataclass(frozen=True)
class CoreAdvice:
    """What a number of cores costs and buys.

    ``volume_cm3`` is all the soil lifted; ``best_error_percent`` the standard error of the
    mean in percent of it when nematodes are many, ``error_percent`` at the mean that was
    asked for [%, > 0]: the cores alone, before the lab's own losses.
    """

    n_cores: int
    volume_cm3: float
    best_error_percent: float
    error_percent: float | None


def above_zero(**given: float) -> None:
    """Refuse numbers that are not above nothing.

    Parameters
    ----------
    **given : float
        Numbers by name [any unit].

    Raises
    ------
    DomainError
        ``not_above_zero``, with the names of those that are not.
    """
    wrong = {name: value for name, value in given.items() if not value > 0}
    if wrong:
        raise DomainError("not_above_zero", **wrong)


def relative_error(mean: float, k: float, n_cores: int) -> float:
    """Standard error of the mean of some cores, as a share of the mean.

    Parameters
    ----------
    mean : float
        Nematodes in one core [cores as k was fitted for, > 0]; infinite for the best there is.
    k : float
        Clumping of the negative binomial between cores [1, > 0].
    n_cores : int
        [cores, >= 1]

    Returns
    -------
    float
        D [1, > 0].

    Raises
    ------
    DomainError
        ``not_above_zero``.

    Notes
    -----
    D = sqrt((1/m + 1/k) / n). k was 0.294, 0.544 and 1.35 for *M. incognita* in Florida
    fields and rises as the ground gets smaller, so a bed should lie at the upper end.

    References
    ----------
    negative_binomial, mcsorley_parrado_simulated, mcsorley_parrado_1982

    Examples
    --------
    >>> [round(relative_error(10, k, 20), 3) for k in (1.35, 0.544, 0.294)]
    [0.205, 0.311, 0.418]
    """
    above_zero(mean=mean, k=k, n_cores=n_cores)
    return math.sqrt((1 / mean + 1 / k) / n_cores)


def cores_needed(mean: float, k: float, precision: float) -> float:
    """Cores for a precision, for negative binomial counts.

    Parameters
    ----------
    mean : float
        Nematodes in one core [cores as k was fitted for, > 0].
    k : float
        Clumping of the negative binomial between cores [1, > 0].
    precision : float
        D, standard error over mean [1, > 0].

    Returns
    -------
    float
        [cores, > 0]; round up for the garden.

    Raises
    ------
    DomainError
        ``not_above_zero``.

    Notes
    -----
    n = (1/m + 1/k) / D^2.

    References
    ----------
    negative_binomial, mcsorley_parrado_simulated

    Examples
    --------
    >>> round(cores_needed(10, 0.544, 0.25), 2)
    31.01
    """
    above_zero(mean=mean, k=k, precision=precision)
    return (1 / mean + 1 / k) / precision**2


def core_volume_cm3(diameter_cm: float, length_cm: float) -> float:
    """Soil in one core of a round tool.

    Parameters
    ----------
    diameter_cm : float
        Inner width of the tool [cm, > 0].
    length_cm : float
        Length of the core [cm, > 0].

    Returns
    -------
    float
        [cm3, > 0]

    Raises
    ------
    DomainError
        ``not_above_zero``.

    References
    ----------
    by_hand

    Examples
    --------
    A tool of one inch, eight inches deep:

    >>> round(core_volume_cm3(2.54, 20.32), 1)
    103.0
    """
    above_zero(diameter_cm=diameter_cm, length_cm=length_cm)
    return math.pi * (diameter_cm / 2) ** 2 * length_cm


def core_advice(n_cores: int, table: Table, mean: float | None = None) -> CoreAdvice:
    """What a number of cores is worth, with the judged tool, depth and clumping.

    Parameters
    ----------
    n_cores : int
        [cores, >= 1]
    table : Mapping
        Content of ``fixtures/judgements.json``.
    mean : float or None
        Nematodes expected in one core [cores, > 0]; None when nobody knows.

    Returns
    -------
    CoreAdvice
        For showing the price of more beside each other: 10, 20, 40.

    Raises
    ------
    DomainError
        ``not_above_zero``.

    Notes
    -----
    Guides ask for 10 to 50 cores from fields; 8 to 12 for a raised bed is our own reading of
    a guide for nursery beds and of trials in which small ground needed fewer.

    References
    ----------
    negative_binomial, sampling_guides, nursery_beds_california, mcsorley_parrado_1982
    """
    k = judged(table, "soil_cores_clumping_k")
    length = judged(table, "soil_core_depth_cm") - judged(table, "soil_core_discard_cm")
    each = core_volume_cm3(judged(table, "soil_core_diameter_cm"), length)
    return CoreAdvice(
        n_cores=n_cores,
        volume_cm3=n_cores * each,
        best_error_percent=100 * relative_error(math.inf, k, n_cores),
        error_percent=None if mean is None else 100 * relative_error(mean, k, n_cores),
    )
