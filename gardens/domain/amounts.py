"""How much of a loose thing a bed needs: volume, bags and weight.

Not for what to use: that is a label's, a law's and an adviser's to say. Conversions are exact
by definition; what varies, such as how heavy compost is, comes in as an argument.
"""

import math
from dataclasses import dataclass

from gardens.domain.errors import DomainError

M_PER_FT = 0.3048
LITRES_PER_FT3 = (10 * M_PER_FT) ** 3
FT3_PER_YD3 = 27


@dataclass(frozen=True)
class Volume:
    """One volume of something loose, as it is sold: litres, cubic feet, cubic yards."""

    litres: float
    cubic_feet: float
    cubic_yards: float


@dataclass(frozen=True)
class Bags:
    """Whole bags, and how much of the last one is left over [l]."""

    n_bags: int
    left_over_litres: float


@dataclass(frozen=True)
class Span:
    """A low and a high end of one thing; they are equal where a source gives one figure."""

    low: float
    high: float


def at_least_zero(name: str, value: float) -> float:
    """The amount itself, once it is one.

    Parameters
    ----------
    name : str
        What the amount is called in the refusal.
    value : float
        [any unit, >= 0 and not endless]

    Returns
    -------
    float
        The same value.

    Raises
    ------
    DomainError
        ``not_an_amount``.
    """
    if not (math.isfinite(value) and value >= 0):
        raise DomainError("not_an_amount", name=name, value=value)
    return value


def layer(area_m2: float, depth_cm: float) -> Volume:
    """Volume of a layer over a bed.

    Parameters
    ----------
    area_m2 : float
        Ground to cover [m2, >= 0].
    depth_cm : float
        Thickness of the layer, as it lies when spread [cm, >= 0].

    Returns
    -------
    Volume
        The same volume in litres, cubic feet and cubic yards.

    Raises
    ------
    DomainError
        ``not_an_amount`` for a negative or endless number.

    Notes
    -----
    Exact. The trade's short form, square feet times inches times 0.0031, is half a percent
    high. Loose compost settles; the figure is for the day it is spread.

    References
    ----------
    cornell_compost, nist_inch_pound

    Examples
    --------
    100 square feet, one inch deep:

    >>> found = layer(9.290304, 2.54)
    >>> round(found.cubic_feet, 4), round(found.cubic_yards, 4), round(found.litres, 1)
    (8.3333, 0.3086, 236.0)
    """
    return volume(10 * at_least_zero("area_m2", area_m2) * at_least_zero("depth_cm", depth_cm))


def volume(litres: float) -> Volume:
    """Litres as cubic feet and cubic yards too.

    Parameters
    ----------
    litres : float
        [l, >= 0]

    Returns
    -------
    Volume
        The same volume three times.

    References
    ----------
    nist_inch_pound

    Examples
    --------
    >>> round(volume(764.554857984).cubic_yards, 9)
    1.0
    """
    cubic_feet = at_least_zero("litres", litres) / LITRES_PER_FT3
    return Volume(litres, cubic_feet, cubic_feet / FT3_PER_YD3)


def bags(litres: float, bag_litres: float) -> Bags:
    """Whole bags to buy for a volume.

    Parameters
    ----------
    litres : float
        Volume wanted [l, >= 0].
    bag_litres : float
        Volume of one bag as printed on it [l, > 0].

    Returns
    -------
    Bags
        Never fewer litres than wanted.

    Raises
    ------
    DomainError
        ``not_an_amount``.

    Examples
    --------
    >>> bags(151, 40)
    Bags(n_bags=4, left_over_litres=9)
    """
    if at_least_zero("bag_litres", bag_litres) == 0:
        raise DomainError("not_an_amount", name="bag_litres", value=bag_litres)
    n_bags = math.ceil(at_least_zero("litres", litres) / bag_litres - 1e-9)
    return Bags(n_bags, max(0, n_bags * bag_litres - litres))


def weight_kg(litres: float, low_kg_per_m3: float, high_kg_per_m3: float) -> Span:
    """Weight of a volume of something loose, from its bulk density.

    Parameters
    ----------
    litres : float
        [l, >= 0]
    low_kg_per_m3, high_kg_per_m3 : float
        Bulk density, driest and wettest likely [kg/m3, >= 0].

    Returns
    -------
    Span
        Weight [kg].

    Notes
    -----
    Bulk densities are trade figures and wetness changes them more than anything else.

    Examples
    --------
    >>> found = weight_kg(151, 590, 710)
    >>> round(found.low), round(found.high)
    (89, 107)
    """
    cubic_metres = at_least_zero("litres", litres) / 1000
    low, high = sorted((at_least_zero("low", low_kg_per_m3), at_least_zero("high", high_kg_per_m3)))
    return Span(cubic_metres * low, cubic_metres * high)


def celsius(fahrenheit: float) -> float:
    """Degrees Fahrenheit as degrees Celsius.

    Parameters
    ----------
    fahrenheit : float
        [degrees F, any]

    Returns
    -------
    float
        [degrees C]

    References
    ----------
    nist_inch_pound

    Examples
    --------
    >>> round(celsius(64.4), 6)
    18.0
    """
    return (fahrenheit - 32) / 1.8
