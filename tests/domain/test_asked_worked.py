import itertools

import pytest

from tests.domain.asking import asked, cells, codes, words
from tests.domain.briefed import BED, bed, line, only_bed
from tests.domain.dug_often import OTHER_BED, checked, seasons, two_beds

TREATED = ((7, 8, 5, 6, 9, 4), (3, 5, 2, 4, 0, 6))
ALONE = ((6, 5, 7, 6), (6, 4, 7, 5))
FELL = ((9, 9, 8, 9, 8, 9, 9, 8), (1, 0, 1, 1, 0, 1, 0, 1))
STAYED = ((6, 5, 7, 6, 6, 6, 6, 6), (6, 6, 7, 6, 6, 6, 7, 6))


def beside(records, **typed):
    return asked("beside_untreated", records, bed=BED, untreated=OTHER_BED, **typed)


def fell(records):
    return asked("seasons_fell", records, bed=BED)


def test_the_treated_bed_is_set_beside_the_one_left_alone():
    # 2.67 (-1.19..5.92): MOVER over the two drops, worked out with numpy.
    answer = beside(two_beds(TREATED, ALONE))
    said = words(answer, "change_beyond_more_not_settled")
    assert said.startswith("The treated bed did 2.7 grades better")
    assert "likely between -1.2 and 6.0" in said
    assert codes(answer) == ["change_beyond_more_not_settled"]


def test_each_bed_is_shown_with_its_two_checks_and_its_own_change():
    answer = beside(two_beds(TREATED, ALONE, raters=("Ada",) * 4))
    told = cells(answer, "North bed, treated")
    assert told["Before"].startswith("2 June 2031: mean 6.5 of 10 (likely 4.4 to 8.1), 6 plants")
    assert told["After"].endswith("Okra, rated by Ada.")
    # 0.0721..5.5231 and exact p 0.0346: numpy and scipy's permutation_test.
    assert told["By itself"] == "Mean fell by 3.2 (likely between 0.0 and 5.6)."
    assert "South bed, left alone" in [row["name"] for row in answer["rows"]]


def test_a_large_difference_is_settled_for_these_two_beds_only():
    said = words(beside(two_beds(FELL, STAYED)), "change_beyond_more_settled")
    assert "8.2 grades better" in said and said.endswith("these two beds only.")


def test_a_treated_bed_that_did_worse_is_told_so():
    assert codes(beside(two_beds(STAYED, FELL))) == ["change_beyond_less_settled"]


def test_beds_that_changed_hands_are_not_settled():
    answer = beside(two_beds(FELL, STAYED, raters=("Ada", "Ben", "Ada", "Ada")))
    assert codes(answer) == ["change_beyond_more_withheld", "beds_raters_differ"]


@pytest.mark.parametrize(
    "raters",
    [("Ada", "Ben", "ada", "Ben"), ("Ada", "Ada", "Ben", "Ben"), ("Ada", "Ben", "", "")],
)
def test_an_eye_that_drops_out_of_the_difference_stands_in_nobodys_way(raters):
    answer = beside(two_beds(FELL, STAYED, raters=raters))
    assert codes(answer) == ["change_beyond_more_settled"]


def test_other_crops_and_other_weeks_are_told():
    other = {"crop": "Tomato", "crop_key": "tomato"}
    days = ("2031-07-01", "2031-08-03")
    answer = beside(two_beds(TREATED, ALONE, grown_there=other, days_other=days))
    assert codes(answer)[1:] == ["beds_crops_differ", "beds_days_apart"]
    assert "up to 29 days apart" in words(answer, "beds_days_apart")


def test_what_else_may_be_behind_a_clear_difference_keeps_it_unsettled():
    other = {"crop": "Tomato", "crop_key": "tomato"}
    answer = beside(two_beds(FELL, STAYED, grown_there=other))
    assert codes(answer) == ["change_beyond_more_withheld", "beds_crops_differ"]
    assert "not settled" in words(answer, "change_beyond_more_withheld")


def test_beds_on_two_scales_are_not_compared():
    for scales in (("pct10", "pct10", "zeck10", "zeck10"), ("pct10", "zeck10") * 2):
        answer = beside(two_beds(TREATED, ALONE, scales=scales))
        assert codes(answer) == ["beds_scales_differ"]
        assert "Tens of percent galled, Zeck 1971" in words(answer, "beds_scales_differ")
        assert len(answer["rows"]) == 2


def test_a_bed_that_lacks_a_check_is_named():
    records = [*two_beds(TREATED, ALONE)[:4], *checked(1, "2031-08-03", (1, 2, 3))]
    answer = beside(records)
    told = [one["words"] for one in answer["lines"]]
    assert "North bed lacks a check to compare: its roots were rated on 1 day" in told[0]
    assert "South bed" in told[1] and "0 days" in told[1]
    assert answer["rows"] == []


