import pytest

from tests.house.docstrings import complaints
from tests.house.tree import name_of, written

CORE = [*written(".py", under="gardens/domain/"), *written(".py", under="gardens/sheets/")]

SILENT = '"""A module."""\n\ndef area(width_m, length_m) -> float:\n    """Area of a bed."""\n'
TOLD = '''"""A module."""

def area(width_m: float, length_m: float) -> float:
    """Area of a bed.

    Parameters
    ----------
    width_m, length_m : float
        Sides [m, 0.2 to 50].

    Returns
    -------
    float
        Area [m2].
    """
'''


@pytest.mark.parametrize("path", CORE, ids=name_of)
def test_public_functions_of_the_core_say_what_goes_in_and_what_comes_out(path):
    assert complaints(path.read_text()) == []


def test_a_function_that_does_not_tell_its_parameters_is_seen():
    assert complaints(SILENT) == [
        "area: parameter width_m not told",
        "area: parameter length_m not told",
        "area: no Returns",
    ]


def test_a_function_that_tells_everything_passes():
    assert complaints(TOLD) == []


def test_a_function_without_a_docstring_is_seen():
    assert complaints("def f():\n    pass\n") == [
        "the module says nothing of itself",
        "f: no docstring",
    ]


def test_private_functions_may_keep_quiet():
    assert complaints('"""A module."""\n\ndef _area(a):\n    return a\n') == []
