import pytest

from tests.domain.asking import asked, cells, codes, words
from tests.domain.briefed import BED, TABLES, bed, planting

MONTHS = "5 6 9 13 17 21 24 24 20 15 9 6"
MI = ("M. incognita on bean", "M. incognita on okra")


def wrong(answer):
    return {one["field"]: one["words"] for one in answer["wrong"]}


def standing(crop="Radish", key="radish", **grown):
    grown = {"from_on": "2031-08-01", "to_on": None, **grown}
    return [bed(), planting(crop=crop, crop_key=key, grown=grown)]


def line(answer, code):
    (found,) = [one for one in answer["lines"] if one["code"] == code]
    return found


@pytest.mark.parametrize(("celsius", "days"), [(18, 69), (25, 34), (30, 25)])
def test_a_generation_on_bean_takes_what_its_paper_says(celsius, days):
    # Giné, Monfort and Sorribas 2021: M. incognita on bean, base 11.1, 476 degree-days; at 18,
    # 25 and 30 degrees that is 69.0, 34.2 and 25.2 days.
    told = cells(asked("generation_days", soil_celsius=celsius), f"{MI[0]}: a whole generation")
    assert told["In your soil"].startswith(f"about {days} days")
    assert told["Base and sum"] == "11.1 °C and 476 degree-days"


def test_papers_that_disagree_are_all_shown_and_never_averaged():
    # California teaching figure: 600 above 10, so 40 days at 25 degrees; Giné 2021: 34.2.
    answer = asked("generation_days", soil_celsius=25, species="Mi")
    said = words(answer, "heat_generation_spread")
    assert said.startswith("Uncertain") and "34 to 40 days, by 2 published clocks" in said
    assert line(answer, "heat_generation_spread")["sources"] == ["gine_2021_bean", "uc_degree_days"]
    assert "37" not in said


def test_only_a_temperature_is_needed_and_then_every_species_is_shown():
    answer = asked("generation_days", soil_celsius=25)
    assert [one["code"] for one in answer["lines"]] == [
        "heat_generation_spread", "heat_to_egg_laying_spread"
    ]  # fmt: skip
    assert len(answer["rows"]) == len(TABLES["heat_sums"])
    assert len({one["name"] for one in answer["rows"]}) == len(answer["rows"])


def test_a_figure_from_memory_is_marked_and_not_counted():
    answer = asked("generation_days", soil_celsius=20, species="Mh")
    assert codes(answer) == ["heat_generation_not_held", "heat_to_egg_laying_not_held"]
    assert "from memory" in cells(answer, "M. hapla: a whole generation")["Bear in mind"]


def test_a_species_nobody_timed_is_said_to_be_not_known():
    answer = asked("generation_days", soil_celsius=25, species="Me")
    assert codes(answer) == ["heat_generation_not_held", "heat_to_egg_laying_not_held"]
    assert answer["rows"] == []


def test_cold_stops_the_clock_and_nobody_says_they_die():
    answer = asked("generation_days", soil_celsius=9, species="Mi")
    assert codes(answer) == ["heat_generation_never", "heat_to_egg_laying_never"]
    assert all(
        "stands still" in cells(answer, one["name"])["In your soil"] for one in answer["rows"]
    )


def test_soil_between_two_bases_moves_one_clock_only():
    # Bases to egg-laying of M. incognita: 11.3 on bean, 9.8 on okra.
    answer = asked("generation_days", soil_celsius=11, species="Mi")
    reasons = " ".join(one["words"] for one in line(answer, "heat_to_egg_laying_spread")["because"])
    assert "1 of the clocks stands still" in reasons


def test_soil_hotter_than_the_clocks_counts_as_their_end():
    hot, end = (asked("generation_days", soil_celsius=c) for c in (40, 32))
    assert hot["rows"] == end["rows"]
    assert codes(hot)[-1] == "heat_above_top" != codes(end)[-1]


