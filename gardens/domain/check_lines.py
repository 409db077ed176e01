"""What to say about one root check beside its mean: share galled, effort, pattern, helpers.

Not for deciding any of it: every line follows from a code found elsewhere.
"""

import math

from gardens.domain.agreement import Concordance, Practice
from gardens.domain.efficacy import Efficacy
from gardens.domain.effort import More
from gardens.domain.incidence import Incidence
from gardens.domain.pattern import Pattern
from gardens.domain.raters import Raters
from gardens.domain.said import Said, capital, percent, shown, shown_low
from gardens.domain.surface import Surface

# A reduction is never told as all of them [%].
MOST_PERCENT = 99
# Where an interval reaches this much more, its end is told in words [%].
TWICE_AS_MANY = 100


def incidence_line(found: Incidence) -> Said:
    """Said about how many plants are galled.

    Parameters
    ----------
    found : Incidence
        Of one root check.

    Returns
    -------
    Said
        With a bound instead of nothing when none was galled.
    """
    params: dict[str, object] = {"n_galled": found.n_galled, "n_dug": found.n_dug}
    if found.code == "none_galled" and found.at_most is not None:
        counts = {"at_most": found.at_most, "n_plants": found.n_plants}
        return Said("incidence_none_galled_of_bed", {**params, **counts})
    if found.low is not None and found.high is not None:
        params |= {"low": percent(found.low), "high": percent(found.high)}
    return Said(f"incidence_{found.code}", params)


def more_line(found: More) -> Said:
    """Said about how many more plants to dig.

    Parameters
    ----------
    found : More
        Of one root check.

    Returns
    -------
    Said
        Worded as "about".
    """
    params = {"n_more": found.n_more, "n_in_total": found.n_in_total}
    return Said(f"more_{found.code}", params)


def pattern_line(found: Pattern) -> Said:
    """Said about whether galled plants stand together.

    Parameters
    ----------
    found : Pattern
        Of one root check.

    Returns
    -------
    Said
        With the number of plants it rests on.
    """
    return Said(f"pattern_{found.code}", {"n_plants": found.n_plants})


def surface_line(found: Surface) -> Said:
    """Said under the map of a check.

    Parameters
    ----------
    found : Surface
        Of one root check.

    Returns
    -------
    Said
        Also tells why there is no map.
    """
    is_hint = found.code == "drawn" and found.is_hint
    return Said("surface_drawn_few" if is_hint else f"surface_{found.code}")


def practice_lines(
    found: Concordance,
    judgement: Practice,
    n_needed: int,
    key: str = "you",
    helper: str = "your helper",
) -> tuple[Said, ...]:
    """Lines about a helper beside the key: somebody whose grades count, or practice photos.

    Parameters
    ----------
    found : Concordance
        Of the helper with the key.
    judgement : Practice
        Whether that is enough.
    n_needed : int
        Plants or photos that were asked for [1, >= 3].
    key, helper : str
        What the two are called.

    Returns
    -------
    tuple of Said
        Pass or not, then what was missed, then hints; what another line tells already is left
        out.
    """
    params = {
        "n": found.n,
        "bias": shown(abs(found.bias)),
        "within_one": round(found.within_one * found.n),
        "needed": n_needed,
        "key": key,
        "helper": helper,
        "Helper": capital(helper),
    }
    first = Said("practice_passes" if judgement.passes else "practice_not_yet", params)
    told = {*judgement.misses, *judgement.hints}
    if told & {"rates_high", "rates_low"}:
        told -= {"bias"}
    if "too_few_photos" in told:
        told -= {"agreement"}
    order = (*judgement.misses, *judgement.hints)
    return (first, *(Said(f"practice_{code}", params) for code in order if code in told))


def raters_line(found: Raters) -> Said:
    """Said about several helpers on the same plants.

    Parameters
    ----------
    found : Raters
        Their agreement.

    Returns
    -------
    Said
        Without the number: alpha is for those who ask.
    """
    return Said(f"raters_{found.code}", {"n_raters": found.n_raters, "n_shared": found.n_shared})


def efficacy_line(found: Efficacy | None) -> Said:
    """Said about the reduction beside an untreated bed.

    Parameters
    ----------
    found : Efficacy or None
        The reduction; None where there is no ratio.

    Returns
    -------
    Said
        "At least" when none was recovered after treatment; ends rounded outward.
    """
    if found is None:
        return Said("efficacy_no_ratio")
    if found.code == "none_recovered":
        return _none_recovered_line(found)
    if found.percent is None or found.low is None or found.high is None:
        return Said("efficacy_no_ratio")
    return Said(
        _reduction_code(found.percent, found.low, found.high, found.se),
        {
            "percent": min(MOST_PERCENT, round(abs(found.percent))),
            "low": math.floor(found.low),
            "high": min(MOST_PERCENT, math.ceil(found.high)),
            "more": -math.floor(found.low),
            "least_more": -min(MOST_PERCENT, math.ceil(found.high)),
        },
    )


def _reduction_code(percent: float, low: float, high: float, se: float | None) -> str:
    if se == 0:
        return "efficacy_all_alike" if percent >= 0 else "efficacy_all_alike_more"
    if low > 0:
        return "efficacy_settled" if low < MOST_PERCENT else "efficacy_nearly_all"
    if high < 0:
        return "efficacy_more"
    if low < -TWICE_AS_MANY:
        return "efficacy_wide"
    return "efficacy_not_settled" if percent >= 0 else "efficacy_not_settled_more"


def _none_recovered_line(found: Efficacy) -> Said:
    if found.at_least is None:
        return Said("efficacy_none_recovered")
    at_least = int(shown_low(found.at_least))
    code = "efficacy_at_least" if at_least else "efficacy_at_least_none"
    return Said(code, {"at_least": at_least})
