import pytest

from tests.domain.briefed import bed, check, dug, planting, rating
from tests.domain.lab_records import (
    BAG,
    bag,
    codes_of,
    found,
    lab,
    pots,
    report,
    soil_of,
    told,
)


def galled(*grades):
    return [planting(), check(), *(rating(n, grade) for n, grade in enumerate(grades))]


def test_without_a_report_or_pots_nothing_is_said_of_the_soil():
    assert soil_of(*dug(3, 4, 5)) is None
    assert soil_of(bed(), lab(), bag()) is None


def test_a_report_that_contradicts_the_roots_says_so_first():
    # Common practice, no source: galls seen outweigh none recovered.
    soil = soil_of(bed(), lab(), bag(), report(found()), *galled(4, 5, 6))
    assert soil["lines"][0]["code"] == "contra_roots_galled_lab_none"
    assert "Believe the roots" in soil["lines"][0]["words"]
    assert soil["lines"][0]["settle"] and soil["lines"][0]["because"]
    assert "none_not_set_beside" in codes_of(soil)
    assert not any(code.startswith(("evidence_", "threshold_")) for code in codes_of(soil))


def test_none_recovered_is_a_bound_and_never_nothing():
    # statistics: 100 cm3, 10 cores, e = 0.35: 11.7, outward 12; e = 0.2: 20.5, outward 21.
    soil = soil_of(bed(), lab(), bag(), report(found()))
    (finding,) = soil["reports"][0]["findings"]
    assert (finding["words"], finding["bound"], finding["value"]) == ("<12 per 100 cm³", 12, None)
    line = told(soil, "none_recovered")
    assert "with about 12 per 100 cm³" in line["words"]
    assert "about 21 per 100 cm³" in line["how_sure"]
    assert soil["series"][0]["points"][0]["bound"] == 12


@pytest.mark.parametrize(
    ("soil", "n_cores"), [(None, 10), ("100 cc", None), ("a handful", 10), ("2 g of root", 10)]
)
def test_none_from_an_unknown_amount_of_soil_has_no_bound(soil, n_cores):
    known = soil_of(bed(), lab(), bag(n_cores=n_cores), report(found(), soil=soil))
    (finding,) = known["reports"][0]["findings"]
    assert (finding["words"], finding["bound"]) == ("none recovered", None)
    assert "none_recovered_unknown" in codes_of(known)
    assert known["series"] == []


@pytest.mark.parametrize(
    ("count", "per", "words", "value"),
    [
        # 20 J2 in 500 cc are 4 in 100 (Barker, Shoemaker and Nelson 1976 as converted by hand).
        (20, "500 cc", "4 per 100 cm³", 4),
        (40, "250 cm³", "16 per 100 cm³", 16),
        (10, "200 mL", "5 per 100 cm³", 5),
        # A US pint has 473.176473 mL (NIST SP 811), so 100 a pint are 21.13 per 100.
        (100, "pint", "21.1 per 100 cm³", 21.1338),
        # 666 per kg at 1.3 g a cm3: 666 * 1.3 / 10.
        (666, "kg of soil", "about 86.6 per 100 cm³", 86.58),
    ],
)
def test_a_count_is_converted_and_its_original_kept(count, per, words, value):
    soil = soil_of(bed(), lab(), bag(), report(found(count, per)))
    (finding,) = soil["reports"][0]["findings"]
    assert finding["original"] == f"{count} per {per}"
    assert finding["words"] == words
    assert finding["value"] == pytest.approx(value, rel=1e-4)
    assert bool(finding["assumed"]) is words.startswith("about")


def test_the_luck_of_the_cores_stands_around_a_count():
    # 20 counted in 100 cm3 of 10 cores, k' = 5; of 20 cores, k' = 10: 9.6725 to 47.8455
    # (scipy nbinom, see fixtures/checks/counts.json).
    soil = soil_of(bed(), lab(), bag(n_cores=20), report(found(20)))
    (finding,) = soil["reports"][0]["findings"]
    assert finding["low"] == pytest.approx(9.6725, abs=1e-3)
    assert finding["high"] == pytest.approx(47.8455, abs=1e-3)


def test_a_count_of_roots_stays_a_count_of_roots():
    soil = soil_of(bed(), lab(), bag(), report(found(30, "g of root")))
    (finding,) = soil["reports"][0]["findings"]
    assert (finding["words"], finding["value"]) == ("30 per g of root", None)
    assert {"report_not_per_soil", "soil_present"} <= set(codes_of(soil))


def test_counts_of_two_labs_or_methods_are_two_series():
    other = report(found(60), each="01890a5d-00a5-7000-8000-000000000002", method="flotation")
    soil = soil_of(bed(), lab(), bag(), report(found(40)), other)
    assert [(one["method"], len(one["points"])) for one in soil["series"]] == [
        ("tray", 1),
        ("flotation", 1),
    ]


