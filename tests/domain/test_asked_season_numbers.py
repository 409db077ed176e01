import json
import re

import pytest

from gardens.domain.asked.own_unit import UNITS
from tests.domain.asking import asked, cells, codes, words
from tests.domain.briefed import TABLES

GROUND = ("moist", "dry", "winter", "rye", "weeds")
RYE = "Winter rye, by the equation"


def wrong(answer):
    return {one["field"]: one["words"] for one in answer["wrong"]}


def test_half_a_year_of_fallow_leaves_what_its_yearly_loss_says():
    # Westerdahl's course page: 85 to 90 % fewer a year, so 32 to 39 % after half a year; Towson
    # and Apt: halved in 110 days, so 32 % after half a year.
    answer = asked("starving", number=100)
    assert "of 100 per 100 cm³ about 32 to 39" in words(answer, "starve_moist")
    assert cells(answer, "Moist soil in a trial")["Left"] == "32 per 100 cm³"
    assert codes(answer) == ["starve_moist", "starve_none_recovered"]


def test_dry_soil_is_uncertain_and_both_ends_are_shown():
    # Towson and Apt: a half-life of 10 days leaves 0.68 % after 72 days.
    answer = asked("starving", number=10000, ground="dry", months=72 / (365 / 12))
    assert cells(answer, "Dry soil in a trial")["Left"] == "68 per 100 cm³"
    assert words(answer, "starve_dry").startswith("Uncertain")


@pytest.mark.parametrize("ground", GROUND)
def test_what_is_left_is_never_none(ground):
    answer = asked("starving", number=0.1, months=60, ground=ground, soil_celsius=30, level=0.1)
    told = json.dumps([answer["lines"], answer["rows"]])
    assert not re.search(r"\b0 per|about 0 |: 0 ", told)
    assert ("starve_none_recovered" in codes(answer)) == (ground != "weeds")


def test_years_down_to_a_level_are_a_band():
    # By Ferris's principle: a hundredfold at 90 % a year is 2 years, at 85 % 2.4.
    answer = asked("starving", number=1000, level=10)
    assert "2.0 to 2.4 years" in words(answer, "starve_years")
    assert "starve_already_below" in codes(asked("starving", number=10, level=10))


def test_rye_shows_the_equation_and_the_words_of_its_paper():
    # McSorley 1994: ln(Pf + 1) = 0.863 ln(Pi + 1) - 0.26 leaves 40.4 of 100; its text says
    # numbers were nearly maintained.
    answer = asked("starving", number=100, ground="rye")
    assert cells(answer, RYE)["Left"] == "about 40 per 100 cm³"
    other = cells(answer, "Winter rye, by the words of the same paper")
    assert other["Left"] == "nearly 100 per 100 cm³"
    assert words(answer, "starve_rye").startswith("Uncertain")


def test_the_rye_equation_is_not_used_where_it_does_not_hold():
    for number in (2, 5000):
        answer = asked("starving", number=number, ground="rye")
        assert codes(answer)[0] == "starve_rye_outside"
        assert "not worked out" in cells(answer, RYE)["Left"]
    assert codes(asked("starving", number=5000, unit="500 cm3", ground="rye"))[0] == "starve_rye"


def test_winters_differ_and_each_is_shown():
    # Starr and Jeger, Texas: 0.1 to 33 % survived; Windham and Barker: 20 to 40, then 38 to 87.
    answer = asked("starving", number=1000, ground="winter")
    assert len(answer["rows"]) == 6
    assert cells(answer, "Texas, October to April")["Left"] == "1 to 330 per 100 cm³"
    assert "Uncertain: one winter left 1 to 870" in words(answer, "starve_winter")


def test_juveniles_stop_moving_with_warmth_and_eggs_do_not():
    # Goodell and Ferris: nine in ten immobile within 500 degree-days above 10: 31.6 % at 250.
    answer = asked("starving", number=100, soil_celsius=10 + 250 / (365 / 12), months=1)
    (row,) = [one for one in answer["rows"] if one["name"].startswith("Juveniles")]
    assert "about 32 %" in str(row) and "Eggs live on" in str(row)


def test_weeds_leave_no_credit_for_a_fallow():
    answer = asked("starving", number=100, ground="weeds", level=5)
    assert codes(answer) == ["starve_weeds"] and "more" in words(answer, "starve_weeds")


