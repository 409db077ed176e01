"""The questions a grower can ask beside the briefing: what was typed in, one answer out.

``fixtures/questions.json`` says which there are and which boxes each has. The server and the
phone ask the same way. Not for drawing the boxes.
"""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any

from gardens.domain.asked import grow, lab, roots, season, soil, worked
from gardens.domain.asked.answer import Answer, Asked
from gardens.domain.asked.boxes import Problem, read_given
from gardens.domain.briefing.gathered import Record, gather
from gardens.domain.briefing.lines import Teller, filled
from gardens.domain.errors import DomainError

__all__ = ["ask"]

ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {
    **grow.ANSWERED,
    **lab.ANSWERED,
    **roots.ANSWERED,
    **season.ANSWERED,
    **soil.ANSWERED,
    **worked.ANSWERED,
}


def ask(
    question: str,
    typed: Mapping[str, str],
    records: Sequence[Record],
    tables: Mapping[str, Any],
    today: str,
) -> dict[str, object]:
    """What one question comes to.

    Parameters
    ----------
    question : str
        A key of ``fixtures/questions.json``.
    typed : Mapping
        What stood in each box, as text.
    records : sequence of Mapping
        ``id``, ``kind``, ``deleted`` and ``doc`` of each record of one garden, any number.
    tables : Mapping
        Content of every table of ``fixtures`` by the stem of its name.
    today : str
        The day, ``YYYY-MM-DD``.

    Returns
    -------
    dict
        Plain values: ``lines``, ``rows`` and ``places``, or, when a box cannot be read,
        ``wrong`` with ``field`` and ``words`` of each and nothing else.

    Raises
    ------
    DomainError
        ``unknown_question``.
    """
    if question not in ANSWERED:
        raise DomainError("unknown_question", name=question[:40])
    garden = gather(records)
    fields = tables["questions"][question]["fields"]
    given, wrong = read_given(fields, typed, tables, [bed.id for bed in garden.beds])
    if wrong:
        return _told(question, Answer(()), wrong)
    asked = Asked(given, garden, tables, Teller(tables), date.fromisoformat(today))
    try:
        return _told(question, ANSWERED[question](asked), [])
    except DomainError as refused:
        return _told(question, Answer(()), [_problem(refused, tables)])


def _problem(refused: DomainError, tables: Mapping[str, Any]) -> Problem:
    """A refusal of the core as a sentence; one without a sentence of its own goes on up."""
    if refused.code not in tables["sentences"]:
        raise refused
    words = filled(tables["sentences"][refused.code], refused.params)
    return {"field": str(refused.params.get("field", "")), "words": words}


def _told(question: str, answer: Answer, wrong: list[Problem]) -> dict[str, object]:
    return {
        "question": question,
        "wrong": wrong,
        "lines": list(answer.lines),
        "rows": list(answer.rows),
        "places": answer.places,
    }
