"""Runs the published checks of ``fixtures/checks``, with nothing but the standard library.

A case is plain JSON, so the same file is run here and on the phone's Python. ``args`` is a
list or an object of named arguments; in it ``{"$table": "crops"}`` stands for a table of
``fixtures`` (``{"$table": "scales", "$at": "pct10"}`` for one entry of it) and
``{"$make": "galling.Reading", "args": …}`` for anything the core makes. ``pick`` is a path
into what came back, e.g. ``"days.0"``; ``{"error": code}`` expects a refusal. A number may be
off by ``tolerance``; without it whole numbers and words must be equal and others within 1e-9.
"""

import dataclasses
import datetime
import importlib
import json
import math
from pathlib import Path
from typing import Any

from gardens.domain.errors import DomainError

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"
CLOSE = 1e-9


def all_cases() -> list[dict[str, Any]]:
    """Every case of every file, with the name of its file."""
    found = []
    for path in sorted((FIXTURES / "checks").glob("*.json")):
        cases = json.loads(path.read_text(encoding="utf-8"))
        found += [{**case, "file": path.name} for case in cases]
    return found


def run_case(case: dict[str, Any]) -> tuple[bool, Any]:
    """Run one case: does it come out, and what came out."""
    try:
        got = plain(picked(call(case["call"], case["args"]), case.get("pick", "")))
    except DomainError as refusal:
        got = {"error": refusal.code}
    return matches(got, case["expect"], case.get("tolerance")), got


def call(name: str, args: Any) -> Any:
    """Call ``module.function`` of the core with plain or marked arguments."""
    module, _, attribute = name.rpartition(".")
    target = importlib.import_module(f"gardens.domain.{module}")
    for part in attribute.split("."):
        target = getattr(target, part)
    made = made_of(args)
    return target(**made) if isinstance(made, dict) else target(*made)


def made_of(value: Any) -> Any:
    """Tables and values of the core where the marks stand, the rest as it is."""
    if isinstance(value, list):
        return [made_of(one) for one in value]
    if not isinstance(value, dict):
        return value
    if "$table" in value:
        path = FIXTURES / f"{value['$table']}.json"
        table = json.loads(path.read_text(encoding="utf-8"))
        return table[value["$at"]] if "$at" in value else table
    if "$make" in value:
        return call(value["$make"], value.get("args", {}))
    return {key: made_of(one) for key, one in value.items()}


def picked(value: Any, path: str) -> Any:
    """The part of a value a path like ``"rows.0.name"`` leads to."""
    for step in path.split(".") if path else []:
        if isinstance(value, dict):
            value = value[step]
        else:
            value = value[int(step)] if step.isdigit() else getattr(value, step)
    return value


def plain(value: Any) -> Any:
    """Anything the core gives back, as JSON would hold it."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {f.name: plain(getattr(value, f.name)) for f in dataclasses.fields(value)}
    if isinstance(value, dict):
        return {str(key): plain(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [plain(one) for one in value]
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, set | frozenset):
        return sorted(plain(one) for one in value)
    return value


def matches(got: Any, expect: Any, tolerance: float | None) -> bool:
    """Are two plain values the same, numbers within the tolerance?"""
    if isinstance(expect, dict) and isinstance(got, dict):
        return all(k in got and matches(got[k], expect[k], tolerance) for k in expect)
    if isinstance(expect, list) and isinstance(got, list):
        pairs = zip(got, expect, strict=False)
        return len(got) == len(expect) and all(matches(g, e, tolerance) for g, e in pairs)
    if not is_number(expect) or not is_number(got):
        return type(got) is type(expect) and got == expect
    if tolerance is not None:
        return abs(got - expect) <= tolerance
    if isinstance(expect, int):
        return got == expect
    return math.isclose(got, expect, rel_tol=CLOSE, abs_tol=CLOSE)


def is_number(value: Any) -> bool:
    """Is this a number, and not a yes or no?"""
    return isinstance(value, int | float) and not isinstance(value, bool)
