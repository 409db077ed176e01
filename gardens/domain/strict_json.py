"""Reads JSON text strictly and with bounds, so that no text whatever makes the program fail.

Not for judging what the values mean.
"""

import json
from typing import Any


def strict_json(text: bytes, deepest: int) -> Any:
    """What the JSON text says; NaN, repeated keys and numbers beyond 64 bits are refused.

    Parameters
    ----------
    text : bytes
        UTF-8.
    deepest : int
        Deepest nesting that is taken [levels, >= 1].

    Returns
    -------
    Any
        Dicts, lists, text, numbers, flags and None.

    Raises
    ------
    ValueError
        For whatever is not such a text.
    """
    try:
        found = json.loads(
            text.decode("utf-8"),
            parse_constant=_refuse,
            parse_int=_whole,
            parse_float=_number,
            object_pairs_hook=_object,
        )
    except RecursionError:
        raise ValueError("nested too deeply") from None
    if _depth(found) > deepest:
        raise ValueError("nested too deeply")
    return found


def can_be_stored(value: Any) -> bool:
    """Whether every text in a value is well formed and without NUL, as PostgreSQL wants it.

    Parameters
    ----------
    value : Any
        As ``strict_json`` gives it.

    Returns
    -------
    bool
        True when any database takes it.
    """
    level = [value]
    while level:
        texts = [one for one in level if isinstance(one, str)]
        texts += [key for one in level if isinstance(one, dict) for key in one]
        if any("\x00" in one or not one.isascii() and _is_cut(one) for one in texts):
            return False
        level = _inside(level)
    return True


def _is_cut(text: str) -> bool:
    return any("\ud800" <= sign <= "\udfff" for sign in text)


def _inside(level: list[Any]) -> list[Any]:
    return [
        inner
        for outer in level
        if isinstance(outer, dict | list)
        for inner in (outer.values() if isinstance(outer, dict) else outer)
    ]


def _refuse(text: str) -> Any:
    raise ValueError(text)


def _whole(text: str) -> int:
    if len(text) > 20 or not -(2**63) <= int(text) < 2**63:
        raise ValueError("beyond 64 bits")
    return int(text)


def _number(text: str) -> float:
    value = float(text)
    if value in (float("inf"), float("-inf")):
        raise ValueError("beyond a double")
    return value


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError("a key is repeated")
    return found


def _depth(value: Any) -> int:
    depth, level = 0, [value]
    while level:
        depth += 1
        level = _inside(level)
    return depth
