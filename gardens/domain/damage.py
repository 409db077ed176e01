"""What nematodes cost a crop in the published models: for comparing and for "what if".

Not a forecast of a bed. A tolerance limit comes from finely dosed eggs and juveniles; a lab
counts the juveniles it recovers in one season. Never put a lab's number straight in, and
never show a share of yield for a bed: show bands. Every call keeps one unit throughout.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from gardens.domain.errors import DomainError

DAMAGE_BASE = 0.95
# Yield at no nematodes, and what log10(Pi + 1) and its square take away [g per plot].
PEANUT_PLOTS = {"Ma": (398.0, 17.1, 17.0), "Mh": (388.0, 10.2, 7.5)}


@dataclass(frozen=True)
class DamageParameters:
    """One published fit: T and m of one crop, species and setting, in the unit of the paper."""

    crop: str
    form: str
    species: str
    setting: str
    unit: str
    tolerance_limit: float
    minimum_yield: float
    source: str


def read_damage_parameters(table: Iterable[Mapping[str, object]]) -> tuple[DamageParameters, ...]:
    """The published fits of the table.

    Parameters
    ----------
    table : iterable of Mapping
        Content of ``fixtures/damage_parameters.json``.

    Returns
    -------
    tuple of DamageParameters
        One for each row; several of one crop stay apart: show their spread, never a mean.
    """
    return tuple(
        DamageParameters(
            crop=str(row["crop"]),
            form=str(row["form"]),
            species=str(row["species"]),
            setting=str(row["setting"]),
            unit=str(row["unit"]),
            tolerance_limit=_number(row["tolerance_limit"]),
            minimum_yield=_number(row["minimum_yield"]),
            source=str(row["source"]),
        )
        for row in table
    )


def _number(value: object) -> float:
    assert isinstance(value, int | float)
    return float(value)


def relative_yield_seinhorst(
    initial_density: float,
    tolerance_limit: float,
    minimum_yield: float,
    damage_base: float = DAMAGE_BASE,
) -> float:
    """Yield of a crop at a density, as a share of the yield without nematodes.

    Parameters
    ----------
    initial_density : float
        Pi, eggs and juveniles at planting [any one unit, >= 0].
    tolerance_limit : float
        T, the density up to which nothing is lost [same unit, > 0].
    minimum_yield : float
        m, what is left at any density [1, 0..1].
    damage_base : float
        z to the power of T [1, above 0 and below 1]; 0.95 by convention.

    Returns
    -------
    float
        y [1, m..1].

    Raises
    ------
    DomainError
        ``not_above_zero``, ``negative`` or ``not_a_share``.

    Notes
    -----
    y = m + (1 - m) base^(Pi / T - 1) above T. Some texts take 1 / 1.05 for the base; the two
    differ in the third digit. T of one crop varied a hundredfold with soil, heat and the
    stage counted, and pots overstate it.

    References
    ----------
    seinhorst_teaching, di_vito_1991_tomato, okra_javanica

    Examples
    --------
    Okra loses a tenth at 0.85 juveniles per cm3, the paper says:

    >>> round(relative_yield_seinhorst(0.85, 0.28, 0), 4)
    0.9008
    """
    if not tolerance_limit > 0:
        raise DomainError("not_above_zero", tolerance_limit=tolerance_limit)
    if not initial_density >= 0:
        raise DomainError("negative", initial_density=initial_density)
    if not (0 <= minimum_yield <= 1 and 0 < damage_base < 1):
        raise DomainError("not_a_share", minimum_yield=minimum_yield, damage_base=damage_base)
    beyond = initial_density / tolerance_limit - 1
    if beyond <= 0:
        return 1.0
    return minimum_yield + (1 - minimum_yield) * math.pow(damage_base, beyond)


def peanut_yield_koenning(initial_density: float, species: str) -> float:
    """Yield of peanut in microplots, by the published curves.

    Parameters
    ----------
    initial_density : float
        Pi at planting [the paper's volume was not seen, 0..about 100].
    species : str
        ``"Ma"`` or ``"Mh"``.

    Returns
    -------
    float
        [g per plot]

    Raises
    ------
    DomainError
        ``negative`` or ``no_curve_for``.

    Notes
    -----
    A worked comparison of two species, not a scale for any bed.

    References
    ----------
    koenning_barker_peanut

    Examples
    --------
    >>> [round(peanut_yield_koenning(n, "Ma"), 1) for n in (0, 9, 99)]
    [398.0, 363.9, 295.8]
    """
    if species not in PEANUT_PLOTS:
        raise DomainError("no_curve_for", species=species)
    if not initial_density >= 0:
        raise DomainError("negative", initial_density=initial_density)
    full, straight, bent = PEANUT_PLOTS[species]
    logged = math.log10(initial_density + 1)
    return full - straight * logged - bent * logged * logged


def economic_threshold_ferris(
    *,
    crop_value: float,
    production_cost: float,
    control_cost: float,
    damage_per_nematode: float,
    tolerance_limit: float,
    minimum_yield: float,
) -> float | None:
    """Density from which a treatment of fixed cost would pay, in the model.

    Parameters
    ----------
    crop_value : float
        MV, worth of the crop without nematodes [any money, > production cost].
    production_cost : float
        PC [same money, >= 0].
    control_cost : float
        CM, cost of the treatment [same money, >= 0].
    damage_per_nematode : float
        z [1, above 0 and below 1].
    tolerance_limit : float
        T [any one unit, >= 0].
    minimum_yield : float
        m [1, 0 and below 1].

    Returns
    -------
    float or None
        Density [same unit, >= T]; None when the treatment costs more than the nematodes can.

    Raises
    ------
    DomainError
        ``not_above_zero`` or ``not_a_share``.

    Notes
    -----
    Assumes a treatment that works wholly, which none does. Never for a lab's number.

    References
    ----------
    ferris_1978_sheet

    Examples
    --------
    >>> found = economic_threshold_ferris(crop_value=1188, production_cost=627,
    ...     control_cost=195, damage_per_nematode=0.999999, tolerance_limit=25,
    ...     minimum_yield=0.1)
    >>> round(found, 1)
    488135.5
    """
    margin = crop_value - production_cost
    if not margin > 0:
        raise DomainError("not_above_zero", margin=margin)
    if not (0 < damage_per_nematode < 1 and 0 <= minimum_yield < 1):
        raise DomainError("not_a_share", z=damage_per_nematode, m=minimum_yield)
    left = ((margin - control_cost) / margin - minimum_yield) / (1 - minimum_yield)
    if left <= 0:
        return None
    return max(tolerance_limit, tolerance_limit + math.log(left) / math.log(damage_per_nematode))
