"""Do the people who rate see alike: from grades typed in, or from the checks of a bed.

Not for saying who is right.
"""

import itertools
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from gardens.domain.agreement import Concordance, concordance, practice
from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.rated_twice import RatedTwice, rated_twice
from gardens.domain.briefing.lines import Line
from gardens.domain.check_lines import practice_lines, raters_line
from gardens.domain.errors import DomainError
from gardens.domain.judgements import judged
from gardens.domain.raters import raters_agree
from gardens.domain.said import capital, shown

_TYPED = (("mine", "you"), ("helper", "your helper"), ("third", "the third person"))


@dataclass(frozen=True)
class Two:
    """Two people and how close the second's grades are to the first's."""

    first: str
    second: str
    found: Concordance | None
    n: int


def grade_alike(asked: Asked) -> Answer:
    """Whether two or more people grade alike.

    Parameters
    ----------
    asked : Asked
        With ``mine``, ``helper`` and maybe ``third``, grades in one order [one scale,
        0..10]; or with ``bed``.

    Returns
    -------
    Answer
        Whether they do, by the rule for a helper and for all together; each two as a row.

    Raises
    ------
    DomainError
        ``asked_no_grades``, ``asked_rows_differ``, on the box that is wrong.
    """
    bed = asked.bed()
    typed = any(asked.given.numbers(name) for name, _ in _TYPED)
    if bed is None or typed:
        shared = _typed(asked)
    else:
        shared = rated_twice(bed.checks, asked.teller)
        if not shared.names:
            return Answer((asked.teller.line("raters_none_shared", bed=bed.doc["name"]),))
    every = [_two(shared, *at) for at in itertools.combinations(range(len(shared.names)), 2)]
    every = [two for two in every if two.n]
    together, lines = _together_lines(asked, shared), _two_lines(asked, every)
    lines = [*together, *lines] if len(shared.names) > 2 else [*lines, *together]
    return Answer(tuple(lines), tuple(_row(asked, two) for two in every))


def _typed(asked: Asked) -> RatedTwice:
    rows = [(who, asked.given.numbers(name)) for name, who in _TYPED]
    for (name, _), (_, grades) in zip(_TYPED[:2], rows[:2], strict=True):
        if not grades:
            raise DomainError("asked_no_grades", field=name)
    for (name, _), (_, grades) in zip(_TYPED, rows, strict=True):
        if grades and len(grades) != len(rows[0][1]):
            params = {"n": len(grades), "n_first": len(rows[0][1])}
            raise DomainError("asked_rows_differ", field=name, **params)
    given = [(who, grades) for who, grades in rows if grades]
    return RatedTwice(tuple(who for who, _ in given), tuple(grades for _, grades in given))


def _two(shared: RatedTwice, one: int, other: int) -> Two:
    columns = zip(shared.grades[one], shared.grades[other], strict=True)
    both = [(a, b) for a, b in columns if a is not None and b is not None]
    found = concordance([a for a, _ in both], [b for _, b in both])
    return Two(shared.names[one], shared.names[other], found, len(both))


def _together_lines(asked: Asked, shared: RatedTwice) -> list[Line]:
    found = raters_agree(shared.grades, asked.teller.judgements)
    is_told = found.n_raters > 2 or found.code in ("may_be_mixed", "differ_too_much")
    return [asked.teller.say(raters_line(found))] if is_told else []


def _two_lines(asked: Asked, every: list[Two]) -> list[Line]:
    """What to tell of the two who share most: whether they pass, what was missed, and hints."""
    two = max(every, key=lambda one: one.n)
    if two.found is None:
        return [asked.teller.line("raters_fewer_than_three", n=two.n)]
    judgement = practice(two.found, _needed(asked), asked.teller.judgements)
    first, *more = practice_lines(two.found, judgement, _needed(asked), two.first, two.second)
    return [asked.teller.say(first), *(asked.teller.say(said) for said in more)]


def _needed(asked: Asked) -> int:
    return int(judged(asked.teller.judgements, "rater_photos"))


def _row(asked: Asked, two: Two) -> Row:
    cells = {"Both rated": str(two.n)}
    if two.found:
        bias, within = shown(two.found.bias), round(two.found.within_one * two.found.n)
        who = two.second if bias > 0 else two.first
        on_average = f"{who} {abs(bias)} grades higher" if bias else "no difference"
        cells["On average"] = capital(on_average)
        cells["Within one grade"] = f"{within} of {two.n}"
        passes = practice(two.found, _needed(asked), asked.teller.judgements).passes
        cells["By the rule"] = "alike" if passes else "not yet sure"
    name = f"{two.first} and {two.second}"
    return row(capital(name), cells)


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"grade_alike": grade_alike}
