import math
import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardens.domain.briefing.lines import filled
from gardens.domain.change import Side, beyond_untreated, verdict
from gardens.domain.change_lines import beyond_line, change_lines, season_line
from gardens.domain.difference import Estimate
from gardens.domain.said import percent, shown_high, shown_low

BEFORE, AFTER = (7, 8, 5, 6, 9, 4), (3, 5, 2, 4, 0, 6)
GRADES = st.lists(st.integers(0, 10), max_size=8)


def side(*grades, **more):
    return Side(grades, "pct10", **more)


@pytest.fixture
def spoken(table):
    """The sentences for two checks."""
    rows = table("verdicts")

    def speak(before, after, bias=None, beyond=None):
        found = verdict(before, after, table("judgements"), bias)
        lines = change_lines(found, bias, beyond)
        return [filled(rows[line.code]["words"], line.params) for line in lines]

    return speak


def test_too_few_plants_are_listed(spoken):
    assert spoken(side(7, 8), side(2)) == ["Too few plants to compare. Before: 7, 8. After: 2."]


def test_three_plants_each_are_told_with_what_chance_does(spoken):
    first = spoken(side(8, 7, 9), side(2, 0, 3))[0]
    assert "All 3 plants after" in first and "(mean 8.0 to 1.7)" in first
    assert first.endswith("1 time in 10.")


def test_a_clear_fall_is_told_with_its_interval_and_its_chance(spoken):
    found = spoken(side(*BEFORE), side(*AFTER))
    assert found[0] == "Mean fell by 3.2 (likely between 0.0 and 5.6)."
    assert "about 9 times in 10" in found[1]
    assert "A bed left as it was" in found[2]


def test_a_rise_is_told_in_numbers_above_nothing(spoken):
    found = spoken(side(*AFTER), side(*BEFORE))
    assert found[0] == "Mean rose by 3.2 (likely between 0.0 and 5.6)."
    assert "more galled" in found[1]


def test_what_cannot_be_told_from_luck_says_what_would_help(spoken):
    found = spoken(side(0, 0, 2, 0, 5), side(0, 0, 0, 1, 0))
    assert found[0].startswith("Mean fell from 1.4 to 0.2. We cannot tell this from luck yet;")
    assert found[1].startswith("Digging 8 each time")


def test_an_untreated_bed_takes_the_place_of_the_warning(spoken):
    pair, untreated = (side(*BEFORE), side(*AFTER)), (side(6, 5, 7, 6), side(6, 4, 7, 5))
    last = spoken(*pair, beyond=beyond_untreated(pair, untreated))[-1]
    assert last.startswith("The treated bed did 2.7 grades better than the one left alone")
    assert "not settled: likely between -1.2 and 6.0" in last
    other = spoken(*pair, beyond=Estimate(-1.5, -3, -0.2))[-1]
    assert "1.5 grades worse" in other and "between 0.2 and 3.0" in other


def test_what_stands_in_the_way_keeps_a_difference_from_being_settled():
    assert beyond_line(Estimate(2, 1, 3)).code == "change_beyond_more_settled"
    assert beyond_line(Estimate(2, 1, 3), True).code == "change_beyond_more_withheld"
    assert beyond_line(Estimate(-2, -3, 1), True).code == "change_beyond_less_not_settled"


def test_two_raters_in_the_way_are_told(spoken):
    before, after = side(*BEFORE, rater="Ada"), side(*AFTER, rater="Ben")
    assert any("differ by 2.0 grades" in one for one in spoken(before, after, -2.0))
    assert any("nobody knows how far" in one for one in spoken(before, after))


def test_a_trend_is_not_told_before_five_seasons(table):
    assert season_line([5, 4, 3, 2], table("judgements")) is None
    assert season_line([5, 4, 3, 2, 1], table("judgements")).params == {"n": 5, "one_in": 120}


@given(before=GRADES, after=GRADES, bias=st.sampled_from([None, 0.2, 4.0]))
def test_every_verdict_has_its_words(table, before, after, bias):
    found = verdict(side(*before, rater="A"), side(*after, rater="B"), table("judgements"), bias)
    for line in change_lines(found, bias):
        words = table("verdicts")[line.code]["words"]
        named = {name for _, name, _, _ in string.Formatter().parse(words) if name}
        assert named <= set(line.params)
        assert "-" not in filled(words, line.params).split("(")[0]


@given(st.floats(-30, 30))
def test_ends_are_rounded_outward(value):
    assert shown_low(value) <= value + 1e-6 and shown_high(value) >= value - 1e-6
    assert math.isclose(shown_high(value) - shown_low(value), 0.1, abs_tol=0.1 + 1e-6)


@given(st.floats(0, 1))
def test_a_share_is_never_rounded_to_none_or_all(share):
    assert (percent(share) in (0, 100)) == (share in (0, 1))
