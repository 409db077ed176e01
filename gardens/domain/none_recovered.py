"""What to say when a lab recovered none, and what soil to ask for before that.

None recovered is never nothing there; the arithmetic is in ``detection``.
"""

import math
from dataclasses import dataclass

from gardens.domain.count_interval import Examined, pooled_k
from gardens.domain.detection import most_when_none_recovered, volume_to_ask
from gardens.domain.judgements import Table, judged
from gardens.domain.said import Said


@dataclass(frozen=True)
class Ask:
    """What to ask a lab for before shipping [cm3, > 0].

    ``volume_cm3`` is the soil to extract for a middling lab, ``volume_if_poor_cm3`` for a poor
    one; ``is_more_than_least`` when the level needs more than labs usually take.
    """

    volume_cm3: float
    volume_if_poor_cm3: float
    is_more_than_least: bool


def none_recovered(
    table: Table, volume_cm3: float | None, n_cores: int | None, counted_share: float = 1.0
) -> Said:
    """What to say when a lab recovered none.

    Parameters
    ----------
    table : Mapping
        Content of ``fixtures/judgements.json``.
    volume_cm3 : float or None
        Soil the lab extracted [cm3, > 0]; None when the report does not say.
    n_cores : int or None
        Cores mixed in the sample [cores, >= 1]; None when nobody noted them.
    counted_share : float
        Share of the extract that was counted [1, above 0..1].

    Returns
    -------
    Said
        With the bound for a middling and for a poor extraction [J2 per 100 cm3]; without a
        number when volume or cores are unknown.

    References
    ----------
    negative_binomial, mcsorley_parrado_1987, mcsorley_frederick_1991

    Examples
    --------
    >>> none_recovered({}, None, 10).code
    'none_recovered_unknown'
    """
    if volume_cm3 is None or n_cores is None:
        return Said("none_recovered_unknown")
    k = pooled_k(n_cores, judged(table, "soil_cores_clumping_k"))
    bounds = [
        math.ceil(most_when_none_recovered(Examined(volume_cm3, e, counted_share), k))
        for e in (
            judged(table, "assay_efficiency_middle"),
            judged(table, "assay_efficiency_low"),
        )
    ]
    params = {"volume_cm3": f"{volume_cm3:g}", "n_cores": n_cores}
    return Said("none_recovered", {**params, "bound": bounds[0], "bound_if_poor": bounds[1]})


def soil_to_ask(level: float, n_cores: int, table: Table) -> Ask:
    """Soil to ask a lab to extract, before the sample is shipped.

    Parameters
    ----------
    level : float
        The level that matters, from a lab or a table [J2 per 100 cm3, > 0].
    n_cores : int
        Cores mixed in the sample [cores, >= 1].
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Ask
        Never less than the judged least volume.

    Notes
    -----
    Very sensitive vegetables may suffer below 5 per 100 cm3; where that needs more soil than
    a lab takes, a pot test of two litres finds more.

    References
    ----------
    negative_binomial, stirling_2025
    """
    k = pooled_k(n_cores, judged(table, "soil_cores_clumping_k"))
    least = judged(table, "soil_least_volume_cm3")
    middling = volume_to_ask(level, judged(table, "assay_efficiency_middle"), k)
    poor = volume_to_ask(level, judged(table, "assay_efficiency_low"), k)
    return Ask(max(least, middling), max(least, poor), poor > least)
