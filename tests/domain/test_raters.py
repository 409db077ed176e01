import krippendorff
import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardens.domain.raters import ordinal_alpha, raters_agree

RATING = st.one_of(st.none(), st.integers(0, 10))
RATINGS = st.lists(st.lists(RATING, min_size=12, max_size=12), min_size=2, max_size=5)
# Our own: four helpers, eight photos, with gaps.
WITH_GAPS = [
    [0, 2, 5, 7, 9, None, 1, 4],
    [0, 3, 5, 8, 9, 10, 1, None],
    [None, 2, 4, 7, 10, 9, 0, 4],
    [1, 2, 5, None, 9, 10, 1, 5],
]


def theirs(ratings):
    matrix = numpy.array([[numpy.nan if g is None else g for g in row] for row in ratings])
    return krippendorff.alpha(reliability_data=matrix, level_of_measurement="ordinal")


def test_gaps_are_taken_as_the_package_takes_them():
    assert ordinal_alpha(WITH_GAPS) == pytest.approx(theirs(WITH_GAPS), abs=1e-9)


@given(RATINGS)
def test_alpha_agrees_with_the_package(ratings):
    shared = [[g for g in column if g is not None] for column in zip(*ratings, strict=True)]
    if len({g for column in shared if len(column) > 1 for g in column}) > 1:
        assert ordinal_alpha(ratings) == pytest.approx(theirs(ratings), abs=1e-9)


@given(ratings=RATINGS, data=st.data())
def test_the_order_of_raters_changes_nothing(ratings, data):
    one, other = ordinal_alpha(ratings), ordinal_alpha(data.draw(st.permutations(ratings)))
    assert one == pytest.approx(other)


def test_nothing_is_shown_for_one_rater_or_few_shared_plants(table):
    judgements = table("judgements")
    assert raters_agree([list(range(11))], judgements).code == "too_few"
    assert raters_agree([[1] * 11, [None] * 11], judgements).code == "too_few"
    assert raters_agree(WITH_GAPS, judgements).code == "too_few"
    assert raters_agree([], judgements).code == "too_few"


def test_ten_plants_all_alike_compare_nobody(table):
    assert raters_agree([[3] * 10] * 2, table("judgements")).code == "no_spread"


def test_helpers_who_differ_are_not_mixed(table):
    up, down = list(range(11)), list(range(10, -1, -1))
    assert raters_agree([up, down], table("judgements")).code == "differ_too_much"


def test_helpers_who_agree_may_be_mixed(table):
    found = raters_agree([list(range(11)), [0, 1, 3, 3, 4, 5, 6, 8, 8, 9, 10]], table("judgements"))
    assert (found.code, found.n_raters, found.n_shared) == ("may_be_mixed", 2, 11)
    assert found.alpha > 0.67
