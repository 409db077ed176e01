import pytest

from gardens.domain.treatments import read_treatments
from tests.domain.asking import asked, cells, codes, words
from tests.domain.briefed import BED, TABLES, bed

TREATMENTS = read_treatments(TABLES["treatments"])
ALWAYS = "With all of them"
BEWARE = "What to take care of"


def names(answer):
    return [row["name"] for row in answer["rows"]]


def test_a_layer_is_told_in_litres_cubic_feet_and_weight():
    # Cornell's rule for compost: 100 square feet, 1 inch deep, are 0.31 cubic yards. The weight
    # is a trade figure, 1,000 to 1,200 lb a cubic yard: 310 to 370 lb.
    answer = asked("compost_layer", area_m2=9.290304, depth_cm=2.54)
    said = words(answer, "amount_layer")
    assert "236 litres (8.33 cubic feet, 0.31 cubic yards)" in said
    assert "9.29 m² (100 square feet) at 2.54 cm (1 in)" in said
    assert "about 140 to 170 kg (310 to 370 lb)" in said


def test_the_weight_of_compost_is_shown_as_a_judgement():
    (line, *_) = asked("compost_layer", area_m2=1)["lines"]
    shown = {one["key"]: one["value"] for one in line["assumptions"]}
    assert shown == {"compost_least_kg_per_m3": 590, "compost_most_kg_per_m3": 710}


def test_the_layer_over_a_chosen_bed_takes_its_area():
    # 1.2 m by 3 m, 5 cm deep: 180 litres, by hand.
    answer = asked("compost_layer", [bed()], bed=BED, depth_cm=5, bag_litres=40)
    assert "180 litres" in words(answer, "amount_layer")
    assert words(answer, "amount_bags") == "5 bags of 40 litres, with 20 litres left over."
    assert codes(answer) == ["amount_layer", "amount_bags", "compost_no_remedy"]


def test_bags_that_fit_leave_no_remainder_to_speak_of():
    answer = asked("compost_layer", area_m2=2.4, depth_cm=5, bag_litres=40)
    assert words(answer, "amount_bags_exactly") == "3 bags of 40 litres."


def test_the_smallest_layer_is_not_rounded_to_nothing():
    said = words(asked("compost_layer", area_m2=0.1, depth_cm=0.5), "amount_layer")
    assert said.startswith("0.5 litres (0.0177 cubic feet")


def test_compost_is_no_remedy_and_says_so_with_its_cautions():
    # McSorley and Gallaher 1995: lower in 1 of 8 tests, at 269 t/ha.
    answer = asked("compost_layer", area_m2=1)
    assert "did not lower root-knot" in words(answer, "compost_no_remedy")
    told = cells(answer, "Yard-waste compost")
    assert "1 of 8 tests" in told["What was seen"]
    assert told["Rates tried"] == "27 kg per m²; 550 lb per 100 square feet"
    assert {"Phosphorus and salt", "Weedkiller"} <= set(told)
    assert "Raw manure" in cells(answer, "Compost or manure every year")


def test_everything_tried_of_a_kind_is_there_the_best_known_first():
    answer = asked("what_was_tried")
    dug_in = {one.name for one in TREATMENTS if one.kind == "amendment"}
    assert set(names(answer)) == dug_in | {BEWARE, ALWAYS}
    results = [cells(answer, name)["Result"] for name in names(answer)[:-2]]
    effects = list(TABLES["treatments"]["effects"].values())
    assert results == sorted(results, key=effects.index)
    assert "4 helped in trials; for 4 the trials do not agree" in words(answer, "tried_many")


@pytest.mark.parametrize("kind", ["amendment", "rotation", "physical", "nematicide"])
def test_in_a_list_cautions_are_named_with_each_and_told_once(kind):
    answer = asked("what_was_tried", kind=kind)
    told, cautions = cells(answer, BEWARE), TABLES["treatments"]["cautions"]
    for one in TREATMENTS:
        own = [cautions[code] for code in one.cautions[:-3]]
        if one.kind == kind and own:
            listed = cells(answer, one.name)["Take care of"].split(", ")
            assert listed == [each["name"] for each in own]
            assert {told[each["name"]] for each in own} == {each["say"] for each in own}


def test_what_is_no_recipe_stands_after_what_helped():
    helped = [one for one in names(asked("what_was_tried")) if "urea" in one or "litter" in one]
    assert helped == ["Chicken litter", "Chitin with soybean meal and urea"]


@pytest.mark.parametrize("one", TREATMENTS, ids=lambda one: one.key)
def test_every_caution_of_every_treatment_is_told(one):
    answer = asked("what_was_tried", one=one.key)
    told = {**cells(answer, one.name), **cells(answer, ALWAYS)}
    cautions = TABLES["treatments"]["cautions"]
    for code in one.cautions:
        assert told[cautions[code]["name"]] == cautions[code]["say"]
    (row, general) = answer["rows"]
    assert set(one.source) <= set(row["sources"]) and general["caution"]
    hurts = any(cautions[code]["can_hurt"] for code in one.cautions if code != "label_is_law")
    assert row["caution"] == (hurts or one.effect == "harms")


@pytest.mark.parametrize(
    ("key", "code", "seen"),
    [
        # Timper 2006 and Kimenju 2008; Riegel 1996; Westerdahl, Rhoades, Sotomayor.
        ("vetch_clover", "tried_harms", "sixfold"),
        ("chicken_litter", "tried_helps", "0.125 to 1 % of soil weight"),
        ("flooding", "tried_mixed", "no better than fallow"),
        ("winter_rye", "tried_no", "not a killer"),
        ("worm_castings", "tried_unproven", "No vegetable field proof"),
        ("fumigant", "tried_not_judged", "none is named or judged"),
    ],
)
def test_one_thing_is_told_by_itself(key, code, seen):
    answer = asked("what_was_tried", kind="physical", one=key)
    assert codes(answer) == [code]
    assert seen in cells(answer, answer["rows"][0]["name"])["What was seen"]


def test_where_trials_do_not_agree_it_is_uncertain_and_both_are_shown():
    answer = asked("what_was_tried", one="shell_meal_pots")
    assert "uncertain" in words(answer, "tried_mixed")
    seen = cells(answer, "Crab or shell meal at the rates of pot trials")["What was seen"]
    assert "3.3 % raised counts" in seen and "6.7 to 13.3 % lowered them" in seen


def test_no_evidence_is_claimed_for_a_product_that_is_not_judged():
    answer = asked("what_was_tried", kind="nematicide")
    assert "the label is the law" in words(answer, "tried_not_judged")
    assert all(row["caution"] for row in answer["rows"])
    assert cells(answer, "Fumigants")["Result"] == "Not judged here"
    assert "Evidence" not in cells(answer, "Fumigants")
