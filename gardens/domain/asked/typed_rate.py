"""A rate as it was typed: in grams on a square metre, and in every other unit.

Not for saying whether it is a good one.
"""

from collections.abc import Callable, Mapping

from gardens.domain.asked.answer import Answer, Asked, row
from gardens.domain.asked.quantities import UNITS, rate
from gardens.domain.errors import DomainError
from gardens.domain.judgements import judged
from gardens.domain.rates import convert_rate
from gardens.domain.said import figure


def grams_per_m2(asked: Asked) -> float:
    """The rate that was typed.

    Parameters
    ----------
    asked : Asked
        With ``rate`` and ``unit``.

    Returns
    -------
    float
        [g/m2, > 0]

    Raises
    ------
    DomainError
        ``asked_rate_odd`` on the field ``rate`` for more than anybody spreads, as a slip in
        the unit makes it.
    """
    grams = convert_rate(asked.given.number("rate"), asked.given.text("unit"), "g_per_m2")
    if grams > 1000 * judged(asked.teller.judgements, "dressing_most_kg_per_m2"):
        raise DomainError("asked_rate_odd", field="rate", rate=rate(grams, "kg_per_m2"))
    return grams


def same_rate(asked: Asked) -> Answer:
    """A rate in every unit.

    Parameters
    ----------
    asked : Asked
        With ``rate`` and ``unit``.

    Returns
    -------
    Answer
        One line and one row.
    """
    unit = asked.given.text("unit")
    grams = convert_rate(asked.given.number("rate"), unit, "g_per_m2")
    told = rate(grams, unit)
    others = {
        name: figure(convert_rate(grams, "g_per_m2", key))
        for key, name in UNITS.items()
        if key != unit
    }
    line = asked.teller.line("rate_same", rate=told)
    return Answer((line,), (row(told, others, ("nist_inch_pound",)),))


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"same_rate": same_rate}
