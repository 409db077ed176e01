import ast
import json
import re

import pytest

from tests.house.docstrings import section
from tests.house.tree import ROOT

REFERENCES = json.loads((ROOT / "fixtures" / "references.json").read_text())
TODAY = {"briefing line", "sheet", "question", "not yet"}
NO_KEY = {"counted, no source", "the bed's own records", "rows of `fixtures/look_alikes.json`"}


def rows(text):
    """The rows of the table under "What the core answers": question, function, source, today."""
    told = re.search(r"^## What the core answers\n(.*?)(?=^## )", text, re.S | re.M)[1]
    lines = [line for line in told.splitlines() if line.startswith("| ")][1:]
    return [tuple(cell.strip() for cell in line.strip("|").split("|")) for line in lines]


ROWS = rows((ROOT / "DEVELOPERS.md").read_text())


def docstring(name):
    """The docstring of `module.function` in the core; None when there is no such function."""
    module, _, function = name.rpartition(".")
    path = ROOT / "gardens" / "domain" / f"{module}.py"
    body = ast.parse(path.read_text()).body if path.is_file() else []
    found = [n for n in body if isinstance(n, ast.FunctionDef) and n.name == function]
    return ast.get_docstring(found[0]) if found else None


def keys_in(source):
    """The keys of a source cell, or those of its words that are not one."""
    return [] if source in NO_KEY else [key.strip("` ") for key in source.split(",")]


def test_the_table_is_read_whole():
    assert len(ROWS) > 40
    assert {len(row) for row in ROWS} == {4}
    assert len({function for _, function, _, _ in ROWS}) == len(ROWS)


@pytest.mark.parametrize(("question", "function", "source", "today"), ROWS)
def test_every_answer_has_a_function_and_its_sources(question, function, source, today):
    doc = docstring(function.strip("`"))
    assert doc, function
    assert question and set(today.split(", ")) <= TODAY
    keys = keys_in(source)
    assert [key for key in keys if key not in REFERENCES] == []
    told = set(re.findall(r"\w+", section(doc, "References")))
    assert set(keys) == told


def test_a_name_that_leads_nowhere_is_seen():
    assert docstring("galling.sureness")
    assert docstring("galling.surety") is None and docstring("gallings.sureness") is None
    assert keys_in("`by_hand`, read somewhere") == ["by_hand", "read somewhere"]
