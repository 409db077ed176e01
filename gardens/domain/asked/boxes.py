"""What a person typed into the boxes of a question, read and checked.

Everything comes as text, as it stood in the boxes. Not for answering.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any

from gardens.domain.asked.given import Given
from gardens.domain.briefing.lines import filled
from gardens.domain.fields import Refusal, day

Field = Mapping[str, Any]
Problem = dict[str, str]
LONGEST = 400
NUMBERS = {"number": "", "length": "cm", "warmth": "°C", "area": "m²"}


def read_given(
    fields: Sequence[Field],
    typed: Mapping[str, str],
    tables: Mapping[str, Any],
    beds: Sequence[str],
) -> tuple[Given, list[Problem]]:
    """Read what was typed, and say of each box what is wrong with it.

    Parameters
    ----------
    fields : sequence of Mapping
        The fields of the question, from ``fixtures/questions.json``.
    typed : Mapping
        Text by the name of the field; fields that are not there count as empty.
    tables : Mapping
        Content of every table of ``fixtures`` by the stem of its name.
    beds : sequence of str
        Ids of the beds that can be chosen.

    Returns
    -------
    tuple of (Given, list of dict)
        What was given, and ``field`` and ``words`` for each box that cannot be read.
    """
    values: dict[str, object] = {}
    problems: list[Problem] = []
    for one in fields:
        text = typed.get(one["name"], "").strip() or str(one.get("first", ""))
        if not text and not one.get("needed"):
            continue
        try:
            values[one["name"]] = _read(one, text, tables, beds)
        except Refusal as refused:
            words = filled(tables["sentences"][refused.reason], refused.params)
            problems.append({"field": one["name"], "words": words})
    return Given(values), problems


def _read(one: Field, text: str, tables: Mapping[str, Any], beds: Sequence[str]) -> object:
    if not text:
        raise Refusal("asked_empty")
    if len(text) > LONGEST:
        raise Refusal("asked_too_long", most=LONGEST)
    kind = one["kind"]
    if kind in ("choice", "row", "rows", "bed"):
        return _chosen(kind, text, beds if kind == "bed" else choices(one, tables))
    return _TYPED.get(kind, _number)(one, text)


def _chosen(kind: str, text: str, known: Sequence[str]) -> object:
    chosen = text.split(",") if kind == "rows" else [text]
    if not set(chosen) <= set(known):
        raise Refusal("asked_not_offered")
    return tuple(key for key in known if key in chosen) if kind == "rows" else text


def choices(one: Field, tables: Mapping[str, Any]) -> list[str]:
    """The keys a field lets a person choose from.

    Parameters
    ----------
    one : Mapping
        A field of kind ``choice``, ``row`` or ``rows``: with ``options``, or with the ``table``
        it chooses from, the ``part`` of it that holds the rows, the column that is the ``key``
        and what the rows must be to be offered (``only``).
    tables : Mapping
        Content of every table of ``fixtures`` by the stem of its name.

    Returns
    -------
    list of str
        In the order they are offered.
    """
    if "options" in one:
        return [str(option["value"]) for option in one["options"]]
    rows = tables[one["table"]]
    if "part" in one:
        rows = rows[one["part"]]
    only = one.get("only", {})
    column = one.get("key", "key")
    return [
        str(row[column])
        for row in rows
        if all(row[name] in wanted for name, wanted in only.items())
    ]


def _number(one: Field, text: str) -> float:
    try:
        found = float(text.replace(",", "."))
    except ValueError:
        raise Refusal("asked_no_number") from None
    low, high = one["low"], one["high"]
    if not (math.isfinite(found) and low <= found <= high):
        unit = one.get("unit", NUMBERS.get(one["kind"], ""))
        raise Refusal("asked_out_of_range", low=low, high=high, unit=f" {unit}" if unit else "")
    return found


def _numbers(one: Field, text: str) -> tuple[float, ...]:
    found = tuple(_number(one, part) for part in text.replace(";", " ").split())
    least, most = one.get("least", 1), one.get("most", LONGEST)
    if not least <= len(found) <= most:
        raise Refusal("asked_how_many", least=least, most=most, n=len(found))
    return found


def _day(_: Field, text: str) -> date:
    try:
        return date.fromisoformat(str(day(text)))
    except Refusal:
        raise Refusal("asked_no_day") from None


def _text(_: Field, text: str) -> str:
    return text


_TYPED: Mapping[str, Callable[[Field, str], object]] = {
    "numbers": _numbers,
    "day": _day,
    "text": _text,
}
