import pytest
from scipy.stats import chi2, nbinom

from gardens.domain.evidence import weigh
from gardens.domain.findings import Found, SoilCount
from tests.domain.asking import asked, cells, codes, words
from tests.domain.briefed import (
    BED,
    CHECK,
    PLANTING,
    TABLES,
    bed,
    check,
    dug,
    id_of,
    planting,
    rating,
    record,
)

LAB, OLDER, OLD_CHECK = id_of(1, 9), id_of(2, 7), "01890a5d-ac96-774b-bcce-b302099a8054"


def sample(**changed):
    doc = {
        "bed": BED,
        "code": "K7M2H",
        "purpose": "predict",
        "lifted_at": "2031-08-04T08:00:00.000Z",
        "n_cores": 10,
        "moisture": "just_moist",
        "next_crop": "Tomato",
        "parcel": {"sent_on": "2031-08-04", "arrived_on": "2031-08-06"},
        "lab_profile": LAB,
    }
    return record("soil_sample", id_of(1, 8), **{**doc, **changed})


def lab(**changed):
    return record(
        "lab_profile", LAB, **{"name": "Bench", "reporting_unit": "per 250 cc", **changed}
    )


def wrong(answer):
    return {one["field"]: one["words"] for one in answer["wrong"]}


def told(answer, code):
    (found,) = [one for one in answer["lines"] if one["code"] == code]
    return found


def because(answer, code):
    return " ".join(one["words"] for one in told(answer, code)["because"])


def named(answer):
    return [row["name"] for row in answer["rows"]]


# The bag's way


@pytest.mark.parametrize(
    ("typed", "grade"),
    [
        ({"days": 2, "warmest": 22, "moisture": "just_moist"}, "A"),
        ({"days": 2, "warmest": 29, "moisture": "just_moist"}, "B"),
        ({"days": 2, "warmest": 36, "moisture": "just_moist"}, "C"),
        ({"days": 10, "warmest": 15, "moisture": "just_moist"}, "B"),
        ({"days": 2, "coldest": -15, "warmest": 5, "moisture": "just_moist"}, "C"),
        ({"days": 3, "in_sun": "yes", "moisture": "just_moist"}, "C"),
        ({}, "B"),
    ],
)
def test_a_bag_is_graded_by_its_worst_stretch(typed, grade):
    # Barker, Nusbaum and Nelson 1969: kept at 13 to 24, fewer at 36, killed at -15 degrees C.
    answer = asked("bag_journey", **typed)
    assert words(answer, "journey_graded") == f"Handling grade {grade}, of A to C."


def test_what_a_trial_left_alive_is_its_published_half_life():
    # Towson and Apt: half lost in 110 days just moist, in 2.7 to 4.9 days wet.
    moist = asked("bag_journey", days=7, moisture="just_moist")
    assert "about 96 %" in words(moist, "journey_left_alive_about")
    wet = asked("bag_journey", days=7, moisture="wet")
    assert "from 17 to 37 %" in words(wet, "journey_left_alive")
    assert "corrects no count" in told(wet, "journey_left_alive")["how_sure"]


def test_trials_that_disagree_are_shown_as_uncertain_side_by_side():
    answer = asked("bag_journey")
    assert words(answer, "journey_uncertain").startswith("Uncertain")
    assert "As many or more" in cells(answer, "Soil stored for 16 weeks")["What came of it"]
    assert "Fewer with time" in cells(answer, "Three soils in bags")["What came of it"]


def test_days_and_moisture_come_from_the_newest_bag_that_was_lifted():
    records = [bed(), sample(), record("soil_sample", id_of(9, 8), **planned())]
    answer = asked("bag_journey", records, bed=BED)
    assert "K7M2-H, lifted 4 August 2031, arrival 6 August 2031" in because(
        answer, "journey_graded"
    )
    assert "After 2 days" in words(answer, "journey_left_alive_about")


def planned():
    return {"bed": BED, "code": "R4THB", "purpose": "predict"}


def test_warm_ground_counts_as_a_warm_bag_and_cool_ground_says_nothing():
    warm = asked("bag_journey", [bed(), sample(soil_temperature_celsius=31)], bed=BED)
    assert "as warm as 31 °C" in because(warm, "journey_graded")
    cool = asked("bag_journey", [bed(), sample(soil_temperature_celsius=20)], bed=BED)
    assert "Nobody measured how warm" in because(cool, "journey_graded")


def test_a_coldest_above_the_warmest_is_refused_beside_its_box():
    assert "coldest" in wrong(asked("bag_journey", warmest=5, coldest=9))


# A number