def test_twelve_numbers_are_months_and_more_are_days():
    months = asked("generation_days", soil_row=MONTHS, species="Mi", from_on="2031-06-01")
    days = asked("generation_days", soil_row=" ".join(["25"] * 36), species="Mi")
    assert "Counted with your 12 monthly soil temperatures." in str(months["lines"])
    # 476 / (25 - 11.1) = 34.2, so the thirty-fifth day; 600 / 15 = 40 is not in the row.
    assert cells(days, f"{MI[0]}: a whole generation")["In your soil"].startswith("about 35")
    assert "not full after 36" in cells(days, "M. incognita: a whole generation")["In your soil"]


def test_a_row_in_fahrenheit_is_the_same_row():
    celsius = asked("generation_days", soil_row=" ".join(["25"] * 40))
    fahrenheit = asked("generation_days", soil_row=" ".join(["77"] * 40), row_unit="fahrenheit")
    assert celsius["rows"] == fahrenheit["rows"]
    forgotten = asked("generation_days", soil_row=" ".join(["77"] * 40))
    assert "from -10 to 50 °C" in wrong(forgotten)["soil_row"]


def test_a_trap_crop_comes_out_before_the_first_published_eggs():
    # Davila Negron, M. incognita on okra: base 9.8, 300 degree-days to a laying female, so at
    # 26 degrees 18.5 days; four fifths of it (a judgement) are full on the fifteenth day.
    answer = asked("trap_crop_out", sown_on="2031-08-05", crop="lettuce", soil_celsius=26)
    assert line(answer, "lift_heat")["by"] == "2031-08-19"
    assert cells(answer, MI[1])["First eggs"] == "on day 19, 23 August 2031"
    assert words(answer, "trap_eggs_spread").startswith("Uncertain")
    assert {one["key"] for one in line(answer, "lift_heat")["assumptions"]} >= {"trap_lift_share"}
    assert "trap_tried" in codes(answer) and "trap_no_sum" in codes(answer)


def test_in_cool_soil_a_trap_crop_stays_no_longer_than_was_tried():
    # Cuadra and others 2000: 30 to 32 days at most; below 18 degrees few enter (Roberts 1981).
    answer = asked("trap_crop_out", sown_on="2031-08-05", crop="radish", soil_celsius=15)
    assert line(answer, "lift_longest_days")["by"] == "2031-09-04"
    assert "trap_too_cool" in codes(answer)


def test_a_bed_tells_what_was_sown_and_when():
    answer = asked("trap_crop_out", standing(), bed=BED, soil_celsius=26)
    assert answer == asked("trap_crop_out", sown_on="2031-08-01", crop="radish", soil_celsius=26)


def test_what_stands_in_a_bed_is_not_praised_as_a_trap_crop():
    records = standing("Tomato", "tomato", from_on="2031-05-02")
    answer = asked("trap_crop_out", records, bed=BED, soil_celsius=26)
    assert "Tomato: we hold no trial" in words(answer, "trap_untried")
    assert "too late" in words(answer, "trap_day_past")
    assert all(one["by"] is None for one in answer["lines"])


def test_without_a_day_or_a_temperature_the_box_says_what_is_needed():
    assert "day it was sown" in wrong(asked("trap_crop_out", soil_celsius=26))["sown_on"]
    ended = standing(to_on="2031-08-05")
    assert set(wrong(asked("trap_crop_out", ended, bed=BED, soil_celsius=26))) == {"sown_on"}
    answer = asked("trap_crop_out", sown_on="2031-08-05")
    assert "one soil temperature" in wrong(answer)["soil_celsius"]
    short = asked("trap_crop_out", sown_on="2031-08-05", soil_row=" ".join(["20"] * 20))
    assert "30 are needed" in wrong(short)["soil_row"]


def test_nothing_is_said_of_a_plant_nobody_named():
    answer = asked("trap_crop_out", sown_on="2031-08-05", soil_celsius=8)
    assert not {"trap_tried", "trap_untried", "trap_rocket"} & set(codes(answer))
    assert "trap_eggs_not_reached" in codes(answer)


@pytest.mark.parametrize("crop", ["rocket", "other"])
def test_a_plant_hardly_tried_is_not_called_a_trap_crop(crop):
    answer = asked("trap_crop_out", sown_on="2031-08-05", soil_celsius=26, crop=crop)
    assert "trap_tried" not in codes(answer)