def test_a_season_with_a_host_is_a_what_if_with_its_ceiling():
    # M Pi / (Pi + M / a) by hand: Pi 10, a 30, M 3,000: 3,000 x 10 / 110 = 272.7; with the ends
    # of both ranges 5 and 500, 100 and 10,000: 45.5 and 909.
    answer = asked("season_with_crop", number=10, crop="tomato", species="Mi")
    told = cells(answer, "Tomato, susceptible: a very good host")
    assert told["What if"] == "45 to 910 per 100 cm³; with the middle setting 270"
    assert "never above 3,000 per 100 cm³ (judged, 500 to 10,000)" in told["Model and setting"]
    assert all("what if" in one["how_sure"].lower() for one in answer["lines"])


def test_kinds_and_species_that_differ_are_uncertain_and_both_shown():
    answer = asked("season_with_crop", number=10, crop="tomato")
    assert codes(answer) == ["season_uncertain"]
    feeding = cells(answer, "Tomato, Mi-1 gene: a very good host")["For"]
    assert "M. enterolobii" in feeding and "M. incognita" not in feeding
    held = cells(answer, "Tomato, Mi-1 gene: no host, or a resistant kind")["For"]
    assert "M. incognita" in held


def test_sources_that_disagree_give_both_ends():
    answer = asked("season_with_crop", number=10, crop="lettuce", species="Mi")
    assert len(answer["rows"]) == 2 and codes(answer) == ["season_uncertain"]
    assert "Sources disagree" in cells(answer, "Lettuce: a poor host")["Bear in mind"]


def test_a_pair_nobody_studied_is_taken_as_the_worst_and_said_to_be():
    answer = asked("season_with_crop", number=10, crop="lemongrass", species="Mi")
    assert codes(answer) == ["season_not_known"]
    assert cells(answer, "Lemongrass: a very good host")["What if"].startswith("45 to 910")


def test_every_plant_of_the_list_can_be_asked_about():
    plants = {one["crop"] for one in TABLES["host_status"] if one["kind"] != "weed"}
    for crop in sorted(plants):
        answer = asked("season_with_crop", number=10, crop=crop)
        names = [one["name"] for one in answer["rows"]]
        assert names and len(set(names)) == len(names), crop


@pytest.mark.parametrize(("plan", "left"), [
    ("fallow_warm", "0.5 to 10"), ("fallow_cold", "0.5 to 10"), ("trap", "1 to 10")
])  # fmt: skip
def test_a_season_without_a_crop_needs_none(plan, left):
    answer = asked("season_with_crop", number=10, plan=plan)
    assert codes(answer) == ["season_falls"]
    assert f"might be {left}." in words(answer, "season_falls")


def test_weeds_take_the_fall_away():
    answer = asked("season_with_crop", number=10, plan="fallow_warm", weeds=30)
    assert codes(answer) == ["season_falls", "season_weeds"]
    assert cells(answer, "Bare ground, a warm half-year")["What if"] == "about 10 per 100 cm³"


def test_the_answer_stays_in_the_unit_of_the_lab():
    answer = asked("season_with_crop", number=50, unit="500 cm3", crop="okra", species="Mi")
    told = cells(answer, "Okra: a very good host")
    assert told["What if"] == "230 to 4,500 per 500 cm³; with the middle setting 1,400"
    by_weight = asked("season_with_crop", number=50, unit="kg", crop="okra", species="Mi")
    assert "usual weight of dry soil" in str(by_weight["lines"])


def test_a_crop_is_asked_for_only_when_one_grows():
    assert set(wrong(asked("season_with_crop", number=10))) == {"crop"}


@pytest.mark.parametrize("question", ["starving", "season_with_crop", "harvest_lost"])
def test_a_count_nobody_can_place_is_refused(question):
    boxes = {"number": 10, "crop": "okra"} if question != "starving" else {"number": 10}
    assert set(wrong(asked(question, unit="not_known", **boxes))) == {"unit"}
    assert "root cannot" in wrong(asked(question, unit="g of root", **boxes))["unit"]
    assert set(wrong(asked(question, **{**boxes, "number": 0}))) == {"number"}


def test_every_unit_that_is_offered_has_its_words():
    for question in ("starving", "season_with_crop", "harvest_lost"):
        (unit,) = [one for one in TABLES["questions"][question]["fields"] if one["name"] == "unit"]
        assert [one["value"] for one in unit["options"]] == list(UNITS)
