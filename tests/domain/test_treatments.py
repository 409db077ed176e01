import pytest

from gardens.domain.errors import DomainError
from gardens.domain.rates import convert_rate, nitrogen_carried, rate_of_soil_weight
from gardens.domain.treatments import (
    DOSES,
    EFFECTS,
    GRADES,
    beside_tested_rate,
    read_cover_crops,
    read_treatments,
    treatment,
)


@pytest.fixture(scope="module")
def tried(table):
    return table("treatments")


def test_every_treatment_has_a_grade_an_effect_sources_and_cautions(tried):
    rows = read_treatments(tried)
    assert len({one.key for one in rows}) == len(rows) >= 30
    for one in rows:
        assert one.effect in EFFECTS and one.evidence in GRADES and one.source and one.seen
        assert set(one.cautions) <= set(tried["cautions"])
    assert set(tried["grades"]) == set(GRADES)


def test_labels_and_local_advice_go_with_everything(tried):
    for one in read_treatments(tried):
        assert {"label_is_law", "local_advice_first", "never_alone"} <= set(one.cautions)


@pytest.mark.parametrize(
    ("key", "caution"),
    [
        ("chicken_litter", "ammonia_burn"),
        ("chicken_litter", "raw_manure_wait"),
        ("chicken_litter", "nitrate"),
        ("steam", "scald"),
        ("castor_seed", "toxic_plant"),
        ("trap_crop", "multiplies_if_late"),
        ("mustard_meal", "seedling_harm"),
        ("resistant_kind", "regulated_species"),
        ("solarization", "plastic_waste"),
    ],
)
def test_what_can_hurt_is_said(key, caution, tried):
    assert caution in treatment(key, tried).cautions


def test_nematicides_are_kinds_and_nothing_is_judged_of_them(tried):
    kinds = [one for one in read_treatments(tried) if one.kind == "nematicide"]
    assert {one.key for one in kinds} == {
        "fumigant",
        "contact_nematicide",
        "microbial",
        "botanical",
    }
    assert {(one.effect, one.tested_g_per_m2) for one in kinds} == {("not_judged", None)}


def test_the_rate_on_a_bag_of_shell_meal_is_below_every_rate_tried(tried):
    pots = treatment("shell_meal_pots", tried)
    for pounds in (2, 5):
        bag = convert_rate(pounds, "lb_per_100_ft2", "g_per_m2")
        assert beside_tested_rate(pots, bag) == "below_all_tested"
    assert treatment("shell_meal_shop_rate", tried).effect == "unproven"


def test_rates_are_set_beside_those_that_were_tried(tried):
    litter = treatment("chicken_litter", tried)
    found = [beside_tested_rate(litter, grams) for grams in (100, 1000, 3000)]
    assert found == ["below_all_tested", "within_tested", "above_all_tested"]
    assert beside_tested_rate(treatment("fallow", tried), 1) == "no_rate_tested"


def test_tested_rates_are_those_of_the_papers_in_other_units(tried):
    # 269 t/ha of compost; litter 0.125 to 1 %, that is 5 to 40 lb per 100 square feet.
    compost = treatment("yard_compost", tried).tested_g_per_m2
    assert convert_rate(compost.low, "g_per_m2", "t_per_ha") == pytest.approx(269)
    litter = treatment("chicken_litter", tried).tested_g_per_m2
    ends = [convert_rate(end, "g_per_m2", "lb_per_100_ft2") for end in (litter.low, litter.high)]
    assert ends == pytest.approx([5, 40], rel=0.01)


@pytest.mark.parametrize(
    ("key", "low", "high"),
    [
        # Percent of soil weight in the papers; 15 cm of soil at 1.3 g/cm3.
        ("chicken_litter", 0.125, 1),  # Riegel 1996, Kaplan 1993
        ("mustard_meal", 0.1, 0.2),  # Meyer 2011
        ("castor_seed", 0.5, 2),  # Rich and Rahi
        ("shell_meal_pots", 1, 13.3),  # Rodriguez-Kabana; shell meals in pots
    ],
)
def test_tested_rates_by_soil_weight_are_those_of_the_papers(key, low, high, tried):
    span = treatment(key, tried).tested_g_per_m2
    ends = (rate_of_soil_weight(percent, 15, 1.3) for percent in (low, high))
    assert (span.low, span.high) == pytest.approx(tuple(ends), rel=0.03)


def test_a_row_whose_rates_are_another_row_s_names_one_that_has_some(tried):
    named = [one for one in read_treatments(tried) if one.tried_as]
    assert [one.key for one in named] == ["shell_meal_shop_rate"]
    assert all(treatment(one.tried_as, tried).tested_g_per_m2 for one in named)
    assert {one.dose for one in read_treatments(tried)} == set(DOSES)


def test_the_urea_mix_carries_far_more_nitrogen_than_a_season_takes(tried, table):
    mix = treatment("chitin_urea_mix", tried)
    need = table("judgements")["nitrogen_season_need_g_per_m2"]["value"]
    found = nitrogen_carried(mix.tested_g_per_m2.high, mix.nitrogen_percent, need)
    assert found.warn == "more_than_a_crop_takes"
    assert found.lb_per_100_ft2 == pytest.approx(2.7, abs=0.05)


def test_an_unknown_treatment_is_refused(tried):
    with pytest.raises(DomainError, match="unknown_treatment"):
        treatment("full_moon", tried)


def test_cover_crops_are_on_the_list_and_share_the_cautions(table, tried):
    rows = read_cover_crops(table("cover_crops"))
    assert {one.crop for one in rows} <= {crop["key"] for crop in table("crops")}
    for one in rows:
        assert set(one.cautions) <= set(tried["cautions"])
        assert one.seed_g_per_m2 is None or 0 < one.seed_g_per_m2.low <= one.seed_g_per_m2.high


@pytest.mark.parametrize(
    ("crop", "advice"),
    [("hairy_vetch", "avoid"), ("signet_marigold", "avoid"), ("cereal_rye", "holds"),
     ("iron_clay_cowpea", "depends_on_species"), ("sunn_hemp", "useful")],
)  # fmt: skip
def test_covers_that_feed_root_knot_are_never_called_useful(crop, advice, table):
    (found,) = [one for one in read_cover_crops(table("cover_crops")) if one.crop == crop]
    assert found.advice == advice


def test_no_cover_called_useful_is_a_good_host_of_the_three_common_species(table):
    hosts = {row["key"]: row["species"] for row in table("host_status")}
    useful = [one.crop for one in read_cover_crops(table("cover_crops")) if one.advice == "useful"]
    levels = {
        level
        for crop in useful
        for species in ("Mi", "Mj", "Ma")
        for level in hosts[crop].get(species, {"levels": []})["levels"]
    }
    assert "good" not in levels


def test_seed_rates_are_those_of_the_sources(table):
    # 40 kg/ha of sunn hemp, 30 lb/acre of sudangrass.
    rates = {one.crop: one.seed_g_per_m2 for one in read_cover_crops(table("cover_crops"))}
    assert rates["sunn_hemp"].low == pytest.approx(4.0, abs=0.05)
    assert rates["sorghum_sudangrass"].low == pytest.approx(3.36, abs=0.005)
