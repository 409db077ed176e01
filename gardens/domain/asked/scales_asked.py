"""Which grade a share of galled roots is, and why a grade stays on its own scale.

Not for rating: the check screen shows the grades of one scale.
"""

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.briefing.lines import Line
from gardens.domain.errors import DomainError
from gardens.domain.scales import (
    Percents,
    beside_percent,
    convert,
    grade_for_percent_galled,
    read_percents,
    read_scale,
)

_SCALES = ("pct10", "bp10", "zeck10")


def which_grade(asked: Asked) -> Answer:
    """The grade for a percentage, and what a grade is on the other scales.

    Parameters
    ----------
    asked : Asked
        With ``percent`` [%], or ``grade`` and ``gall_scale``, or both.

    Returns
    -------
    Answer
        A grade, or why one cannot be turned into another; the scales side by side.

    Raises
    ------
    DomainError
        ``asked_percent_or_grade`` on ``percent`` when neither was given;
        ``asked_no_such_grade`` on ``grade``.
    """
    share, grade = asked.given.maybe("percent"), asked.given.maybe("grade")
    if share is None and grade is None:
        raise DomainError("asked_percent_or_grade", field="percent")
    lines, rows = [], []
    if share is not None:
        lines.append(_percent_line(asked, share))
    if grade is not None:
        found, beside = _of_grade(asked, grade)
        lines.append(found)
        rows += beside
    return Answer(tuple(lines), tuple(rows))


def _percent_line(asked: Asked, share: float) -> Line:
    grade = grade_for_percent_galled(share)
    if grade == 0:
        return asked.teller.line("grade_for_none")
    scale = read_scale("pct10", asked.teller.table("scales"))
    told = scale.grades[grade].words
    return asked.teller.line("grade_for_percent", percent=share, grade=grade, told=told)


def _of_grade(asked: Asked, typed: float) -> tuple[Line, list[Row]]:
    key = asked.given.text("gall_scale")
    if key in _SCALES:
        grade = _whole(typed, 0, 10)
        own, *others = sorted(_SCALES, key=lambda one: one != key)
        rows = [_scale_row(asked, one, grade, key) for one in (own, *others)]
        name = read_scale(key, asked.teller.table("scales")).name
        code = "grade_not_turned" if grade else "grade_none_on_all"
        return asked.teller.line(code, grade=grade, name=name), rows
    percents = read_percents(asked.teller.rows("percent_scales"))[key]
    grade = _whole(typed, percents.first, percents.last)
    return _beside_line(asked, percents, grade), [_percents_row(percents)]


def _whole(typed: float, low: int, high: int) -> int:
    if typed != int(typed) or not low <= typed <= high:
        raise DomainError("asked_no_such_grade", field="grade", low=low, high=high)
    return int(typed)


def _scale_row(asked: Asked, key: str, grade: int, own: str) -> Row:
    scale = read_scale(key, asked.teller.table("scales"))
    cells = {
        "About it": scale.note,
        f"Its grade {grade}": scale.grades[grade].words,
        "In percent": _in_percent(asked, key, grade),
        "Yours turned into it": "" if key == own else _turned(grade, own, key),
    }
    return row(scale.name, cells, (scale.source,))


def _in_percent(asked: Asked, key: str, grade: int) -> str:
    rows = asked.teller.table("scales")[key]["grades"]
    assert isinstance(rows, list)
    found = rows[grade]
    if "lost_pct" in found:
        return f"{found['lost_pct']} % of the roots out of work"
    if "anchor_pct" in found:
        return f"{found['anchor_pct']} % of the roots galled"
    return "None is given for this grade."


def _turned(grade: int, own: str, other: str) -> str:
    if grade == 0:
        return "Grade 0 too: no gall at all."
    try:
        return f"Grade {convert(grade, own, other)}."
    except DomainError:
        return "No: rate again on this scale, roots in hand."


def _beside_line(asked: Asked, percents: Percents, grade: int) -> Line:
    share = percents.anchors[grade - percents.first]
    beside = beside_percent(share)
    code = "grade_beside" if len(beside) == 1 else "grade_between"
    return asked.teller.line(
        code, grade=grade, name=percents.name, percent=share, low=beside[0], high=beside[-1]
    )


def _percents_row(percents: Percents) -> Row:
    cells = {}
    for grade, share in enumerate(percents.anchors, percents.first):
        beside = " or ".join(str(one) for one in beside_percent(share))
        cells[f"Grade {grade}"] = f"{share:g} % galled; on tens of percent {beside}"
    return row(percents.name, cells, (percents.source,))
