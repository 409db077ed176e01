"""A dressing over a bed: its weight, the rates that were tried, its nitrogen.

Not for pesticides: their label says the amount, and nothing is worked out from a table here.
"""

from collections.abc import Callable, Mapping

from gardens.domain.asked.answer import Answer, Asked, Row
from gardens.domain.asked.nitrogen import nitrogen_lines
from gardens.domain.asked.quantities import ground, rate, rates, weight
from gardens.domain.asked.treatment_rows import always, evidence, treatment_row
from gardens.domain.asked.typed_rate import grams_per_m2
from gardens.domain.briefing.lines import Because, Line
from gardens.domain.rates import dressing_kg
from gardens.domain.treatments import Treatment, beside_tested_rate, treatment


def dressing(asked: Asked) -> Answer:
    """How much of a treatment a bed takes at a rate.

    Parameters
    ----------
    asked : Asked
        With ``treatment``, ``rate``, ``unit``, ``bed`` or ``area_m2`` [m2], and maybe
        ``nitrogen_percent`` [%].

    Returns
    -------
    Answer
        The weight, the rates that were tried, the nitrogen. For a product with a label, and
        for what is no recipe, only that nothing is worked out.
    """
    one = treatment(asked.given.text("treatment"), asked.tables["treatments"])
    if one.dose != "by_weight":
        told = asked.teller.line(f"dose_{one.dose}", name=one.name)
        return Answer((told,), (treatment_row(asked, one), always(asked)))
    unit = asked.given.text("unit")
    grams, area = grams_per_m2(asked), asked.area_m2()
    tried = treatment(one.tried_as or one.key, asked.tables["treatments"])
    weighed = [_weight_line(asked, grams, area), _beside_line(asked, tried, grams, unit)]
    fed = nitrogen_lines(asked, grams, area, one)
    lines = [*fed, *weighed] if len(fed) > 1 else [*weighed, *fed]  # a warning goes first
    return Answer(tuple(lines), (*_rows(asked, one, tried, unit), always(asked)))


def _weight_line(asked: Asked, grams: float, area: float) -> Line:
    return asked.teller.line(
        "amount_dressing",
        weight=weight(1000 * dressing_kg(area, grams)),
        ground=ground(area),
        rate=rate(grams, asked.given.text("unit")),
    )


def _beside_line(asked: Asked, tried: Treatment, grams: float, unit: str) -> Line:
    span = tried.tested_g_per_m2
    return asked.teller.line(
        f"rate_{beside_tested_rate(tried, grams)}",
        because=[Because(f"Trials: {tried.name}.", tried.source)],
        tried=rates(span, unit) if span else "",
        evidence=evidence(asked, tried),
    )


def _rows(asked: Asked, one: Treatment, tried: Treatment, unit: str) -> list[Row]:
    each = [one] if tried.key == one.key else [one, tried]
    return [treatment_row(asked, found, unit) for found in each]


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"dressing": dressing}