@pytest.mark.parametrize(
    ("count", "unit", "value"),
    [
        (20, "per 500 cc", "4"),
        (8, "per 200 mL", "4"),
        (120, "J2/250 cm³", "48"),
        (666, "per kg", "86.6"),
        (47.3176473, "per pint", "10"),
    ],
)
def test_a_number_is_converted_and_its_original_kept(count, unit, value):
    # Barker and others 1976: 20 in 500 cm3 are 4 per 100; a US pint is 473.176473 mL (NIST).
    answer = asked("lab_number", count=count, unit=unit)
    (line,) = [
        one for one in answer["lines"] if one["code"] in ("count_converted", "count_by_weight")
    ]
    assert f"{count} hatched young (J2)" in line["words"] and unit in line["words"]
    assert f" {value} per 100 cm³" in line["words"]


def test_the_interval_of_a_number_is_the_exact_one():
    # scipy: mean with 2.5 % below or above 20 counted, ten cores' worth of k = 0.5 each.
    answer = asked("lab_number", count=20, unit="per 100 cc", volume_cm3=100, n_cores=20)
    low, high = 9.6, 48
    assert nbinom.sf(19, 10, 10 / (10 + low)) < 0.025 < nbinom.sf(19, 10, 10 / (10 + low + 0.1))
    assert nbinom.cdf(20, 10, 10 / (10 + high)) < 0.025 < nbinom.cdf(20, 10, 10 / (10 + high - 1))
    said = words(answer, "count_interval")
    assert "have been 9.6 to 48 per 100 cm³" in said
    assert "may hold about 19 to 240" in said


def test_without_cores_the_interval_is_garwoods_and_said_to_be_too_narrow():
    # Garwood 1936, by chi-square: 12.2 to 30.9 for 20.
    low, high = chi2.ppf(0.025, 40) / 2, chi2.ppf(0.975, 42) / 2
    assert (round(low, 1), round(high, 1)) == (12.2, 30.9)
    answer = asked("lab_number", count=20, unit="per 100 cc", volume_cm3=100)
    assert "have been 12 to 31 per 100 cm³" in words(answer, "count_interval_no_cores")
    assert "Too narrow" in told(answer, "count_interval_no_cores")["how_sure"]
    assert not any(code.startswith("evidence_") for code in codes(answer))


def test_levels_are_shown_as_a_spread_row_by_row_and_never_as_a_share_of_yield():
    # Barker and others 1976; Di Vito, Greco and Carella.
    answer = asked(
        "lab_number", count=30, unit="per 100 cc", crop="tomato", volume_cm3=100, n_cores=10
    )
    said = words(answer, "threshold_within")
    assert said.startswith("Uncertain: the published levels for this crop are 4 to 400 per 100 cm³")
    first = cells(answer, named(answer)[0])
    assert first["Level"] == "4 per 100 cm³ (published: 20 per 500 cm³; J2, before planting)"
    assert first["Beside your bed"] == "above it"
    spoken = [one["words"] for one in answer["lines"]]
    assert not any("%" in one and ("yield" in one or "harvest" in one) for one in spoken)


@pytest.mark.parametrize("crop", sorted({row["crop"] for row in TABLES["thresholds"]} - {""}))
def test_every_row_of_a_crop_has_a_name_of_its_own_and_a_source(crop):
    answer = asked("lab_number", count=30, unit="per 100 cc", crop=crop, volume_cm3=100, n_cores=10)
    assert len(named(answer)) == len(set(named(answer)))
    assert all(row["sources"] for row in answer["rows"])


def test_roots_without_a_gall_beside_a_number_are_contradicted_first():
    records = [*dug(0, 0, 0, 0), sample(), lab()]
    answer = asked("lab_number", records, bed=BED, count=30, volume_cm3=250)
    assert codes(answer)[0] == "contra_roots_none_lab_some"
    assert "30 hatched young (J2) per 250 cc. That is 12" in words(answer, "count_converted")
    assert "no gall on 4 plants" in words(answer, "lab_roots_none")
    assert "(10 cores mixed)" in because(answer, "evidence_probably_not_below")


def test_all_checks_are_weighed_for_the_lowest_and_the_highest_level():
    records = [*dug(3, 5), sample(), lab()]
    answer = asked("lab_number", records, bed=BED, count=30, volume_cm3=250)
    found = Found(SoilCount(30, 250, 10, "B"))
    for level in (4, 400):
        code = weigh(found, level, "galls_last_crop", TABLES["judgements"]).code
        assert f"below {level} per" in words(answer, f"evidence_{code}")
    assert "galls on the last crop" in because(answer, "evidence_very_likely_below")


