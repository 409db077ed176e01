"""Weights, areas and rates in words, metric and US beside each other.

Not for sums: ``amounts`` and ``rates`` make them.
"""

from collections.abc import Mapping

from gardens.domain.amounts import Span
from gardens.domain.rates import GRAMS_PER_LB, M2_PER_FT2, RATES, convert_rate
from gardens.domain.said import figure

CM_PER_INCH = 2.54
OZ_PER_LB = 16
# What a rate's unit is called after the number.
UNITS: Mapping[str, str] = {
    "g_per_m2": "g per m²",
    "kg_per_m2": "kg per m²",
    "kg_per_ha": "kg per hectare",
    "t_per_ha": "tonnes per hectare",
    "lb_per_100_ft2": "lb per 100 square feet",
    "g_per_100_ft2": "g per 100 square feet",
    "lb_per_acre": "lb per acre",
}
assert set(UNITS) == set(RATES)


def weight(grams: float, digits: int = 3, *, down: bool = False) -> str:
    """A weight as it is weighed out.

    Parameters
    ----------
    grams : float
        [g, >= 0]
    digits : int
        Figures that count [1, 1..6].
    down : bool
        Whether it may only get smaller.

    Returns
    -------
    str
        In g and oz below a kilogram, else in kg and lb.

    Examples
    --------
    >>> weight(350), weight(1200)
    ('350 g (12.3 oz)', '1.2 kg (2.65 lb)')
    """
    pounds = grams / GRAMS_PER_LB
    if grams < 1000:
        ounces = figure(OZ_PER_LB * pounds, digits, down=down)
        return f"{figure(grams, digits, down=down)} g ({ounces} oz)"
    kilograms = figure(grams / 1000, digits, down=down)
    return f"{kilograms} kg ({figure(pounds, digits, down=down)} lb)"


def ground(area_m2: float) -> str:
    """A piece of ground.

    Parameters
    ----------
    area_m2 : float
        [m2, >= 0]

    Returns
    -------
    str
        In square metres and square feet.

    Examples
    --------
    >>> ground(3.6)
    '3.6 m² (38.8 square feet)'
    """
    return f"{figure(area_m2)} m² ({figure(area_m2 / M2_PER_FT2)} square feet)"


def rate(grams_per_m2: float, unit: str, digits: int = 3, *, down: bool = False) -> str:
    """An amount over an area.

    Parameters
    ----------
    grams_per_m2 : float
        [g/m2, >= 0]
    unit : str
        Key of `UNITS`, the unit to say it in.
    digits : int
        Figures that count [1, 1..6].
    down : bool
        Whether it may only get smaller.

    Returns
    -------
    str
        With its unit.

    Examples
    --------
    >>> rate(1953, "lb_per_100_ft2")
    '40 lb per 100 square feet'
    """
    told = figure(convert_rate(grams_per_m2, "g_per_m2", unit), digits, down=down)
    return f"{told} {UNITS[unit]}"


def rates(span: Span, unit: str) -> str:
    """A span of amounts over an area, as roughly as trials give it.

    Parameters
    ----------
    span : Span
        Lowest and highest [g/m2].
    unit : str
        Key of `UNITS`.

    Returns
    -------
    str
        Two figures that count; one amount where both ends are the same.

    Examples
    --------
    >>> rates(Span(244, 1953), "lb_per_100_ft2"), rates(Span(800, 800), "t_per_ha")
    ('5 to 40 lb per 100 square feet', '8 tonnes per hectare')
    """
    low, high = (rate(end, unit, 2) for end in (span.low, span.high))
    return high if low == high else f"{low.removesuffix(UNITS[unit])}to {high}"
