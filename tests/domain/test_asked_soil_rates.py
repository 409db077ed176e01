import pytest
import scipy.constants as exact

from gardens.domain.asked.quantities import UNITS, figure
from tests.domain.asking import asked, cells, codes, words
from tests.domain.briefed import BED, TABLES, bed

HUNDRED_FT2 = 100 * exact.foot**2


def test_every_question_offers_the_units_by_the_names_the_answers_use():
    for key in ("dressing", "same_rate", "too_much_nitrogen"):
        (unit,) = [one for one in TABLES["questions"][key]["fields"] if one["name"] == "unit"]
        assert {one["value"]: one["label"] for one in unit["options"]} == UNITS


def test_a_rate_over_a_hundred_square_feet_weighs_its_pounds():
    answer = asked(
        "dressing",
        treatment="chicken_litter",
        rate=20,
        unit="lb_per_100_ft2",
        area_m2=HUNDRED_FT2,
        nitrogen_percent=1,
    )
    assert words(answer, "amount_dressing") == (
        "Weigh out 9.07 kg (20 lb) for 9.29 m² (100 square feet), at 20 lb per 100 square feet."
    )
    # Riegel and others 1996: 0.125 to 1 % of soil weight, that is 5 to 40 lb per 100 square feet
    # for 15 cm of soil at 1.3 g/cm3.
    assert "(5 to 40 lb per 100 square feet)" in words(answer, "rate_within_tested")
    assert codes(answer)[0] == "amount_dressing"


def test_a_dressing_with_too_much_nitrogen_says_so_before_anything_else():
    answer = asked(
        "dressing",
        [bed()],
        treatment="chicken_litter",
        rate=40,
        unit="lb_per_100_ft2",
        bed=BED,
    )
    found = ["nitrogen_more_than_a_crop_takes", "nitrogen_most_here"]
    assert codes(answer)[:2] == found
    # 40 lb of litter with 3 % nitrogen carry 1.2 lb of it, by hand.
    assert "1.2 lb per 100 square feet" in words(answer, found[0])
    # 17 g of nitrogen are in 567 g of litter at 3 %; 3.6 m2 take 2.04 kg, by hand.
    assert "11.6 lb per 100 square feet, 2.04 kg (4.49 lb)" in words(answer, found[1])
    (line, *_) = answer["lines"]
    assert any("from memory" in one["words"] for one in line["because"])


def test_the_figure_on_the_bag_goes_before_the_usual_one():
    typed = {"treatment": "chicken_litter", "rate": 500, "area_m2": 1}
    usual, given = asked("dressing", **typed), asked("dressing", nitrogen_percent=4, **typed)
    assert "15 g" in words(usual, "nitrogen_within_a_season")
    assert "20 g" in words(given, "nitrogen_more_than_a_crop_takes")
    (line, *_) = given["lines"]
    assert any("as you gave it" in one["words"] for one in line["because"])


def test_unknown_nitrogen_is_not_called_none():
    answer = asked("dressing", treatment="animal_dung", rate=1500, area_m2=1)
    assert (
        words(answer, "nitrogen_not_known") == "How much nitrogen this carries is not known here."
    )
    assert "Ammonia" in cells(answer, "Animal dung")


def test_a_bag_of_shell_meal_is_set_beside_the_pots_and_lies_below_them():
    # 2 to 5 lb on the bag; pots had 1 to 13.3 % of soil weight (Rodriguez-Kabana; shell meals).
    answer = asked(
        "dressing", treatment="shell_meal_shop_rate", rate=5, unit="lb_per_100_ft2", area_m2=1
    )
    assert "40 to 530 lb per 100 square feet" in words(answer, "rate_below_all_tested")
    assert "rates of pot trials" in answer["rows"][1]["name"]


def test_the_field_rate_of_mustard_meal_is_within_and_more_is_above():
    # Meyer and others 2015: 1,700 lb an acre in the field.
    typed = {"treatment": "mustard_meal", "unit": "lb_per_acre", "area_m2": 1}
    assert "rate_within_tested" in codes(asked("dressing", rate=1700, **typed))
    assert "rate_above_all_tested" in codes(asked("dressing", rate=5000, **typed))
    assert "rate_no_rate_tested" in codes(
        asked("dressing", treatment="worm_castings", rate=500, area_m2=1)
    )


