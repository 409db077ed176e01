"""What was tried against root-knot, and how good the evidence is.

Not a recommendation: no product is named, and labels and local advice come first.
"""

from collections.abc import Callable, Mapping

from gardens.domain.asked.answer import Answer, Asked, Row
from gardens.domain.asked.treatment_rows import (
    always,
    caution_row,
    evidence,
    own_cautions,
    short_row,
    treatment_row,
)
from gardens.domain.briefing.lines import Line
from gardens.domain.treatments import EFFECTS, GRADES, Treatment, read_treatments, treatment

NO_HELP = ("no", "harms")


def what_was_tried(asked: Asked) -> Answer:
    """What was tried, all of one kind or a single thing.

    Parameters
    ----------
    asked : Asked
        With ``kind``, and maybe ``one``, a key of the table that goes before it.

    Returns
    -------
    Answer
        One row for each, those that helped with the best evidence first.
    """
    table, one = asked.tables["treatments"], asked.given.text("one")
    if one:
        found = [treatment(one, table)]
    else:
        kind = asked.given.text("kind")
        found = [each for each in read_treatments(table) if each.kind == kind]
    found.sort(key=_best_first)
    rows = _each(asked, found) if len(found) > 1 else [treatment_row(asked, found[0])]
    return Answer((_line(asked, found),), (*rows, always(asked)))


def _each(asked: Asked, found: list[Treatment]) -> list[Row]:
    """Many in short, and then each caution that was named, once."""
    codes = dict.fromkeys(code for one in found for code in own_cautions(asked, one))
    rows = [short_row(asked, one) for one in found]
    return [*rows, caution_row(asked, "What to take care of", tuple(codes))] if codes else rows


def _best_first(one: Treatment) -> tuple[int, bool, int]:
    no_recipe = one.dose == "not_worked_out"
    return EFFECTS.index(one.effect), no_recipe, GRADES.index(one.evidence)


def _line(asked: Asked, found: list[Treatment]) -> Line:
    effects = [one.effect for one in found]
    if set(effects) == {"not_judged"}:
        return asked.teller.line("tried_not_judged")
    if len(found) == 1:
        only = found[0]
        graded = evidence(asked, only)
        return asked.teller.line(f"tried_{only.effect}", name=only.name, evidence=graded)
    return asked.teller.line(
        "tried_many",
        n=len(found),
        helped=effects.count("helps"),
        mixed=effects.count("mixed"),
        unproven=effects.count("unproven"),
        no=sum(effect in NO_HELP for effect in effects),
    )


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"what_was_tried": what_was_tried}
