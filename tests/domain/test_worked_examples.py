import doctest
import importlib
import pkgutil

import pytest

import gardens.domain
import gardens.sheets

CORE = [
    found.name
    for package in (gardens.domain, gardens.sheets)
    for found in pkgutil.iter_modules(package.__path__, f"{package.__name__}.")
]


def tried(name):
    return doctest.testmod(importlib.import_module(name), optionflags=doctest.ELLIPSIS)


@pytest.mark.parametrize("name", CORE)
def test_the_worked_examples_in_the_docstrings_come_out(name):
    assert tried(name).failed == 0


def test_the_core_has_worked_examples():
    assert sum(tried(name).attempted for name in CORE) > 20