@pytest.mark.parametrize(
    ("key", "code"),
    [
        ("fumigant", "dose_label"),
        ("contact_nematicide", "dose_label"),
        ("microbial", "dose_label"),
        ("botanical", "dose_label"),
        ("insect_nematodes", "dose_label"),
        ("chitin_urea_mix", "dose_not_worked_out"),
        ("castor_seed", "dose_not_worked_out"),
        ("molasses", "dose_not_worked_out"),
    ],
)
def test_no_amount_is_worked_out_of_what_has_a_label_or_is_no_recipe(key, code):
    answer = asked("dressing", treatment=key, rate=100, area_m2=10)
    assert codes(answer) == [code]
    assert "no amount is worked out" in words(answer, code)
    assert "The label" in cells(answer, "With all of them")


def test_no_product_with_a_label_is_ever_weighed():
    rows = TABLES["treatments"]["treatments"]
    assert {one["dose"] for one in rows if one["kind"] == "nematicide"} == {"label"}
    assert {one["kind"] for one in rows if one["dose"] == "by_weight"} == {"amendment"}


@pytest.mark.parametrize("question", ["dressing", "too_much_nitrogen"])
def test_a_slip_in_the_unit_is_asked_about(question):
    typed = {"treatment": "animal_dung"} if question == "dressing" else {"nitrogen_percent": 3}
    answer = asked(question, rate=5000, unit="t_per_ha", area_m2=10, **typed)
    (wrong,) = answer["wrong"]
    assert wrong["field"] == "rate" and "500 kg per m²" in wrong["words"]


def test_the_same_rate_in_other_units_agrees_with_a_reference_library():
    # Cornell's seed rate of sudangrass, 30 lb an acre.
    answer = asked("same_rate", rate=30, unit="lb_per_acre")
    grams = 30 * 1000 * exact.pound / exact.acre
    assert cells(answer, "30 lb per acre") == {
        "g per m²": figure(grams),
        "kg per m²": figure(grams / 1000),
        "kg per hectare": figure(grams * exact.hectare / 1000),
        "tonnes per hectare": figure(grams * exact.hectare / 1e6),
        "lb per 100 square feet": figure(30 * HUNDRED_FT2 / exact.acre),
        "g per 100 square feet": figure(grams * HUNDRED_FT2),
    }
    assert cells(answer, "30 lb per acre")["g per m²"] == "3.36"


def test_too_much_nitrogen_needs_no_bed():
    # 8 t/ha of chitin, soybean meal and urea carried about 1.3 t of nitrogen per hectare
    # (Rodriguez-Kabana and others), far beyond what vegetables take up.
    answer = asked("too_much_nitrogen", rate=8, unit="t_per_ha", nitrogen_percent=16.6)
    assert "about 130 g per m²" in words(answer, "nitrogen_more_than_a_crop_takes")
    assert words(answer, "nitrogen_most").startswith(
        "To stay within that line: no more than 1.02 tonnes per hectare. "
    )
    assert {"Nitrate", "Ammonia", "Local advice"} == set(cells(answer, "With nitrogen"))


def test_nitrogen_within_a_season_is_told_in_both_measures():
    # Blood meal is 10-1.5-0 (Texas nutrient figures): 2 lb of it carry 0.2 lb of nitrogen.
    answer = asked(
        "too_much_nitrogen", [bed()], rate=2, unit="lb_per_100_ft2", nitrogen_percent=10, bed=BED
    )
    assert codes(answer) == ["nitrogen_within_a_season"]
    assert "0.2 lb per 100 square feet" in words(answer, "nitrogen_within_a_season")


def test_a_trace_of_nitrogen_is_not_rounded_to_nothing():
    answer = asked("too_much_nitrogen", rate=0.5, nitrogen_percent=0.1)
    assert "about 0.0005 g of nitrogen" in words(answer, "nitrogen_within_a_season")


def test_an_upper_limit_is_never_rounded_up():
    assert figure(11.69, 3, down=True) == "11.6"
    assert figure(0) == "0"
