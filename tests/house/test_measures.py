from tests.house.measures import functions, share_within

LONG = "def long():\n" + '    """One\n\n    two.\n    """\n' + "    a = 1\n" * 61
FORKED = "def forked(x):\n" + "".join(f"    if x == {n}:\n        return {n}\n" for n in range(8))
NESTED = "def outer():\n    def inner(y):\n        return 1 if y else 2\n    return inner\n"
MATCHED = """
def sort(x):
    match x:
        case 1:
            pass
        case _:
            pass
"""
FILTERED = "def some(xs):\n    return [x for x in xs if x]\n"


def test_a_long_function_is_measured_without_its_docstring():
    (found,) = functions(LONG)
    assert found.n_lines == 62


def test_eight_forks_make_a_complexity_of_nine():
    (found,) = functions(FORKED)
    assert found.complexity == 9


def test_an_inner_function_forks_on_its_own_account():
    by_name = {f.name: f.complexity for f in functions(NESTED)}
    assert by_name == {"outer": 1, "inner": 2}


def test_the_first_case_of_a_match_is_the_way_straight_on():
    (found,) = functions(MATCHED)
    assert found.complexity == 2


def test_a_filter_in_a_comprehension_is_a_fork():
    (found,) = functions(FILTERED)
    assert found.complexity == 2


def test_one_module_in_five_over_the_limit_is_seen():
    assert share_within([10, 20, 30, 40, 300], 250) == 0.8
