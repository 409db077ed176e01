import math

import pytest
from scipy.stats import nbinom

from gardens.domain.geometry import is_inside
from tests.domain.asking import asked, cells, codes, words
from tests.domain.briefed import BED, TODAY, bed, id_of, planting, record

PLANTS = [[x, y] for y in range(30, 300, 60) for x in (30, 90)]
LAB = id_of(1, 9)


def lab(**changed):
    return record("lab_profile", LAB, **{"name": "Soil Bench", **changed})


def sample(n=1, **changed):
    doc = {"bed": BED, "code": "K7M2H", "purpose": "predict", "lab_profile": LAB}
    return record("soil_sample", id_of(n, 8), **{**doc, **changed})


def wrong(answer):
    return {one["field"]: one["words"] for one in answer["wrong"]}


def named(answer):
    return [row["name"] for row in answer["rows"]]


def why(answer, day, verdict):
    ((label, reasons),) = cells(answer, day).items()
    assert label.startswith(f"{verdict}; would arrive ")
    return reasons


# How many cores, and where


def test_cores_come_with_places_inside_the_bed_and_the_soil_they_make():
    # Georgia's guide: a 1 inch probe, 8 inches deep; 20 cores are 2,059 cm3, by hand.
    answer = asked("cores_where", [bed()], bed=BED, n_cores=20, tool_cm=2.54, to_cm=23.32)
    assert "Push 20 cores, from 3 to 23.32 cm deep" in words(answer, "cores_to_push")
    assert "about 2.1 litres" in words(answer, "cores_to_push")
    corners = [(0, 0), (120, 0), (120, 300), (0, 300)]
    places = answer["places"]["points_cm"]
    assert answer["places"]["bed"] == BED and len(places) == 20
    assert all(is_inside(corners, place) for place in places)


def test_the_price_of_more_cores_is_the_standard_error_of_their_mean():
    # scipy's negative binomial with k = 0.5 a core, at a large mean.
    answer = asked("cores_where", [bed()], bed=BED)
    for n in (5, 10, 20, 40):
        mean, k = 1e6, 0.5 * n
        percent = 100 * nbinom.std(k, k / (k + mean)) / mean
        near = cells(answer, "How near the true mean, at best (standard error)")[f"{n} cores"]
        assert near.endswith(f"give or take {percent:.0f} %")


def test_the_places_are_beside_the_plants_that_stand_and_in_walking_order():
    answer = asked("cores_where", [bed(), planting(plants=PLANTS)], bed=BED)
    assert "beside a plant of Okra, about 10 cm" in words(answer, "cores_beside_plants")
    places = answer["places"]["points_cm"]
    assert [y for _, y in places] == sorted(y for _, y in places)
    assert all(9 <= min(math.dist(one, plant) for plant in PLANTS) <= 11 for one in places)


@pytest.mark.parametrize(("to_on", "beside"), [("2031-08-01", True), ("2031-06-01", False)])
def test_roots_of_a_crop_that_ended_not_long_ago_still_count(to_on, beside):
    grown = {"from_on": "2031-04-01", "to_on": to_on}
    answer = asked("cores_where", [bed(), planting(plants=PLANTS, grown=grown)], bed=BED)
    assert ("cores_beside_plants" in codes(answer)) is beside
    assert ("cores_bare_bed" in codes(answer)) is not beside


def test_the_same_bed_has_the_same_places_and_a_half_has_others_within_it():
    whole = asked("cores_where", [bed()], bed=BED)["places"]
    assert whole == asked("cores_where", [bed()], bed=BED, tool_cm=5)["places"]
    half = asked("cores_where", [bed()], bed=BED, part="bottom_half")["places"]
    assert all(y >= 150 for _, y in half["points_cm"])


def test_guides_that_disagree_are_shown_side_by_side_as_uncertain():
    answer = asked("cores_where", [bed(depth_cm=45)], bed=BED)
    told = cells(answer, "Uncertain: how many cores")
    assert "10 to 20" in told["Some say"] and "About 50" in told["Others say"]
    assert words(answer, "cores_deep_bed").startswith("Uncertain how deep")
    assert "from 20 to 40 cm" in words(answer, "cores_deep_bed")


