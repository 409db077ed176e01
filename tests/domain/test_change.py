import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.proportion import confint_proportions_2indep

from gardens.domain.change import Side, beyond_untreated, falling_seasons, mean_drop, verdict
from gardens.domain.difference import Estimate, apart, chance_of_lower
from gardens.domain.errors import DomainError
from gardens.domain.incidence import wilson_interval

GRADES = st.lists(st.integers(0, 10), min_size=3, max_size=9)
BEFORE, AFTER = (7, 8, 5, 6, 9, 4), (3, 5, 2, 4, 0, 6)


def side(*grades, **more):
    return Side(grades, "pct10", **more)


@given(st.tuples(st.integers(0, 20), st.integers(0, 20)))
def test_two_shares_lie_apart_as_in_statsmodels(counts):
    shares = [Estimate(k / 20, *wilson_interval(k, 20)) for k in counts]
    low, high = confint_proportions_2indep(counts[0], 20, counts[1], 20, method="newcomb")
    found = apart(*shares)
    assert (found.low, found.high) == pytest.approx((low, high), abs=1e-9)


@given(before=GRADES, after=GRADES)
def test_a_drop_lies_in_its_interval_and_stays_on_the_scale(before, after):
    drop = mean_drop(side(*before), side(*after))
    assert -10 <= drop.low <= drop.value <= drop.high <= 10


@given(before=GRADES, after=GRADES)
def test_swapping_the_checks_turns_everything_round(before, after):
    one, other = (chance_of_lower(*pair) for pair in ((before, after), (after, before)))
    assert one.value == pytest.approx(1 - other.value)
    assert (one.low, one.high) == pytest.approx((1 - other.high, 1 - other.low), abs=1e-9)
    assert 0 <= one.low <= one.value <= one.high <= 1


@given(order=st.permutations(BEFORE))
def test_the_order_of_the_plants_changes_nothing(table, order):
    judgements = table("judgements")
    found = verdict(side(*order), side(*AFTER), judgements)
    assert (found.code, found.chance) == ("clear", pytest.approx(0.034632035))


def test_three_plants_each_are_never_clear(table):
    found = verdict(side(8, 7, 9), side(2, 0, 3), table("judgements"))
    assert (found.code, found.direction, found.chance) == ("few_parted", "fell", 0.1)


def test_four_plants_each_are_never_clear_either(table):
    found = verdict(side(9, 9, 10, 10), side(0, 0, 0, 0), table("judgements"))
    assert (found.code, found.chance) == ("few_parted", pytest.approx(1 / 35))


def test_two_plants_are_too_few(table):
    found = verdict(side(7, 8), side(2, 3, 1), table("judgements"))
    assert (found.code, found.drop) == ("too_few", None)
    assert verdict(side(), side(), table("judgements")).code == "too_few"


def test_the_worst_looking_plants_are_not_compared(table):
    picked = side(9, 9, 8, 9, 9, 9, how="worst_looking")
    found = verdict(picked, side(1, 1, 0, 1, 2, 0), table("judgements"))
    assert (found.code, found.drop) == ("picked", None)


def test_a_rise_is_as_clear_as_a_fall(table):
    found = verdict(side(*AFTER), side(*BEFORE), table("judgements"))
    assert (found.code, found.direction) == ("clear", "rose")


def test_one_sign_of_two_only_points_that_way(table):
    found = verdict(side(5, 5, 5, 6, 5), side(3, 4, 4, 5, 4), table("judgements"))
    assert found.chance <= 0.05 and found.drop.low < 0
    assert found.code == "points_that_way"


@pytest.mark.parametrize(
    ("bias", "code", "withheld"),
    [
        (None, "points_that_way", "raters_unknown"),
        (-2.0, "points_that_way", "raters_differ"),
        (0.4, "clear", None),
    ],
)
def test_two_raters_can_stand_in_the_way_of_clear(table, bias, code, withheld):
    before, after = side(*BEFORE, rater="Ada"), side(*AFTER, rater="Ben")
    found = verdict(before, after, table("judgements"), bias)
    assert (found.code, found.withheld) == (code, withheld)


def test_the_same_rater_needs_no_practice(table):
    before, after = side(*BEFORE, rater="Ada"), side(*AFTER, rater="Ada")
    assert verdict(before, after, table("judgements")).code == "clear"


def test_checks_on_two_scales_are_not_compared(table):
    with pytest.raises(DomainError, match="scales_differ"):
        verdict(side(*BEFORE), Side(AFTER, "zeck10"), table("judgements"))
    with pytest.raises(DomainError, match="scales_differ"):
        beyond_untreated((side(*BEFORE), side(*AFTER)), (Side(BEFORE, "zeck10"),) * 2)


def test_beds_dug_whole_differ_by_what_was_counted(table):
    drop = mean_drop(side(*BEFORE, n_plants=6), side(*AFTER, n_plants=6))
    assert drop.low == drop.value == drop.high


def test_an_untreated_bed_with_two_plants_tells_nothing():
    pair = (side(*BEFORE), side(*AFTER))
    assert beyond_untreated(pair, (side(3, 4), side(4, 4, 5))) is None


@pytest.mark.parametrize(
    ("means", "n"), [([], 0), ([4], 1), ([5, 4, 3, 2], 4), ([3, 6, 5, 2], 3), ([2, 2], 1)]
)
def test_falling_seasons_are_counted_from_the_last(means, n):
    assert falling_seasons(means) == n
