"""One treatment, or what goes with all of them, as a row of an answer.

Not for judging it: the table does, with its grade of evidence and its sources.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from gardens.domain.amounts import Span
from gardens.domain.asked.answer import Asked, Row, row
from gardens.domain.asked.quantities import rates
from gardens.domain.said import figure
from gardens.domain.treatments import Treatment


def treatment_row(asked: Asked, one: Treatment, unit: str = "lb_per_100_ft2") -> Row:
    """What is known of one treatment, with its own cautions in full.

    Parameters
    ----------
    asked : Asked
        The question.
    one : Treatment
        A row of the table.
    unit : str
        Key of `rates.RATES` to say the rates that were tried in, beside a metric one.

    Returns
    -------
    dict
        Result, evidence, what was seen, rates, days to wait, and its own cautions.
    """
    own = own_cautions(asked, one)
    cells = {**_known(asked, one, unit), **cautions(asked, own)}
    sources = (*one.source, *_sources(asked, own, one.source))
    return row(one.name, cells, sources, caution=_hurts(asked, one))


def short_row(asked: Asked, one: Treatment) -> Row:
    """What is known of one treatment among many, its own cautions by name only.

    Parameters
    ----------
    asked : Asked
        The question.
    one : Treatment
        A row of the table.

    Returns
    -------
    dict
        As `treatment_row`; what the names mean has to be told beside it.
    """
    beware = ", ".join(cautions(asked, own_cautions(asked, one)))
    cells = {**_known(asked, one, "lb_per_100_ft2"), "Take care of": beware}
    return row(one.name, cells, one.source, caution=_hurts(asked, one))


def own_cautions(asked: Asked, one: Treatment) -> tuple[str, ...]:
    """The cautions of a treatment beside those that go with all of them.

    Parameters
    ----------
    asked : Asked
        The question.
    one : Treatment
        A row of the table.

    Returns
    -------
    tuple of str
        Keys, any number.
    """
    general = asked.tables["treatments"]["always"]
    return tuple(code for code in one.cautions if code not in general)


def _known(asked: Asked, one: Treatment, unit: str) -> dict[str, str]:
    return {
        "Result": asked.tables["treatments"]["effects"][one.effect],
        "Evidence": "" if one.effect == "not_judged" else evidence(asked, one),
        "What was seen": one.seen,
        "Rates tried": _tried(one.tested_g_per_m2, unit),
        "Wait before planting, as tried": _wait(one.wait_days),
        "Nitrogen in it": _nitrogen(one),
    }


def _hurts(asked: Asked, one: Treatment) -> bool:
    table = asked.tables["treatments"]["cautions"]
    codes = own_cautions(asked, one)
    return one.effect == "harms" or any(table[code]["can_hurt"] for code in codes)


def evidence(asked: Asked, one: Treatment) -> str:
    """The grade of the evidence, and what that means.

    Parameters
    ----------
    asked : Asked
        The question.
    one : Treatment
        A row of the table.

    Returns
    -------
    str
        E.g. ``Medium: a few trials, or pots and microplots``.
    """
    return f"{one.evidence.capitalize()}: {asked.tables['treatments']['grades'][one.evidence]}"


def cautions(asked: Asked, codes: Iterable[str]) -> dict[str, str]:
    """What to beware of, by its short name.

    Parameters
    ----------
    asked : Asked
        The question.
    codes : iterable of str
        Keys of the cautions of ``fixtures/treatments.json``.

    Returns
    -------
    dict of str
        In the order of the codes.
    """
    table = asked.tables["treatments"]["cautions"]
    return {table[code]["name"]: table[code]["say"] for code in codes}


def caution_row(asked: Asked, name: str, codes: tuple[str, ...]) -> Row:
    """What to beware of, as a row of its own.

    Parameters
    ----------
    asked : Asked
        The question.
    name : str
        What it goes with.
    codes : tuple of str
        Keys of the cautions of ``fixtures/treatments.json``, one or more.

    Returns
    -------
    dict
        Marked as a caution.
    """
    return row(name, cautions(asked, codes), _sources(asked, codes), caution=True)


def always(asked: Asked) -> Row:
    """What goes with every treatment.

    Parameters
    ----------
    asked : Asked
        The question.

    Returns
    -------
    dict
        Labels, local advice, and that none is enough alone.
    """
    return caution_row(asked, "With all of them", tuple(asked.tables["treatments"]["always"]))


def _sources(asked: Asked, codes: Iterable[str], besides: tuple[str, ...] = ()) -> tuple[str, ...]:
    table: Mapping[str, Mapping[str, Any]] = asked.tables["treatments"]["cautions"]
    found = dict.fromkeys(str(table[code]["source"]) for code in codes)
    return tuple(key for key in found if key not in besides)


def _tried(span: Span | None, unit: str) -> str:
    if span is None:
        return ""
    metric = "kg_per_m2" if span.high >= 1000 else "g_per_m2"
    return "; ".join(dict.fromkeys(rates(span, each) for each in (metric, unit)))


def _wait(days: Span | None) -> str:
    if days is None:
        return ""
    if days.high == 0:
        return "None was found to be needed."
    if days.low == days.high:
        return f"{days.low} days"
    return f"{days.low} to {days.high} days"


def _nitrogen(one: Treatment) -> str:
    if one.nitrogen_percent is None:
        return ""
    memory = ", a usual figure from memory" if one.nitrogen_from_memory else ""
    return f"about {figure(one.nitrogen_percent)} %{memory}"
