import pytest

from gardens.domain.errors import DomainError
from gardens.domain.scales import convert, grade_for_percent_galled, read_scale

SCALES = ("pct10", "bp10", "zeck10")

# Barker 1985, as quoted on the Nemaplex teaching page (read there): percent of the root system
# galled for each grade. The American Phytopathological Society's galling index laboratory
# (read) gives the same ends: 0 = 0 %, 10 = 100 %.
BARKER_ANCHORS = [0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100]

# Barker's 0-5 scale stands beside it with 0, 10, 20, 50, 80 and 100 %.
BARKER_0_TO_5 = {0: 0, 10: 1, 20: 2, 50: 5, 80: 8, 100: 10}


@pytest.mark.parametrize("key", SCALES)
def test_each_scale_has_grades_0_to_10_with_words(key, table):
    scale = read_scale(key, table("scales"))
    assert [each.grade for each in scale.grades] == list(range(11))
    assert all(each.words.endswith(".") for each in scale.grades)
    assert all(0 < len(each.short) <= 12 for each in scale.grades)


def test_the_anchors_of_the_linear_scale_are_the_published_ones(table):
    rows = table("scales")["pct10"]["grades"]
    assert [row["anchor_pct"] for row in rows] == BARKER_ANCHORS
    assert not table("scales")["pct10"]["from_memory"]


@pytest.mark.parametrize(("percent", "grade"), BARKER_0_TO_5.items())
def test_a_share_that_is_an_anchor_has_the_published_grade(percent, grade):
    assert grade_for_percent_galled(percent) == grade


def test_bounds_in_the_table_are_those_the_function_uses(table):
    rows = table("scales")["pct10"]["grades"]
    assert grade_for_percent_galled(0) == 0
    for row in rows[1:]:
        assert grade_for_percent_galled(max(row["low_pct"], 0.001)) == row["grade"]
        assert grade_for_percent_galled(row["high_pct"] - 0.001) == row["grade"]
    assert [row["high_pct"] for row in rows[1:-1]] == [row["low_pct"] for row in rows[2:]]


def test_a_single_gall_is_never_grade_0():
    assert grade_for_percent_galled(0.0001) == 1


@pytest.mark.parametrize("percent", [-0.1, 100.1, float("nan")])
def test_a_share_outside_0_to_100_has_no_grade(percent):
    with pytest.raises(DomainError) as refused:
        grade_for_percent_galled(percent)
    assert refused.value.code == "no_grade_for"


def test_the_chart_of_bridge_and_page_turns_at_half_the_roots(table):
    # Bridge and Page 1980, from memory (the original was not seen): 0 is no knots, 5 is half
    # of the roots with parts of main roots, and from 5 on the main roots count.
    scale = table("scales")["bp10"]
    assert scale["from_memory"] is True
    assert {row["grade"]: row["anchor_pct"] for row in scale["grades"] if "anchor_pct" in row} == {
        0: 0,
        5: 50,
    }
    assert all("main root" not in row["words"] for row in scale["grades"][:2])
    assert all("knot" in row["words"] for row in scale["grades"])


def test_the_scheme_of_zeck_counts_roots_out_of_work(table):
    # Zeck 1971, from memory (the original was not seen): 5, 6 and 7 are a quarter, a half and
    # three quarters of the root system out of action.
    scale = table("scales")["zeck10"]
    assert scale["from_memory"] is True
    lost = {row["grade"]: row["lost_pct"] for row in scale["grades"] if "lost_pct" in row}
    assert lost == {0: 0, 5: 25, 6: 50, 7: 75}


@pytest.mark.parametrize("one", SCALES)
@pytest.mark.parametrize("other", SCALES)
def test_no_grade_is_ever_turned_into_a_grade_of_another_scale(one, other):
    if one == other:
        assert convert(5, one, other) == 5
        return
    with pytest.raises(DomainError) as refused:
        convert(5, one, other)
    assert refused.value.code == "no_conversion"


def test_an_unknown_scale_is_refused(table):
    with pytest.raises(DomainError) as refused:
        read_scale("ts5", table("scales"))
    assert refused.value.code == "unknown_scale"