def test_eggs_are_not_set_beside_young():
    answer = asked(
        "lab_number", count=90, unit="per 100 cc", stage="both", crop="okra", volume_cm3=100
    )
    assert "count_with_eggs" in codes(answer) and "count_luck_alone" in codes(answer)
    assert not any(code.startswith(("threshold", "evidence")) for code in codes(answer))
    bare = asked("lab_number", count=90, unit="per 100 cc", stage="eggs")
    assert codes(bare)[:2] == ["count_same", "count_with_eggs"]


def test_a_count_of_roots_stays_one_of_roots():
    answer = asked("lab_number", dug(0, 0), bed=BED, count=12, unit="per g of root")
    assert codes(answer)[:2] == ["contra_roots_none_lab_some", "count_in_roots"]
    assert "12 hatched young (J2) per g of root" in words(answer, "count_in_roots")


def test_a_report_without_its_soil_has_no_interval():
    answer = asked("lab_number", count=30, unit="per 100 cc")
    assert "60 to 150" in words(answer, "count_no_volume")
    assert "levels_at_large" in codes(answer) and "count_local_first" in codes(answer)


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"count": 3}, "unit"),
        ({"count": 3, "unit": "a lot"}, "unit"),
        ({"count": 9_000_000, "unit": "per 100 cc"}, "unit"),
        ({"count": 1, "unit": "per kg", "volume_cm3": 1}, "volume_cm3"),
        ({}, "count"),
    ],
)
def test_what_cannot_be_read_is_said_beside_its_box(typed, field):
    assert set(wrong(asked("lab_number", **typed))) == {field}


def test_a_number_beyond_what_is_weighed_is_still_answered():
    answer = asked("lab_number", count=90_000, unit="per 100 cc", volume_cm3=2000, n_cores=200)
    assert "threshold_above_all" in codes(answer)
    huge = asked("lab_number", count=9_900, unit="per 100 cc", volume_cm3=2000, n_cores=200)
    assert "evidence_probably_not_below" in codes(huge)


# None


def test_none_recovered_is_a_bound_and_never_nothing():
    # The rule of three: without clumps 3.0 nematodes are still missed 1 time in 20.
    answer = asked("lab_none", volume_cm3=100, n_cores=10)
    assert "about 12 per 100 cm³" in words(answer, "none_recovered")
    assert cells(answer, "How to write it down") == {
        "If the lab gets a middling share out": "< 12 per 100 cm³",
        "If it gets a poor share out": "< 21 per 100 cm³",
    }
    many = asked("lab_none", volume_cm3=300, n_cores=200)
    assert cells(many, "How to write it down")["If the lab gets a middling share out"].startswith(
        "< 3 "
    )
    k = 5
    assert nbinom.pmf(0, k, k / (k + 12 * 0.35)) < 0.05 < nbinom.pmf(0, k, k / (k + 11 * 0.35))


def test_galled_roots_are_believed_first():
    answer = asked("lab_none", [*dug(3, 0, 5), sample(), lab()], bed=BED, volume_cm3=100)
    assert codes(answer)[:2] == ["contra_roots_galled_lab_none", "none_recovered"]
    assert "little soil" in because(answer, "contra_roots_galled_lab_none")
    assert "2 of 3 plants galled" in words(answer, "lab_roots_some")
    assert codes(answer)[-2:] == ["none_not_set_beside", "none_pot_test"]


def test_a_finding_that_the_roots_contradict_comforts_nobody():
    records = [*dug(9, 8, 10, 9), sample(next_crop="Onion"), lab()]
    answer = asked("lab_none", records, bed=BED, volume_cm3=500)
    assert not any(code.startswith(("threshold", "evidence")) for code in codes(answer))
    assert not any("Beside your bed" in cells(answer, name) for name in named(answer))


def test_a_typed_count_of_none_is_read_as_none_recovered():
    answer = asked("lab_number", count=0, unit="per 100 cc", volume_cm3=100, n_cores=10)
    assert answer["lines"] == asked("lab_none", volume_cm3=100, n_cores=10)["lines"]


def test_without_soil_or_cores_there_is_no_bound():
    answer = asked("lab_none", [bed(), sample(n_cores=None)], bed=BED, volume_cm3=100)
    assert "none_recovered_unknown" in codes(answer)
    assert "How to write it down" not in named(answer)
    assert codes(asked("lab_none")) == ["none_recovered_unknown", "none_pot_test"]


def test_roots_where_every_gall_may_be_something_else_are_not_believed():
    ratings = [rating(0, 3, look_alike="legume_nodules"), rating(1, 0)]
    answer = asked("lab_none", [bed(), planting(), check(), *ratings], bed=BED)
    assert codes(answer)[0] == "contra_look_alike_lab_none"
    doubted = [rating(0, 3, look_alike="unsure"), rating(1, 2)]
    answer = asked("lab_none", [bed(), planting(), check(), *doubted], bed=BED)
    assert codes(answer)[0] == "contra_roots_galled_lab_none"


