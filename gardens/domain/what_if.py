"""A season under a plant or none, for comparing plans: "what if", and always labelled so.

Not a forecast: the multipliers are judgements, one season stands for all seasons, and a bed
with weeds or volunteers does what they do.
"""

from dataclasses import dataclass

from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged
from gardens.domain.population import final_density, final_density_season

GROWING = ("good", "moderate")
FALLING = {
    "poor": "what_if_poor_factor",
    "none_warm_season": "what_if_none_warm_factor",
    "none_cold_season": "what_if_none_cold_factor",
    "antagonistic": "what_if_antagonistic_factor",
    "trap_lifted_on_time": "what_if_trap_factor",
}


@dataclass(frozen=True)
class WhatIf:
    """Two densities of a plan [J2 per 100 cm3, >= 0], and the mark that goes with them."""

    before: float
    after: float
    season: str
    mark: str = "judgement"


def what_if_season(density: float, season: str, judgements: Table, weedy: bool = False) -> WhatIf:
    """Where a season might leave a density.

    Parameters
    ----------
    density : float
        Before the season [J2 per 100 cm3, >= 0].
    season : str
        ``"good"``, ``"moderate"``, ``"poor"``, ``"none_warm_season"`` (also resistant kinds),
        ``"none_cold_season"``, ``"antagonistic"`` or ``"trap_lifted_on_time"``.
    judgements : Mapping
        Content of ``fixtures/judgements.json``.
    weedy : bool
        Weeds stood above the cover that cancels a fallow: then nothing falls.

    Returns
    -------
    WhatIf
        Marked as a judgement.

    Raises
    ------
    DomainError
        ``unknown_season`` or ``negative``.

    References
    ----------
    our_what_if

    Examples
    --------
    >>> table = {"what_if_none_warm_factor": {"value": 0.3, "range": [0.05, 1]}}
    >>> what_if_season(100, "none_warm_season", table).after
    30.0
    >>> what_if_season(100, "none_warm_season", table, weedy=True).after
    100.0
    """
    if season in GROWING:
        multiplication = judged(judgements, f"what_if_{season}_multiplication")
        ceiling = judged(judgements, f"what_if_{season}_ceiling")
        after = final_density_season(density, multiplication, ceiling)
    elif season in FALLING:
        factor = 1.0 if weedy else judged(judgements, FALLING[season])
        after = final_density(density, factor)
    else:
        raise DomainError("unknown_season", season=season)
    return WhatIf(before=density, after=after, season=season)
