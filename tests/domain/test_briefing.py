import json

import pytest

from tests.domain.briefed import (
    CHECK,
    FIXTURES,
    bed,
    brief,
    check,
    codes,
    dug,
    id_of,
    line,
    only_bed,
    planting,
    rating,
    record,
)

EARLIER = id_of(7, 0x77)


def test_a_mean_is_told_with_its_interval():
    # 0.807342..4.157667: scipy's brentq on the score equation, as in the tests of galling.
    told = only_bed(dug(0, 1, 1, 2, 3, 5))
    assert (told["roots"]["mean"], told["roots"]["interval"]) == (2.0, [0.8, 4.2])
    assert (
        "mean grade was 2.0 of 10 on 6 plants rated on 3 August 2031"
        in (line(told, "roots_interval")["words"])
    )
    assert "likely 0.8 to 4.2" in line(told, "roots_interval")["words"]


def test_plants_without_a_gall_leave_room_for_galled_ones():
    # scipy's hypergeom: 6 of 12 dug, none galled leaves at most 3 galled.
    told = only_bed(dug(0, 0, 0, 0, 0, 0, n_plants_stood=12))
    assert told["roots"]["at_most"] == {"n": 3, "of": 12}
    assert "at most 3 of the 12" in line(told, "incidence_none_galled_of_bed")["words"]
    assert told["roots"]["interval"][1] > 0


def test_how_many_more_to_dig_is_told_while_the_crop_stands():
    # 13 in total for 0,1,1,2,3,5 and one grade: scipy's t, found by brute force.
    until = planting(grown={"from_on": "2031-05-02", "to_on": "2031-09-20"})
    told = only_bed([until if one["kind"] == "planting" else one for one in dug(0, 1, 1, 2, 3, 5)])
    assert told["roots"]["more_to_dig"] == {"n_total": 13, "n_more": 7, "half_width": 1.0}
    more = line(told, "more_dig_more")
    assert (more["about"], more["by"]) == ("next", "2031-09-20")
    assert {one["key"] for one in more["assumptions"]} >= {"check_target_half_width"}


def test_after_the_crop_the_number_to_dig_is_for_next_time():
    over = planting(grown={"from_on": "2031-05-02", "to_on": "2031-08-05"})
    told = only_bed([over if one["kind"] == "planting" else one for one in dug(0, 1, 1, 2, 3, 5)])
    assert "13 plants" in line(told, "more_next_time")["words"]
    assert line(told, "more_next_time")["by"] is None
    assert (told["planting"], told["crop"]) == (None, None)
    assert told["roots"]["crop"] == "Okra"


def test_the_worst_looking_plants_say_nothing_of_the_bed():
    told = only_bed(dug(7, 8, 9, 7, 9, 8, 8, 9, how="worst_looking"))
    roots = told["roots"]
    assert (roots["why"], roots["interval"], roots["incidence"]) == ("picked", None, None)
    assert roots["more_to_dig"] is None and told["surface"] is None
    assert "not how bad the bed is" in line(told, "roots_picked")["words"]
    assert line(told, "roots_picked")["settle"]


@pytest.mark.parametrize(
    ("grades", "changed", "why"),
    [
        ((3, 4), {}, "too_few"),
        ((3, 4, 5), {"how": "all", "n_plants_stood": 3}, "whole_bed"),
        ((3, 4, 5), {"how": "all", "n_plants_stood": 9}, "unfinished"),
        ((3, 4, 5), {"how": "all", "n_plants_stood": None}, "unfinished"),
        ((), {}, "none_rated"),
    ],
)
def test_a_mean_without_an_interval_says_why(grades, changed, why):
    told = only_bed(dug(*grades, **changed))
    assert (told["roots"]["why"], told["roots"]["interval"]) == (why, None)
    assert f"roots_{why}" in codes(told)


def test_a_bed_nobody_rated_is_told_to_dig_when_its_crop_ends():
    until = planting(grown={"from_on": "2031-05-02", "to_on": "2031-09-20"})
    told = only_bed([bed(), until])
    assert told["roots"] is None
    assert line(told, "never_rated")["by"] == "2031-09-20"
    assert "8 plants" in line(told, "never_rated")["words"]
    assert codes(only_bed([bed()])) == ["never_rated_bare"]


def test_a_check_that_was_only_begun_does_not_hide_the_one_before():
    begun = check(EARLIER, checked_on="2031-08-09")
    told = only_bed([*dug(1, 2, 3), begun])
    assert told["roots"]["root_check"] == CHECK


def test_a_plant_read_twice_counts_once_and_is_told():
    again = rating(9, 4, place=(30, 30))
    again["doc"]["place"]["plant"] = 1
    told = only_bed([*dug(2, 5, 5), again])
    assert (told["roots"]["reading_twice"], told["roots"]["mean"]) == (1, pytest.approx(13 / 3))
    assert "1 plant was read more than once" in line(told, "read_twice")["words"]