def test_roots_of_long_ago_contradict_nothing_but_count_as_history():
    old = check(checked_on="2029-08-01")
    answer = asked(
        "lab_none", [bed(), planting(), old, rating(0, 6), sample()], bed=BED, volume_cm3=250
    )
    assert "too far from this sample in time" in words(answer, "lab_roots_old")
    assert not any(code.startswith("contra") for code in codes(answer))
    begun = " ".join(
        because(answer, code) for code in codes(answer) if code.startswith("evidence_")
    )
    assert "galls on the last crop, or as if" in begun


def test_clean_roots_of_a_good_host_join_the_evidence_and_others_do_not():
    tomato = planting(crop="Tomato", crop_key="tomato")
    resistant = planting(crop="Tomato", crop_key="tomato", resistance_code="HR: Mi, Mj, Ma")
    garlic = planting(crop="Garlic", crop_key="garlic")
    joined = []
    for grown in (tomato, resistant, garlic):
        records = [bed(), grown, check(), *(rating(n, 0) for n in range(6)), sample()]
        answer = asked("lab_none", records, bed=BED, volume_cm3=250)
        codes_here = [code for code in codes(answer) if code.startswith("evidence_")]
        joined.append("6 plants of a good host" in because(answer, codes_here[0]))
    assert joined == [True, False, False]


def test_a_bed_whose_older_crop_was_galled_was_seen_before():
    ratings = [rating(n, 0) for n in range(4)]
    earlier = planting(OLDER, grown={"from_on": "2030-04-01", "to_on": "2030-09-01"})
    old = check(OLD_CHECK, OLDER, checked_on="2030-08-20")
    records = [bed(), earlier, old, rating(0, 5, own=OLD_CHECK), planting(PLANTING), check(CHECK)]
    answer = asked("lab_none", [*records, *ratings, sample()], bed=BED, volume_cm3=250)
    code = next(code for code in codes(answer) if code.startswith("evidence_"))
    assert "Begun from: galls" in because(answer, code)


def test_soil_lifted_long_after_the_last_crop_is_told():
    grown = {"from_on": "2031-02-01", "to_on": "2031-05-01"}
    answer = asked("lab_none", [bed(), planting(grown=grown), sample()], bed=BED)
    assert "95 days after the last crop ended" in words(answer, "none_lifted_late")
    standing = asked("lab_none", [bed(), planting(), sample()], bed=BED)
    assert "none_lifted_late" not in codes(standing)


def test_a_bed_without_roots_or_bag_says_that_nothing_can_be_set_beside():
    answer = asked("lab_none", [bed()], bed=BED, volume_cm3=250, n_cores=20)
    assert "lab_roots_unknown" in codes(answer) and "journey_not_noted" in codes(answer)
    assert "grade B" in words(answer, "journey_not_noted")


def test_the_report_is_about_the_newest_bag_that_was_sent():
    waiting = {**planned(), "lifted_at": "2031-08-09T08:00:00.000Z", "n_cores": 30}
    records = [bed(), sample(), record("soil_sample", id_of(9, 8), **waiting), lab()]
    answer = asked("lab_none", records, bed=BED, volume_cm3=250)
    assert "(10 cores mixed)" in words(answer, "none_recovered")
    journey = asked("bag_journey", records, bed=BED)
    assert "After 1 day " in words(journey, "journey_left_alive")


def test_roots_and_soil_of_other_years_are_not_set_against_each_other():
    bag = sample(lifted_at="2030-05-01T08:00:00.000Z", parcel=None)
    answer = asked("lab_none", [*dug(4, 4), bag], bed=BED, volume_cm3=250)
    assert "3 August 2031" in words(answer, "lab_roots_old")
    assert not any(code.startswith("contra") for code in codes(answer))


def test_of_two_root_checks_the_one_nearest_to_the_sample_is_set_beside_it():
    earlier = planting(OLDER, crop="Tomato", grown={"from_on": "2030-04-01", "to_on": "2030-09-01"})
    old = check(OLD_CHECK, OLDER, checked_on="2030-08-20")
    bag = sample(lifted_at="2030-09-02T08:00:00.000Z", parcel=None)
    records = [*dug(0, 0), earlier, old, rating(0, 5, own=OLD_CHECK), bag]
    answer = asked("lab_none", records, bed=BED)
    assert "Tomato on 20 August 2030: 1 of 1 plant galled" in words(answer, "lab_roots_some")


def test_a_large_count_stands_as_the_lab_wrote_it():
    answer = asked("lab_number", count="1234567", unit="per 10 kg")
    assert any("1,234,567" in line["words"] for line in answer["lines"])
    assert not any("e+" in line["words"] for line in answer["lines"])
