import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.inter_rater import cohens_kappa

from gardens.domain.agreement import concordance, practice
from gardens.domain.errors import DomainError

KEY = [grade for grade in range(11) for _ in (0, 1)]
GOOD = [0, 1, 1, 2, 2, 3, 3, 5, 4, 5, 6, 5, 7, 6, 8, 7, 8, 9, 9, 10, 10, 10]
PAIRS = st.lists(st.tuples(st.integers(0, 10), st.integers(0, 10)), min_size=3, max_size=30)

# Landis and Koch's two neurologists, from memory; the kappas are in vcdExtra's documentation.
WINNIPEG = [[38, 5, 0, 1], [33, 11, 3, 0], [10, 14, 5, 6], [3, 7, 3, 10]]
NEW_ORLEANS = [[5, 3, 0, 0], [3, 11, 4, 0], [2, 13, 3, 4], [1, 2, 4, 14]]


@pytest.mark.parametrize(("counts", "kappa"), [(WINNIPEG, 0.2079), (NEW_ORLEANS, 0.2965)])
def test_the_tables_typed_in_have_the_published_kappa(counts, kappa):
    assert cohens_kappa(numpy.array(counts)).kappa == pytest.approx(kappa, abs=5e-5)


@given(PAIRS)
def test_on_whole_grades_it_is_kappa_with_squared_weights(pairs):
    key, helper = zip(*pairs, strict=True)
    found = concordance(key, helper)
    if len(set(key)) > 1 and len(set(helper)) > 1:
        counts = numpy.zeros((11, 11))
        for pair in pairs:
            counts[pair] += 1
        theirs = cohens_kappa(counts, wt="quadratic").kappa
        assert found.value == pytest.approx(theirs, abs=1e-9)


@given(PAIRS)
def test_it_is_the_product_of_its_parts_and_lies_in_its_interval(pairs):
    found = concordance(*zip(*pairs, strict=True))
    assert -1 <= found.value <= 1 + 1e-12
    if found.precision is not None:
        assert found.value == pytest.approx(found.precision * found.accuracy, abs=1e-9)
    if found.interval:
        assert -1 <= found.interval[0] <= found.value <= found.interval[1] <= 1


@given(pairs=PAIRS, data=st.data())
def test_the_order_of_the_photos_changes_nothing(pairs, data):
    shuffled = data.draw(st.permutations(pairs))
    one, other = (concordance(*zip(*some, strict=True)) for some in (pairs, shuffled))
    assert one.value == pytest.approx(other.value)


def test_a_good_helper_passes_22_photos(table):
    found = practice(concordance(KEY, GOOD), 22, table("judgements"))
    assert (found.passes, found.misses, found.hints) == (True, (), ())


def test_eleven_photos_let_nobody_pass(table):
    found = practice(concordance(KEY[::2], KEY[::2]), 22, table("judgements"))
    assert found.misses == ("too_few_photos",)


def test_a_helper_who_is_always_right_passes_without_an_interval(table):
    assert practice(concordance(KEY, KEY), 22, table("judgements")).passes


def test_a_helper_who_rates_high_is_told_so(table):
    high = [min(10, grade + 1) for grade in KEY]
    found = practice(concordance(KEY, high), 22, table("judgements"))
    assert (found.passes, found.misses, found.hints) == (False, ("bias",), ("rates_high",))


def test_a_helper_who_rates_low_is_told_so(table):
    low = [max(0, grade - 1) for grade in KEY]
    assert practice(concordance(KEY, low), 22, table("judgements")).hints == ("rates_low",)


def test_a_helper_who_avoids_the_ends_is_told_so(table):
    squeezed = [round(5 + 0.6 * (grade - 5)) for grade in KEY]
    found = practice(concordance(KEY, squeezed), 22, table("judgements"))
    assert "avoids_ends" in found.hints and "within_one" in found.misses


def test_a_helper_who_guesses_does_not_pass(table):
    found = practice(concordance(KEY, KEY[::-1]), 22, table("judgements"))
    assert found.misses == ("agreement", "within_one")
    constant = practice(concordance(KEY, [5] * 22), 22, table("judgements"))
    assert not constant.passes and constant.hints == ()


def test_other_photos_are_not_compared():
    with pytest.raises(DomainError, match="not_the_same_photos"):
        concordance([1, 2, 3], [1, 2])
