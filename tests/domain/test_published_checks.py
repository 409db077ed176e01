import pytest

from tests.domain.checks import FIXTURES, all_cases, run_case

CASES = all_cases()
N_FILES = len(list((FIXTURES / "checks").glob("*.json")))
MARKS = {"published", "reference library", "from memory", "computed"}


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_a_value_from_outside_comes_out(case):
    ok, got = run_case(case)
    assert ok, f"got {got}, expected {case['expect']} ({case['source']})"


def test_there_are_cases_and_no_file_is_without_any():
    assert len(CASES) >= 100
    assert len({case["file"] for case in CASES}) == N_FILES >= 15


def test_every_case_has_its_own_name():
    assert len({case["id"] for case in CASES}) == len(CASES)


def test_every_case_says_where_its_value_is_from():
    assert all(case["source"] and case["mark"] in MARKS for case in CASES)


def test_a_case_that_does_not_come_out_is_told():
    case = {"call": "scales.grade_for_percent_galled", "args": [50], "expect": 5}
    assert run_case(case) == (True, 5)
    assert run_case({**case, "expect": 6}) == (False, 5)
    assert run_case({**case, "args": [101], "expect": {"error": "no_grade_for"}})[0]