def test_grades_of_another_scale_are_left_out_and_told():
    told = only_bed([*dug(2, 3, 4), rating(5, 9, scale="zeck10")])
    assert (told["roots"]["mean"], told["roots"]["n_rated"]) == (3, 3)
    assert "1 plant was rated on another scale" in line(told, "other_scale_left_out")["words"]


def test_dead_plants_look_alikes_and_damage_are_told_apart():
    odd = rating(5, 6, look_alike="clubroot")
    odd["doc"]["produce_damage"] = {"n_examined": 5, "n_damaged": 2, "signs": "forked"}
    told = only_bed([*dug(2, 3, 4), odd, rating(6, None, state="dead")])
    assert line(told, "look_alike_noted")["words"].startswith("Clubroot")
    assert "edis_eny024" in line(told, "look_alike_noted")["sources"]
    assert "2 of 5 pieces" in line(told, "produce_damaged")["words"]
    assert "1 dead, 0 missing" in line(told, "not_rated_apart")["words"]


def as_text(told):
    return json.dumps(told, sort_keys=True)


def two_checks(before, after, **changed):
    earlier = check(EARLIER, **{"checked_on": "2031-06-20", **changed})
    ratings = [rating(n, grade, own=EARLIER) for n, grade in enumerate(before)]
    return [*dug(*after), earlier, *ratings]


def test_two_checks_of_a_bed_are_compared_with_an_interval():
    # MOVER 0.0721..5.5231 and exact p 0.0346: numpy and scipy's permutation_test.
    told = only_bed(two_checks((7, 8, 5, 6, 9, 4), (3, 5, 2, 4, 0, 6)))
    change = line(told, "change_clear_fell")
    assert "fell by 3.2 (likely between 0.0 and 5.6)" in change["words"]
    assert change["because"][0]["words"].startswith("Interval")
    assert "Checks of 20 June 2031 and 3 August 2031 compared." in [
        one["words"] for one in change["because"]
    ]
    assert "zou_donner_2008" in change["sources"]


def test_three_plants_each_time_cannot_be_clear():
    told = only_bed(two_checks((8, 7, 9), (2, 0, 3)))
    assert "1 time in 10" in line(told, "change_few_parted_fell")["words"]


def test_checks_on_two_scales_are_not_compared():
    records = two_checks((7, 8, 5, 6), (3, 5, 2, 4), gall_scale="zeck10")
    for one in records:
        if one["kind"] == "gall_rating" and one["doc"]["root_check"] == EARLIER:
            one["doc"]["reading"]["gall_scale"] = "zeck10"
    told = only_bed(records)
    assert "not compared" in line(told, "change_scales_differ")["words"]


def test_a_check_of_the_worst_looking_plants_is_not_compared_with_another():
    told = only_bed(two_checks((9, 9, 8), (3, 5, 2, 4), how="worst_looking"))
    assert "not compared" in line(told, "change_one_picked")["words"]


def test_an_old_check_and_one_still_to_come_are_told():
    assert "check_old" in codes(only_bed(dug(1, 2, 3), today="2032-09-01"))
    assert "dated_ahead" in codes(only_bed(dug(1, 2, 3), today="2031-07-01"))
    assert only_bed(dug(1, 2, 3), today="2031-07-01")["roots"]["days_ago"] == 0


def test_deleted_records_and_beds_put_away_are_not_told():
    records = dug(1, 2, 3)
    records[2] = {**records[2], "deleted": True, "doc": {}}
    told = brief(records)
    assert (told["beds"][0]["roots"], codes(told)) == (None, [])
    assert brief([bed(archived=True), *dug(1)[1:]])["beds"] == []


def test_what_hangs_on_nothing_or_cannot_be_read_is_told_and_left_out():
    adrift = rating(1, 2, own=EARLIER)
    broken = record("bed", EARLIER, name="", shape=None)
    told = brief([*dug(1, 2, 3), adrift, broken, record("weather", EARLIER)])
    assert codes(told) == ["entries_adrift", "entries_unreadable"]
    assert told["beds"][0]["roots"]["n_rated"] == 3


def test_a_field_of_a_newer_version_does_not_hide_a_record():
    records = dug(1, 2, 3)
    records[0]["doc"]["colour"] = "green"
    assert only_bed(records)["roots"]["n_rated"] == 3


@pytest.mark.parametrize("today", ["2026-11-20", "2025-01-01", "2031-01-01"])
def test_the_invented_garden_is_told_the_same_from_first_to_last(today):
    made = json.loads((FIXTURES / "demo" / "garden.json").read_text(encoding="utf-8"))
    records = [record(one["kind"], one["id"], **one["set"]) for one in made["mutations"]]
    told = brief(records, today)
    assert [one["name"] for one in told["beds"]][:2] == ["Fig corner", "Rain barrel bed"]
    assert json.dumps(told, sort_keys=True) == json.dumps(
        brief(records[::-1], today), sort_keys=True
    )


def test_a_bed_nobody_counted_is_never_called_whole():
    told = only_bed(dug(3, 4, 5, how="all", n_plants_stood=None))
    assert "3 of an uncounted number have a grade" in line(told, "roots_unfinished")["words"]