def test_worst_looking_plants_are_passed_over_or_not_compared():
    hows = ("random", "worst_looking", "random", "random")
    answer = beside(two_beds(TREATED, ALONE, hows=hows))
    assert codes(answer) == ["beds_picked"]
    assert [row["name"] for row in answer["rows"]] == ["South bed, left alone"]
    later = checked(7, "2031-08-09", (3, 5, 2))
    fair = beside([*two_beds(TREATED, ALONE, hows=hows), *later])
    assert codes(fair) == ["change_beyond_more_not_settled"]


def test_two_plants_are_too_few_to_compare_beds():
    assert codes(beside(two_beds(((7, 8), (3,)), ALONE))) == ["beds_too_few_plants"]


def test_the_day_of_the_treatment_says_which_checks_are_before_and_after():
    early = two_beds(TREATED, ALONE)
    between = [
        *checked(8, "2031-07-20", (9, 9, 9, 9)),
        *checked(9, "2031-07-20", (9, 9, 9, 9), early[3]["id"]),
    ]
    told = cells(beside([*early, *between]), "North bed, treated")
    assert told["Before"].startswith("20 July 2031")
    told = cells(beside([*early, *between], treated_on="2031-06-02"), "North bed, treated")
    assert told["Before"].startswith("2 June 2031") and told["After"].startswith("3 August")
    none = beside(early, treated_on="2031-09-01")
    assert codes(none) == ["beds_none_around"] * 2


def test_a_bed_is_not_compared_with_itself():
    answer = asked("beside_untreated", two_beds(TREATED, ALONE), bed=BED, untreated=BED)
    assert [one["field"] for one in answer["wrong"]] == ["untreated"]


def test_five_falling_seasons_are_told_with_what_chance_does():
    # Counted: of all orders of five seasons one falls every time.
    orders = list(itertools.permutations(range(5)))
    falling = [one for one in orders if list(one) == sorted(one, reverse=True)]
    answer = fell(seasons(8, 7, 5, 4, 2))
    assert "over the last 5 rated seasons" in words(answer, "change_seasons_fell")
    assert f"1 time in {len(orders) // len(falling)}." in words(answer, "change_seasons_fell")
    assert [row["name"] for row in answer["rows"]][0] == "1 September 2020"
    assert cells(answer, "1 September 2020")["Mean"] == "8.0 of 10, likely 6.9 to 8.8"


def test_three_falling_seasons_are_no_trend_yet():
    said = words(fell(seasons(6, 8, 7, 5)), "seasons_too_few")
    assert "1 time in 6, so it is no trend yet: that takes 5 seasons" in said


def test_a_season_that_did_not_fall_and_a_single_one_are_told():
    assert "5.0 before, 6.0 now" in words(fell(seasons(7, 5, 6)), "seasons_did_not_fall")
    assert "mean 5.0" in words(fell(seasons(5)), "seasons_one")
    assert codes(fell([bed()])) == ["seasons_none"]


def test_two_checks_of_one_summer_are_one_season():
    records = [*seasons(8, 7), *checked(30, "2021-07-01", (9, 9, 9), seasons(8, 7)[7]["id"])]
    answer = fell(records)
    assert len(answer["rows"]) == 2
    assert cells(answer, "1 September 2021")["Mean"].startswith("7.0")


def test_seasons_that_are_not_alike_are_left_out_and_told():
    hows = ["random", "random", "worst_looking", "random", "random", "random"]
    answer = fell(seasons(8, 7, 6, 5, 4, 3, crops=["Okra", "Tomato"] * 3, hows=hows))
    (told,) = answer["lines"]
    why = " ".join(one["words"] for one in told["because"])
    assert "over the last 5 rated seasons" in told["words"]
    assert "1 season was left out" in why and "crops were not the same" in why


def test_seasons_on_an_earlier_scale_are_left_out():
    answer = fell(seasons(8, 7, 5, scales=["zeck10", "pct10", "pct10"]))
    assert len(answer["rows"]) == 2
    assert "over the last 2 rated seasons" in words(answer, "seasons_too_few")


def test_the_briefing_tells_falling_seasons_once_there_are_five():
    told = line(only_bed(seasons(8, 7, 5, 4, 2)), "change_seasons_fell")
    assert told["about"] == "roots" and "1 time in 120" in told["words"]
    assert {one["key"] for one in told["assumptions"]} == {"seasons_least", "seasons_gap_days"}


@pytest.mark.parametrize("means", [(8, 7, 5, 4), (8, 7, 5, 6, 2), (2, 4, 5, 7, 8)])
def test_the_briefing_is_silent_about_seasons_before_that(means):
    assert "change_seasons_fell" not in codes(only_bed(seasons(*means)))


def test_the_briefing_of_seasons_is_the_same_in_any_order():
    records = seasons(8, 7, 5, 4, 2)
    assert only_bed(records) == only_bed(records[::-1])
