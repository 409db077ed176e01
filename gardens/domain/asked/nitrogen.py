"""The nitrogen a dressing carries, beside what a season of vegetables takes up.

Not for how much to feed: a soil test and local rules say that.
"""

from collections.abc import Callable, Mapping

from gardens.domain.asked.answer import Answer, Asked
from gardens.domain.asked.quantities import rate, weight
from gardens.domain.asked.treatment_rows import caution_row
from gardens.domain.asked.typed_rate import grams_per_m2
from gardens.domain.biology_lines import nitrogen_line
from gardens.domain.briefing.lines import Line
from gardens.domain.judgements import judged
from gardens.domain.rates import dressing_kg, nitrogen_carried
from gardens.domain.said import Said, figure
from gardens.domain.treatments import Treatment

OVER = "more_than_a_crop_takes"
CAUTIONS = ("nitrate", "ammonia_burn", "local_advice_first")


def too_much_nitrogen(asked: Asked) -> Answer:
    """Whether a dressing carries more nitrogen than crops take up.

    Parameters
    ----------
    asked : Asked
        With ``rate``, ``unit``, ``nitrogen_percent`` [%], and maybe ``bed`` or ``area_m2``
        [m2].

    Returns
    -------
    Answer
        The nitrogen, and the most that stays within the line when it is over.
    """
    area = asked.area_m2() if asked.bed() or asked.given.has("area_m2") else None
    lines = nitrogen_lines(asked, grams_per_m2(asked), area)
    return Answer(tuple(lines), (caution_row(asked, "With nitrogen", CAUTIONS),))


def nitrogen_lines(
    asked: Asked, grams: float, area_m2: float | None, one: Treatment | None = None
) -> list[Line]:
    """What a dressing carries in nitrogen.

    Parameters
    ----------
    asked : Asked
        With ``unit``, and maybe ``nitrogen_percent`` [%], which goes before the table's.
    grams : float
        The dressing [g/m2, > 0].
    area_m2 : float or None
        The ground [m2, > 0], where it was given.
    one : Treatment or None
        A row of the table, whose usual figure is taken when none was typed.

    Returns
    -------
    list of dict
        One or two lines.
    """
    percent, basis = _percent(asked, one)
    if percent is None:
        return [asked.teller.line(basis)]
    need = judged(asked.teller.judgements, "nitrogen_season_need_g_per_m2")
    found = nitrogen_carried(grams, percent, need)
    told = [asked.teller.say(nitrogen_line(found), Said(basis, {"percent": figure(percent)}))]
    if found.warn == OVER:
        told.append(_most(asked, 100 * need / percent, area_m2))
    return told


def _percent(asked: Asked, one: Treatment | None) -> tuple[float | None, str]:
    typed = asked.given.maybe("nitrogen_percent")
    if typed is not None:
        return typed, "nitrogen_figure_typed"
    usual = one.nitrogen_percent if one else None
    return usual, "nitrogen_not_known" if usual is None else "nitrogen_figure_usual"


def _most(asked: Asked, grams: float, area_m2: float | None) -> Line:
    most = rate(grams, asked.given.text("unit"), down=True)
    if area_m2 is None:
        return asked.teller.line("nitrogen_most", most=most)
    kilograms = dressing_kg(area_m2, grams)
    told = weight(1000 * kilograms, down=True)
    return asked.teller.line("nitrogen_most_here", most=most, weight=told)


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"too_much_nitrogen": too_much_nitrogen}