def test_a_shallow_bed_and_a_little_soil_are_spoken_of():
    answer = asked("cores_where", [bed(depth_cm=15)], bed=BED, n_cores=4)
    assert "15 cm deep" in words(answer, "cores_below_bed")
    assert "half litre (one US pint)" in words(answer, "cores_little_soil")


@pytest.mark.parametrize("purpose", ["diagnose", "predict", "check_worked"])
def test_each_purpose_has_its_own_advice(purpose):
    answer = asked("cores_where", [bed()], bed=BED, purpose=purpose)
    assert codes(answer).count(f"cores_to_{purpose}") == 1


def test_more_cores_than_the_ground_holds_are_refused_beside_their_box():
    tiny = bed(shape={"type": "rectangle", "width_cm": 20, "length_cm": 20})
    assert "10 fit" in wrong(asked("cores_where", [tiny], bed=BED, n_cores=60))["n_cores"]


# How much soil, and how many to look at


def test_the_soil_to_ask_for_makes_none_mean_the_level():
    # Stirling and others 2025: harm below 10 in 200 mL, so 5 per 100 cm3; scipy for the chance.
    answer = asked("soil_to_extract")
    assert "at least 250 cm³" in words(answer, "extract_ask")
    assert "5 per 100 cm³" in words(answer, "extract_ask")
    (line,) = [one for one in answer["lines"] if one["code"] == "extract_ask"]
    assert "ask for 420 cm³" in line["how_sure"]
    k, mean = 5, 5 / 100 * 420 * 0.2
    assert nbinom.pmf(0, k, k / (k + mean)) <= 0.05
    k, mean = 5, 5 / 100 * 410 * 0.2
    assert nbinom.pmf(0, k, k / (k + mean)) > 0.05


def test_a_usual_sample_cannot_show_a_bed_fit_for_a_sensitive_crop():
    # Stirling and others 2025: a 100 cm3 sample misses what hurts; two litres find it.
    answer = asked("soil_to_extract", crop="lettuce", level=5)
    means = cells(answer, "What none would mean, if the lab gets a middling share out")
    assert means["From 100 cm³"] == "< 12 per 100 cm³"
    assert means["From 2,000 cm³"] == "< 0.6 per 100 cm³"
    assert "you gave: 5 per" in words(answer, "extract_level_typed")


def test_levels_that_differ_are_uncertain_and_the_lowest_is_taken():
    # Barker and others 1976, 20 in 500 cm3; Di Vito's earlier trials, 4 in a cm3.
    answer = asked("soil_to_extract", crop="tomato")
    said = words(answer, "extract_level_uncertain")
    assert said.startswith("Uncertain: published levels for Tomato go from 4 to 400")
    assert "A bed with 4 per 100 cm³ or more" in words(answer, "extract_ask")
    assert len(named(answer)) == len(set(named(answer))) == 11


def test_a_level_that_needs_more_than_labs_take_leads_to_a_pot_test():
    answer = asked("soil_to_extract", level=1)
    assert codes(answer)[:2] == ["extract_ask", "extract_more_than_labs"]


@pytest.mark.parametrize(
    ("crop", "code"),
    [("borage", "extract_level_none_published"), ("carrot", "extract_level_only")],
)
def test_a_crop_with_one_level_or_none_says_so(crop, code):
    assert code in codes(asked("soil_to_extract", crop=crop))


def test_cores_and_crop_are_taken_from_the_newest_sample_of_the_bed():
    records = [bed(), sample(n_cores=24, next_crop="tomato ")]
    answer = asked("soil_to_extract", records, bed=BED)
    assert "(24 cores)" in words(answer, "extract_ask")
    assert "Tomato" in words(answer, "extract_level_uncertain")


@pytest.mark.parametrize(
    ("share", "sure", "n"),
    [("5", "0.95", "59"), ("5", "0.99", "90"), ("1", "0.95", "299"), ("1", "0.99", "459")],
)
def test_units_to_look_at_are_those_published(share, sure, n):
    # McSorley and Littell 1993; their abstract rounds the last two to 300 and 500.
    answer = asked("look_at_how_many", share=share, sure=sure)
    assert f"look at {n}." in words(answer, "look_at_of_many")


