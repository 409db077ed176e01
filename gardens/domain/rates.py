"""How much over an area: rates of material and seed, and the nitrogen a dressing carries.

Not for what to use, and not a recipe: labels, laws and local advice come before any figure.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from gardens.domain.amounts import M_PER_FT, Span, at_least_zero
from gardens.domain.errors import DomainError

GRAMS_PER_LB = 453.59237
M2_PER_FT2 = M_PER_FT**2
M2_PER_ACRE = 43560 * M2_PER_FT2

# Grams per square metre in one of each.
RATES: Mapping[str, float] = {
    "g_per_m2": 1.0,
    "kg_per_m2": 1000.0,
    "kg_per_ha": 0.1,
    "t_per_ha": 100.0,
    "lb_per_100_ft2": GRAMS_PER_LB / (100 * M2_PER_FT2),
    "g_per_100_ft2": 1 / (100 * M2_PER_FT2),
    "lb_per_acre": GRAMS_PER_LB / M2_PER_ACRE,
}


@dataclass(frozen=True)
class Nitrogen:
    """Nitrogen a dressing carries, and whether that is more than crops take up in a season.

    ``warn`` is ``"more_than_a_crop_takes"`` or ``"within_a_season"``.
    """

    grams_per_m2: float
    lb_per_100_ft2: float
    season_need_grams_per_m2: float
    warn: str


def convert_rate(value: float, from_unit: str, to_unit: str) -> float:
    """An amount over an area in another unit.

    Parameters
    ----------
    value : float
        The rate [``from_unit``, >= 0].
    from_unit, to_unit : str
        Keys of `RATES`: ``"g_per_m2"``, ``"kg_per_m2"``, ``"kg_per_ha"``, ``"t_per_ha"``,
        ``"lb_per_100_ft2"``, ``"g_per_100_ft2"``, ``"lb_per_acre"``.

    Returns
    -------
    float
        The same rate [``to_unit``].

    Raises
    ------
    DomainError
        ``unknown_rate_unit`` or ``not_an_amount``.

    References
    ----------
    nist_inch_pound

    Examples
    --------
    >>> round(convert_rate(1, "lb_per_100_ft2", "g_per_m2"), 2)
    48.82
    >>> round(convert_rate(30, "lb_per_acre", "g_per_m2"), 2)
    3.36
    """
    for unit in (from_unit, to_unit):
        if unit not in RATES:
            raise DomainError("unknown_rate_unit", unit=unit)
    return at_least_zero("value", value) * RATES[from_unit] / RATES[to_unit]


def rate_of_soil_weight(percent: float, depth_cm: float, bulk_density_g_per_cm3: float) -> float:
    """A dose by weight of soil, as pot trials give it, as an amount over an area.

    Parameters
    ----------
    percent : float
        Weight of the material per weight of dry soil [% w/w, 0..100].
    depth_cm : float
        Depth it is mixed into [cm, >= 0].
    bulk_density_g_per_cm3 : float
        Dry weight of the soil [g/cm3, about 0.5 raised-bed mix .. 1.6 sand].

    Returns
    -------
    float
        [g/m2]

    References
    ----------
    computed_definition

    Examples
    --------
    >>> rate_of_soil_weight(1, 15, 1.3)
    1950.0
    """
    at_least_zero("percent", percent)
    soil_kg_per_m2 = 10 * at_least_zero("depth_cm", depth_cm) * bulk_density_g_per_cm3
    return percent * 10 * at_least_zero("soil_kg_per_m2", soil_kg_per_m2)


def dressing_kg(area_m2: float, grams_per_m2: float) -> float:
    """Weight of a dressing, or of seed, for a bed.

    Parameters
    ----------
    area_m2 : float
        Ground to treat [m2, >= 0].
    grams_per_m2 : float
        Rate [g/m2, >= 0].

    Returns
    -------
    float
        [kg]

    Examples
    --------
    Sunn hemp at 4 g/m2 on a bed of 3 m2:

    >>> dressing_kg(3, 4)
    0.012
    """
    return at_least_zero("area_m2", area_m2) * at_least_zero("grams_per_m2", grams_per_m2) / 1000


def seed_grams(area_m2: float, rate_g_per_m2: Span, germinates_percent: float = 100) -> Span:
    """Seed of a cover crop for a bed.

    Parameters
    ----------
    area_m2 : float
        Ground to sow [m2, >= 0].
    rate_g_per_m2 : Span
        Seed rate, lowest and highest published [g/m2].
    germinates_percent : float
        Share that germinates, as the packet says [%, above 0..100]; 100 leaves the rate as it
        is published, which is for seed as it is sold.

    Returns
    -------
    Span
        Seed to weigh out [g].

    Raises
    ------
    DomainError
        ``not_an_amount``.

    References
    ----------
    sunn_hemp_ng043, cornell_cover_crops_rkn

    Examples
    --------
    >>> seed_grams(3, Span(4, 5.6), 80)
    Span(low=15.0, high=21.0)
    """
    if not 0 < germinates_percent <= 100:
        raise DomainError("not_an_amount", name="germinates_percent", value=germinates_percent)
    scale = at_least_zero("area_m2", area_m2) * 100 / germinates_percent
    return Span(scale * rate_g_per_m2.low, scale * rate_g_per_m2.high)


def nitrogen_carried(
    grams_per_m2: float, nitrogen_percent: float, season_need_grams_per_m2: float
) -> Nitrogen:
    """Nitrogen in a dressing, with the line beyond which it is too much of it.

    Parameters
    ----------
    grams_per_m2 : float
        The dressing [g/m2, >= 0].
    nitrogen_percent : float
        Nitrogen in it as sold, the first figure of N-P-K [%, 0..100].
    season_need_grams_per_m2 : float
        What one season's vegetables take up [g/m2, a judgement].

    Returns
    -------
    Nitrogen
        With ``warn``.

    Notes
    -----
    All the nitrogen is counted as if it came free in one season: it does not, but what comes
    free late still leaches. The line is a judgement; local rules on nitrogen come first.

    References
    ----------
    our_nitrogen_line

    Examples
    --------
    40 lb of dry chicken litter (3 % N) on 100 square feet:

    >>> found = nitrogen_carried(1953, 3, 17)
    >>> round(found.grams_per_m2, 1), found.warn
    (58.6, 'more_than_a_crop_takes')
    """
    if not 0 <= nitrogen_percent <= 100:
        raise DomainError("not_an_amount", name="nitrogen_percent", value=nitrogen_percent)
    carried = at_least_zero("grams_per_m2", grams_per_m2) * nitrogen_percent / 100
    over = carried > season_need_grams_per_m2
    return Nitrogen(
        grams_per_m2=carried,
        lb_per_100_ft2=convert_rate(carried, "g_per_m2", "lb_per_100_ft2"),
        season_need_grams_per_m2=season_need_grams_per_m2,
        warn="more_than_a_crop_takes" if over else "within_a_season",
    )
