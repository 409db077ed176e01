import krippendorff
import pytest

from tests.domain.asking import asked, cells, codes, words
from tests.domain.briefed import BED, bed, dug, planting
from tests.domain.dug_often import checked

KEY = [grade for grade in range(11) for _ in (0, 1)]
GOOD = [0, 1, 1, 2, 2, 3, 3, 5, 4, 5, 6, 5, 7, 6, 8, 7, 8, 9, 9, 10, 10, 10]


def alike(*rows, **typed):
    names = ("mine", "helper", "third")
    given = {name: " ".join(map(str, row)) for name, row in zip(names, rows, strict=False)}
    return asked("grade_alike", **given, **typed)


def of_bed(*checks):
    return asked("grade_alike", [bed(), planting(), *sum(checks, [])], bed=BED)


def test_a_helper_who_grades_as_the_key_passes():
    # Concordance 0.970 (0.933..0.987) for these 22, by the package audmetric: bias 0.5, 21 of 22.
    answer = alike(KEY, GOOD)
    assert words(answer, "practice_passes") == (
        "Your helper and you grade alike: 21 of 22 within one grade."
    )
    told = cells(answer, "You and your helper")
    assert told["On average"] == "Your helper 0.5 grades higher"
    assert (told["Within one grade"], told["By the rule"]) == ("21 of 22", "alike")


@pytest.mark.parametrize(
    ("helper", "code"),
    [(GOOD, "raters_may_be_mixed"), (KEY[::-1], "raters_differ_too_much")],
)
def test_whether_grades_may_go_into_one_mean_agrees_with_the_package(helper, code):
    theirs = krippendorff.alpha([KEY, helper], level_of_measurement="ordinal")
    assert (theirs >= 0.67) == (code == "raters_may_be_mixed")
    assert code in codes(alike(KEY, helper))


def test_a_helper_a_grade_too_high_is_told_so_and_does_not_pass():
    answer = alike(KEY, [min(10, grade + 1) for grade in KEY])
    assert codes(answer)[:2] == ["practice_not_yet", "practice_rates_high"]
    assert "higher than you, by 0.9 on average" in words(answer, "practice_rates_high")


def test_few_plants_show_a_bias_and_let_nobody_pass():
    answer = alike([1, 2, 3, 4, 5], [2, 3, 4, 5, 6])
    assert codes(answer) == ["practice_not_yet", "practice_too_few_photos", "practice_rates_high"]
    assert "that takes 22" in words(answer, "practice_too_few_photos")


def test_two_plants_cannot_be_set_beside_each_other():
    assert codes(alike([1, 2], [1, 2])) == ["raters_fewer_than_three"]


def test_three_people_are_told_all_together_and_two_by_two():
    answer = alike(KEY, GOOD, KEY[::-1])
    assert codes(answer)[0] == "raters_differ_too_much"
    assert [row["name"] for row in answer["rows"]] == [
        "You and your helper",
        "You and the third person",
        "Your helper and the third person",
    ]


def test_both_rows_or_a_bed_are_needed_and_of_one_length():
    for typed, field in (((), "mine"), (([1, 2, 3],), "helper"), (([1, 2, 3], [1, 2]), "helper")):
        assert [one["field"] for one in alike(*typed)["wrong"]] == [field]


def test_plants_two_people_rated_are_found_in_the_checks_of_a_bed():
    grades = list(range(11))
    higher = [0, 2, 2, 4, 4, 6, 7, 7, 9, 9, None]
    answer = of_bed(
        checked(1, "2031-08-03", grades, rater="Ada"),
        checked(2, "2031-08-04", higher, rater=" Ben "),
        checked(3, "2031-08-09", [1] * 11, rater="Cy"),
    )
    told = cells(answer, "Ada and Ben")
    assert told["Both rated"] == "10" and told["On average"] == "Ben 0.5 grades higher"
    assert words(answer, "practice_not_yet").startswith("Not yet sure that Ben and Ada grade alike")
    assert "on 10 plants" in words(answer, "raters_may_be_mixed")


def test_checks_without_a_name_or_on_two_scales_are_not_set_beside_each_other():
    ada = checked(1, "2031-08-03", [1, 2, 3], rater="Ada")
    for other in (
        checked(2, "2031-08-03", [1, 2, 3]),
        checked(2, "2031-08-03", [1, 2, 3], rater="ADA"),
        checked(2, "2031-08-03", [1, 2, 3], scale="zeck10", rater="Ben"),
        checked(2, "2031-08-03", [None] * 3 + [1, 2, 3], rater="Ben"),
    ):
        assert codes(of_bed(ada, other)) == ["raters_none_shared"]


def test_a_bed_that_one_person_rated_says_what_to_do():
    answer = asked("grade_alike", dug(1, 2, 3), bed=BED)
    assert codes(answer) == ["raters_none_shared"]
    assert "Start a check each" in str(answer["lines"][0]["settle"])


def test_grades_typed_in_go_before_those_of_a_bed():
    answer = alike(KEY, GOOD, bed=BED)
    assert [one["field"] for one in answer["wrong"]] == ["bed"]
    typed = asked("grade_alike", [bed()], bed=BED, mine="1 2 3", helper="1 2 3")
    assert "practice_not_yet" in codes(typed)


def test_the_order_of_the_records_changes_nothing():
    records = [
        bed(),
        planting(),
        *checked(1, "2031-08-03", [1, 5, 3], rater="Ada"),
        *checked(2, "2031-08-03", [2, 5, 3], rater="Ben"),
    ]
    one, other = (asked("grade_alike", some, bed=BED) for some in (records, records[::-1]))
    assert one == other