def test_two_counts_too_far_apart_for_luck_are_told_first():
    # Medians of one soil went from 34 to 3,733 in a ring test of 11 methods.
    other = report(found(3733), each="01890a5d-00a5-7000-8000-000000000002", method="flotation")
    soil = soil_of(bed(), lab(), bag(n_cores=40), report(found(34)), other)
    assert soil["lines"][0]["code"] == "contra_counts_apart"


def test_other_nematodes_have_a_line_and_free_living_ones_are_no_pests():
    lesion, free = found(12, taxon="lesion"), found(900, taxon="free_living")
    soil = soil_of(bed(), lab(), bag(), report(found(), lesion, free, found(2, taxon="odd_one")))
    sorts = [one["sort"] for one in soil["reports"][0]["findings"]]
    assert sorts == ["root_knot", "plant_parasitic", "free_living", "not_listed"]
    assert all(one["about"] for one in soil["reports"][0]["findings"])
    assert "Lesion nematode" in told(soil, "report_other_pests")["words"]
    assert "not pests" in told(soil, "report_free_living")["words"]


def test_the_lab_s_own_words_are_passed_on_as_text():
    soil = soil_of(
        bed(), lab(), bag(), report(found(4), hazard="Moderate", species_id="M. incognita")
    )
    assert told(soil, "report_hazard")["words"].endswith("Moderate.")
    assert told(soil, "report_species")["words"].endswith("M. incognita.")


@pytest.mark.parametrize(
    ("soil", "cores", "records", "code"),
    [
        # statistics 3.4, T = 5: nothing known 0.914 and the next worse beginning 0.855.
        ("100 cc", 10, [], "evidence_probably_below"),
        # 500 cm3, 20 cores: treated bed 0.965.
        ("500 cc", 20, [], "evidence_very_likely_below"),
        # assay 0 and a pot test of 2 L with none, from other soil: surer than either.
        ("100 cc", 10, pots(0, 0, 0), "evidence_very_likely_below"),
    ],
)
def test_all_checks_together_say_how_likely_the_bed_is_below_a_level(soil, cores, records, code):
    told_soil = soil_of(bed(), lab(), bag(n_cores=cores), report(found(), soil=soil), *records)
    line = told(told_soil, code)
    assert "5 per 100 cm³" in line["words"] and "%" not in line["words"]
    assert line["assumptions"] and line["because"]
    assert "Begun from: galls were seen here before" in str(line["because"])


def test_a_level_is_that_of_the_crop_to_come():
    okra = soil_of(bed(), lab(), bag(next_crop="Okra"), report(found(40)))
    # Okra, M. javanica: T 28 per 100 cm3, 10 % loss at 85 (Iran field plots).
    assert okra["crop"] == "Okra" and okra["spread"]["low"] == pytest.approx(28)
    assert any(code.startswith("threshold_") for code in codes_of(okra))
    assert "levels_at_large" in codes_of(soil_of(bed(), lab(), bag(), report(found(40))))


def test_galled_seedlings_contradict_none_recovered():
    soil = soil_of(bed(), lab(), bag(), report(found()), *pots(3, 0, 1))
    assert soil["lines"][0]["code"] == "contra_pots_galled_lab_none"
    assert "seedlings" in told(soil, "soil_present")["words"]


def test_seedlings_alone_speak_of_the_soil():
    soil = soil_of(bed(), *pots(3, 1, 5))
    assert codes_of(soil)[:2] == ["soil_present", "evidence_probably_below"]
    assert "9 galls on seedlings in 2100 cm³" in str(soil["lines"][1]["because"])
    assert soil["reports"] == []


def test_eggs_are_not_set_beside_levels_of_juveniles():
    soil = soil_of(bed(), lab(), bag(), report(found(40, stage="eggs_and_j2")))
    assert "count_with_eggs" in codes_of(soil)
    assert soil["series"] == []
    assert not any(code.startswith(("threshold", "evidence")) for code in codes_of(soil))


def test_no_hatched_young_beside_eggs_is_not_none():
    soil = soil_of(bed(), lab(), bag(), report(found(), found(40, stage="eggs")))
    codes = codes_of(soil)
    assert "soil_present" in codes and "count_with_eggs" in codes
    assert not any(code.startswith(("threshold", "evidence", "none_")) for code in codes)


def test_a_report_on_a_bag_that_is_not_here_is_counted_and_left_out():
    assert soil_of(bed(), lab(), report(found(40))) is None


def test_a_badly_handled_bag_makes_none_recovered_worth_less():
    bad = bag(moisture="dust_dry")
    soil = soil_of(bed(), lab(), bad, report(found()))
    assert "grade C" in told(soil, "report_bag_graded")["words"]
    # statistics 3.4: same assay, grade C, treated bed: 0.623.
    assert "evidence_cannot_tell" in codes_of(soil)
    assert soil["reports"][0]["soil_sample"] == BAG
