import pytest

from tests.domain.asking import asked, cells, codes, words
from tests.domain.briefed import BED, TABLES, bed, dug, planting, rating

# Barker's table: the grades of 0 to 5 and 1 to 6 stand beside these tens of percent.
BESIDE = [(0, 0), (1, 1), (2, 2), (3, 5), (4, 8), (5, 10)]


def wrong(answer):
    return {one["field"]: one["words"] for one in answer["wrong"]}


@pytest.mark.parametrize(("percent", "grade"), [(0.1, 1), (14.9, 1), (37, 4), (50, 5), (95, 10)])
def test_a_percentage_is_told_as_a_grade(percent, grade):
    # The anchors are Barker's, 10 % to a grade; nearest anchor is our rule.
    said = words(asked("which_grade", percent=percent), "grade_for_percent")
    assert f"{percent:g} % of the roots galled is grade {grade} " in said


def test_no_gall_is_told_with_the_rule_for_one_gall():
    assert "One gall makes it grade 1" in words(asked("which_grade", percent=0), "grade_for_none")


@pytest.mark.parametrize(("grade", "beside"), BESIDE)
@pytest.mark.parametrize(("scale", "first"), [("barker5", 0), ("barker6", 1)])
def test_a_grade_of_the_old_tables_stands_beside_a_published_anchor(grade, beside, scale, first):
    answer = asked("which_grade", grade=grade + first, gall_scale=scale)
    assert f"grade {beside} of tens of percent" in words(answer, "grade_beside")


def test_a_quarter_has_no_grade_of_its_own_among_tens():
    answer = asked("which_grade", grade=1, gall_scale="barker4")
    said = words(answer, "grade_between")
    assert "stands for 25 % galled" in said and "between 2 and 3" in said
    (told,) = answer["rows"]
    assert told["cells"][3]["words"] == "75 % galled; on tens of percent 7 or 8"


@pytest.mark.parametrize("scale", ["pct10", "bp10", "zeck10"])
def test_a_grade_is_not_turned_into_another_scales(scale):
    answer = asked("which_grade", grade=5, gall_scale=scale)
    assert codes(answer) == ["grade_not_turned"]
    assert "No table is published" in words(answer, "grade_not_turned")
    own, *others = answer["rows"]
    assert own["name"] == TABLES["scales"][scale]["name"]
    for other in others:
        assert cells(answer, other["name"])["Yours turned into it"].startswith("No")


def test_the_scales_stand_side_by_side_and_say_what_is_from_memory():
    answer = asked("which_grade", grade=5)
    assert cells(answer, "Tens of percent galled")["In percent"] == "50 % of the roots galled"
    assert cells(answer, "Zeck 1971")["In percent"] == "25 % of the roots out of work"
    for name in ("Zeck 1971", "Bridge and Page 1980"):
        assert "from memory; the original was not seen" in cells(answer, name)["About it"]


def test_grade_nought_is_shared_by_all():
    answer = asked("which_grade", grade=0, gall_scale="zeck10")
    assert codes(answer) == ["grade_none_on_all"]
    turned = cells(answer, "Tens of percent galled")["Yours turned into it"]
    assert turned == "Grade 0 too: no gall at all."


def test_both_may_be_asked_at_once_and_one_has_to():
    both = asked("which_grade", percent=37, grade=5)
    assert codes(both) == ["grade_for_percent", "grade_not_turned"]
    assert set(wrong(asked("which_grade"))) == {"percent"}


@pytest.mark.parametrize(("grade", "scale"), [(7, "barker5"), (0, "barker6"), (2.5, "pct10")])
def test_a_grade_the_scale_does_not_have_is_refused(grade, scale):
    assert set(wrong(asked("which_grade", grade=grade, gall_scale=scale))) == {"grade"}


def test_the_severity_index_is_told_with_its_interval_and_the_spread():
    # Index as written by Chiang, Liu and Bock: 100 x 16 / (10 x 10) for these counts.
    answer = asked("severity", dug(0, 0, 0, 1, 1, 1, 1, 3, 3, 6), bed=BED)
    assert words(answer, "severity_interval").startswith("Severity index 16 % (likely 7 to 33 %)")
    assert words(answer, "incidence_some_galled").startswith("7 of 10")
    spread = cells(answer, "Plants with each grade")
    assert spread["Grade 1 (a trace)"] == "4 of 10 (40 %)"
    assert len(spread) == 4
    assert cells(answer, "Middle and ends")["Middle plant (median)"] == "1.0 of 10"


def test_the_interval_of_the_index_is_ten_times_the_means():
    # 0.807342..4.157667 for the mean: scipy's brentq on the score equation.
    said = words(asked("severity", dug(0, 1, 1, 2, 3, 5), bed=BED), "severity_interval")
    assert "20 % (likely 8 to 42 %)" in said


def test_an_index_without_an_interval_speaks_of_these_plants_only():
    picked = asked("severity", dug(8, 9, 9, how="worst_looking"), bed=BED)
    assert codes(picked) == ["severity_no_interval", "incidence_picked"]


def test_a_plant_read_twice_counts_once_in_the_index():
    again = rating(9, 4, place=(30, 30))
    again["doc"]["place"]["plant"] = 1
    answer = asked("severity", [*dug(2, 5, 5), again], bed=BED)
    # Mean of 3, 5 and 5, by hand.
    assert "Severity index 43.3 %" in words(answer, "severity_interval")
    assert "Readings with each grade" in [row["name"] for row in answer["rows"]]
    assert "read_twice" in codes(answer)


def test_a_bed_nobody_rated_has_no_index():
    for records in ([bed()], dug()):
        answer = asked("severity", records, bed=BED)
        assert (codes(answer), answer["rows"]) == (["asked_no_check"], [])
    assert set(wrong(asked("severity"))) == {"bed"}


def test_every_look_alike_is_told_with_how_to_tell_it():
    answer = asked("look_alikes")
    names = [row["name"] for row in answer["rows"]]
    known = [row["name"] for row in TABLES["look_alikes"] if row["key"] != "unsure"]
    assert names == ["Root-knot gall", *known]
    # Clubs taper, galls are rounder: the extension pages named in the table.
    assert "tapering" in cells(answer, "Clubroot (cabbage family)")["How to tell"]
    assert "From memory" in cells(answer, "Crown gall")["How sure"]


def test_a_regulated_look_alike_is_told_with_care():
    (row,) = [row for row in asked("look_alikes")["rows"] if row["caution"]]
    assert row["name"].startswith("False root-knot")


def test_what_was_noted_in_the_bed_and_what_its_crops_can_have_come_first():
    odd = rating(5, 6, look_alike="crown_gall")
    cabbage = planting(crop="Cabbage", crop_key="cabbage")
    records = [cabbage if one["kind"] == "planting" else one for one in [*dug(2, 3), odd]]
    answer = asked("look_alikes", records, bed=BED)
    assert words(answer, "look_alike_noted").startswith("Crown gall: noted")
    assert [row["name"] for row in answer["rows"]][1:3] == [
        "Crown gall",
        "Clubroot (cabbage family)",
    ]


def test_a_bed_without_a_note_says_so():
    assert "look_alike_none_noted" in codes(asked("look_alikes", [bed()], bed=BED))