def test_few_plants_are_counted_out_without_putting_back():
    # Cannon and Roe 1982, 2 of 20 at 95 %: 16; from memory.
    answer = asked("look_at_how_many", share=10, n_standing=20)
    assert "Of the 20 there are, look at 16." in words(answer, "look_at_of_few")
    assert cells(answer, "To find one 95 times in 100, look at")["If 2 of 20 have it"] == "16"


def test_what_is_not_always_recognised_raises_the_number_and_is_said():
    # Chen and others 2011: with half recognised, 59 of 5 % find one 78 times in 100.
    answer = asked("look_at_how_many", share=5, recognised=50)
    assert "look at 119." in words(answer, "look_at_of_many")
    assert "50 of 100" in words(answer, "look_at_recognised")
    few = asked("look_at_how_many", share=5, recognised=50, n_standing=12)
    assert codes(few)[0] == "look_at_all_not_enough"


# When to post


def test_early_in_the_week_is_best_and_late_is_held():
    # Kansas State: on or before Wednesday, by overnight carrier.
    answer = asked("post_when", transit_days=1)
    assert words(answer, "post_lift_and_post").endswith(
        "Monday 11 August, Tuesday 12 August, Wednesday 13 August."
    )
    assert named(answer)[:3] == ["Monday 11 August", "Tuesday 12 August", "Wednesday 13 August"]
    assert "by Wednesday" in why(answer, "Thursday 14 August", "Better wait")
    assert "Monday to Friday" in words(answer, "post_week_assumed")


def test_every_one_of_the_next_21_days_is_told():
    answer = asked("post_when")
    rests = cells(answer, "Days the carrier rests")["Not on these"].split(", ")
    days = [name for name in named(answer) if name.split()[0].endswith("day")]
    assert len(set(days)) + len(set(rests)) == 21


@pytest.mark.parametrize("closed", ["2031-08-13", "13 Aug", "Aug 13; 1 November", "13. August"])
def test_a_holiday_that_was_typed_is_kept_clear_of(closed):
    answer = asked("post_when", transit_days=1, closed=closed)
    assert "lie over a day" in why(answer, "Tuesday 12 August", "Better wait")
    assert "ship_holidays_unknown" not in codes(answer)
    assert "Wednesday 13 August" in cells(answer, "Days the carrier rests")["Not on these"]


@pytest.mark.parametrize("closed", ["Christmas", "31 Feb", "2031-02-30", "12/25", "3 Jux"])
def test_a_holiday_that_cannot_be_read_is_named(closed):
    answer = asked("post_when", closed=f"25 Dec, {closed}")
    assert closed in wrong(answer)["closed"]


def test_the_labs_own_week_and_the_day_of_lifting_come_from_the_records():
    lifted = sample(lifted_at="2031-08-09T08:00:00.000Z")
    answer = asked("post_when", [bed(), lab(working_days=[0, 1, 2, 3]), lifted], bed=BED)
    assert "Soil Bench works on Monday to Thursday" in words(answer, "post_week_of_lab")
    assert "lifted on 9 August 2031" in words(answer, "post_best")
    assert "does not work" in why(answer, "Wednesday 13 August", "Not on this day")


def test_another_week_can_be_chosen_and_a_lab_that_fetches_needs_a_day_more():
    answer = asked("post_when", [lab()], works="mon_thu", to_door="no", transit_days=1)
    assert "Monday to Thursday" in words(answer, "post_week_chosen")
    assert "not be fetched" in why(answer, "Wednesday 13 August", "Not on this day")


def test_a_lab_that_never_works_and_old_soil_leave_no_good_day():
    none = asked("post_when", [lab(working_days=[])])
    assert codes(none)[0] == "post_no_day" and "no day" in words(none, "post_week_of_lab")
    old = asked("post_when", lifted_on="2031-07-01")
    assert codes(old)[0] == "post_only_held"


def test_a_parcel_that_was_sent_is_not_posted_again():
    sent = sample(
        lifted_at="2031-08-04T08:00:00.000Z", parcel={"sent_on": TODAY, "arrived_on": None}
    )
    assert "post_lift_and_post" in codes(asked("post_when", [bed(), sent], bed=BED))
