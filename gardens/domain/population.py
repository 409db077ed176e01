"""How numbers grow on a host in the published models: for comparing and for "what if".

Not a forecast of a bed. Every call keeps one unit throughout.
"""

import math

from gardens.domain.errors import DomainError


def _above_zero(**values: float) -> None:
    for name, value in values.items():
        if not value > 0:
            raise DomainError("not_above_zero", name=name, value=value)


def _not_negative(**values: float) -> None:
    for name, value in values.items():
        if not value >= 0:
            raise DomainError("negative", name=name, value=value)


def final_density_one_generation(
    initial_density: float, multiplication: float, ceiling: float
) -> float:
    """Density after one generation of a nematode that stays where it feeds.

    Parameters
    ----------
    initial_density : float
        Pi [any one unit, >= 0].
    multiplication : float
        a, the multiplication at very low density [1, > 0].
    ceiling : float
        M, the density that is never passed [same unit, > 0].

    Returns
    -------
    float
        Pf = M (1 - exp(-a Pi / M)) [same unit, 0..M].

    Raises
    ------
    DomainError
        ``not_above_zero`` or ``negative``.

    References
    ----------
    seinhorst_1967

    Examples
    --------
    >>> [round(final_density_one_generation(p, 50, 1000), 2) for p in (1, 10, 100)]
    [48.77, 393.47, 993.26]
    """
    _above_zero(multiplication=multiplication, ceiling=ceiling)
    _not_negative(initial_density=initial_density)
    unhindered = multiplication * initial_density
    # Rounding of the very smallest numbers would lift the curve above its own tangent.
    return min(unhindered, -ceiling * math.expm1(-unhindered / ceiling))


def final_density_season(initial_density: float, multiplication: float, ceiling: float) -> float:
    """Density after a season of breeding without pause.

    Parameters
    ----------
    initial_density : float
        Pi [any one unit, >= 0].
    multiplication : float
        a, the multiplication at very low density [1, > 0].
    ceiling : float
        M, the density that is never passed [same unit, > 0].

    Returns
    -------
    float
        Pf = M Pi / (Pi + M / a) [same unit, 0..M].

    Raises
    ------
    DomainError
        ``not_above_zero`` or ``negative``.

    Notes
    -----
    The form is from memory; a and M of the example are those of a hot pepper in pots.

    References
    ----------
    tola_2023_hot_pepper

    Examples
    --------
    >>> [round(final_density_season(p, 8813.2, 3420.1), 1) for p in (0.0625, 1, 128)]
    [474.4, 2463.9, 3409.8]
    """
    _above_zero(multiplication=multiplication, ceiling=ceiling)
    _not_negative(initial_density=initial_density)
    unhindered = multiplication * initial_density
    # The same fraction, divided by a: this way round it stays below a Pi at any size.
    return unhindered / (1 + unhindered / ceiling)


def final_density_logistic(
    initial_density: float, multiplication: float, equilibrium: float
) -> float:
    """Density after a season, by the logistic form: above its equilibrium it falls back.

    Parameters
    ----------
    initial_density : float
        Pi [any one unit, >= 0].
    multiplication : float
        a, the multiplication at very low density [1, >= 1].
    equilibrium : float
        E, where Pf equals Pi [same unit, > 0].

    Returns
    -------
    float
        Pf = a E Pi / ((a - 1) Pi + E) [same unit, >= 0].

    Raises
    ------
    DomainError
        ``not_above_zero``, ``negative``.

    Notes
    -----
    From memory. Given beside the season form so that the two can be compared.

    References
    ----------
    computed_definition

    Examples
    --------
    >>> round(final_density_logistic(10, 50, 1000), 2)
    335.57
    """
    _above_zero(equilibrium=equilibrium)
    _not_negative(initial_density=initial_density, multiplication_above_one=multiplication - 1)
    below = (multiplication - 1) * initial_density + equilibrium
    return multiplication * equilibrium * initial_density / below


def reproduction_factor(initial_density: float, final_density: float) -> float:
    """How many times a population multiplied over a crop.

    Parameters
    ----------
    initial_density : float
        Pi at planting [any one unit and stage, > 0].
    final_density : float
        Pf at the end [same unit and stage, >= 0].

    Returns
    -------
    float
        Rf = Pf / Pi [1, >= 0].

    Raises
    ------
    DomainError
        ``not_above_zero`` or ``negative``.

    Notes
    -----
    It falls as Pi rises: always give Pi beside it.

    References
    ----------
    brsp_2022_sweet_potato, nicaragua_tomato

    Examples
    --------
    >>> reproduction_factor(5000, 1000)
    0.2
    """
    _above_zero(initial_density=initial_density)
    _not_negative(final_density=final_density)
    return final_density / initial_density


def final_density(initial_density: float, factor: float) -> float:
    """Density after a crop of a known reproduction factor.

    Parameters
    ----------
    initial_density : float
        Pi at planting [any one unit, >= 0], near that at which the factor was measured.
    factor : float
        Rf [1, >= 0].

    Returns
    -------
    float
        Pf [same unit, >= 0].

    Raises
    ------
    DomainError
        ``negative``.

    References
    ----------
    fenugreek_javanica_2023, nicaragua_tomato

    Examples
    --------
    >>> final_density(2, 31.6)
    63.2
    """
    _not_negative(initial_density=initial_density, factor=factor)
    return initial_density * factor
