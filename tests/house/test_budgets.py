import pytest

from tests.house.measures import functions, n_lines, share_within
from tests.house.tree import name_of, written

MODULE_NEVER, MODULE_NINE_IN_TEN = 400, 250
FUNCTION_NEVER, FUNCTION_NINE_IN_TEN, COMPLEXITY_NEVER = 60, 25, 8
TEST_NEVER = 40
SVELTE_NEVER, SVELTE_NINE_IN_TEN = 250, 150
TYPESCRIPT_NEVER, TYPESCRIPT_NINE_IN_TEN = 300, 150
PYTHON_TREES = ("api/", "gardens/", "tests/")


def lines_of(*suffixes, under=""):
    return {name_of(p): n_lines(p.read_text()) for p in written(*suffixes, under=under)}


def functions_of(under):
    return {
        f"{name_of(path)}: {f.name}": f
        for path in written(".py", under=under)
        for f in functions(path.read_text())
    }


def over(sizes, limit):
    return {name: size for name, size in sizes.items() if size > limit}


def test_no_python_module_or_test_file_is_longer_than_400_lines():
    assert over(lines_of(".py"), MODULE_NEVER) == {}


@pytest.mark.parametrize("tree", PYTHON_TREES)
def test_nine_in_ten_python_modules_keep_250_lines(tree):
    assert share_within(list(lines_of(".py", under=tree).values()), MODULE_NINE_IN_TEN) >= 0.9


def test_no_function_is_longer_than_60_lines_apart_from_its_docstring():
    sizes = {name: f.n_lines for name, f in functions_of("").items()}
    assert over(sizes, FUNCTION_NEVER) == {}


def test_no_function_in_the_tests_is_longer_than_40_lines():
    sizes = {name: f.n_lines for name, f in functions_of("tests/").items()}
    assert over(sizes, TEST_NEVER) == {}


@pytest.mark.parametrize("tree", PYTHON_TREES)
def test_nine_in_ten_functions_keep_25_lines(tree):
    sizes = [f.n_lines for f in functions_of(tree).values()]
    assert share_within(sizes, FUNCTION_NINE_IN_TEN) >= 0.9


def test_no_function_forks_more_than_8_ways():
    forks = {name: f.complexity for name, f in functions_of("").items()}
    assert over(forks, COMPLEXITY_NEVER) == {}


def test_no_svelte_component_is_longer_than_250_lines():
    assert over(lines_of(".svelte"), SVELTE_NEVER) == {}


def test_no_typescript_module_is_longer_than_300_lines():
    assert over(lines_of(".ts", under="frontend/src/"), TYPESCRIPT_NEVER) == {}


def test_no_typescript_test_file_is_longer_than_400_lines():
    assert over(lines_of(".ts", under="frontend/tests/"), MODULE_NEVER) == {}


def test_nine_in_ten_svelte_components_keep_150_lines():
    sizes = list(lines_of(".svelte", under="frontend/src/").values())
    assert share_within(sizes, SVELTE_NINE_IN_TEN) >= 0.9


def test_nine_in_ten_typescript_modules_keep_150_lines():
    sizes = list(lines_of(".ts", under="frontend/src/").values())
    assert share_within(sizes, TYPESCRIPT_NINE_IN_TEN) >= 0.9
