"""What to say about one root check beside its mean: share galled, effort, pattern, helpers.

Not for deciding any of it: every line follows from a code found elsewhere.
"""

from gardens.domain.agreement import Concordance, Practice
from gardens.domain.efficacy import Efficacy
from gardens.domain.effort import More
from gardens.domain.incidence import Incidence
from gardens.domain.pattern import Pattern
from gardens.domain.raters import Raters
from gardens.domain.said import Said, percent, shown, shown_low
from gardens.domain.surface import Surface


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


def practice_lines(found: Concordance, judgement: Practice) -> tuple[Said, ...]:
    """Lines for a helper after the practice photos.

    Parameters
    ----------
    found : Concordance
        Of the helper with the key.
    judgement : Practice
        Whether that is enough.

    Returns
    -------
    tuple of Said
        Pass or not, then what was missed, then hints.
    """
    params = {
        "n": found.n,
        "bias": shown(abs(found.bias)),
        "within_one": round(found.within_one * found.n),
    }
    first = Said("practice_passes" if judgement.passes else "practice_not_yet", params)
    more = (f"practice_{code}" for code in (*judgement.misses, *judgement.hints))
    return (first, *(Said(code, params) for code in more))


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
        "At least" when none was recovered after treatment.
    """
    if found is None:
        return Said("efficacy_no_ratio")
    if found.code == "none_recovered":
        if found.at_least is None:
            return Said("efficacy_none_recovered")
        return Said("efficacy_at_least", {"at_least": int(shown_low(found.at_least))})
    if found.percent is None or found.low is None or found.high is None:
        return Said("efficacy_no_ratio")
    shares = {"percent": found.percent, "low": found.low, "high": found.high}
    code = "efficacy_settled" if found.low > 0 or found.high < 0 else "efficacy_not_settled"
    return Said(code, {name: round(value) for name, value in shares.items()})
