import pytest

from gardens.domain.thresholds import (
    GENERAL,
    Spread,
    caution_lines,
    levels_for,
    read_levels,
    set_beside,
    spread,
)

KINDS = {"tolerance_limit", "first_loss", "loss_seen", "no_loss_up_to", "any_found"}


@pytest.fixture
def levels(table):
    return read_levels(table("thresholds"), table("judgements"))


def of(crop, levels, species=None):
    return spread(levels_for(crop, levels, species))


def test_tomato_alone_spans_a_hundredfold(levels):
    # Barker and others 1976, 20 J2 per 500 cm3; Di Vito's earlier trials, 4 per cm3.
    found = of("tomato", levels)
    assert (found.low, found.high, found.n_levels) == (4, pytest.approx(400), 8)
    assert {"eggs_counted_too", "pots_overstate", "species_differ"} <= set(found.cautions)


def test_a_species_that_is_known_narrows_the_spread(levels):
    assert of("tomato", levels, "Mj").n_levels == 1


def test_a_density_at_which_loss_was_seen_is_no_onset(levels):
    assert levels_for("cabbage", levels) and of("cabbage", levels) is None


def test_weight_turned_into_volume_is_flagged(levels):
    assert "weight_crossed" in of("southern_pea", levels).cautions


def test_another_weight_of_soil_moves_only_levels_by_weight(table):
    light = read_levels(table("thresholds"), table("judgements"), 0.8)
    assert of("southern_pea", light).low == pytest.approx(249 * 0.8 / 10)
    assert of("carrot", light).low == pytest.approx(23)


@pytest.mark.parametrize(
    ("low", "high", "code"),
    [(0, 3, "below_all"), (0, 12, "within"), (30, 90, "within"), (500, 900, "above_all")],
)
def test_a_count_is_set_beside_the_spread_with_its_interval(low, high, code):
    assert set_beside(low, high, Spread(4, 400, 8, ())).code == f"threshold_{code}"


def test_below_levels_from_pots_is_no_comfort(levels):
    assert set_beside(0, 10, of("cucumber", levels)).code == "threshold_pots_only"


def test_a_crop_without_a_level_is_told_so(levels):
    assert set_beside(0, 3, of("borage", levels)).code == "threshold_no_levels"


def test_every_caution_has_words(levels, table):
    crops = {one.crop for one in levels} - {GENERAL}
    told = [
        line.code for crop in crops if of(crop, levels) for line in caution_lines(of(crop, levels))
    ]
    assert set(told) <= set(table("verdicts")) and len(set(told)) == 6


def test_every_level_says_what_it_is_of(levels, table):
    crops = {crop["key"] for crop in table("crops")} | {GENERAL}
    for one in levels:
        assert one.crop in crops and one.kind in KINDS
        assert one.species and one.stage and one.season and one.setting and one.region
        assert one.high is not None or one.kind == "any_found"
        assert one.low is None or one.low <= one.high


def test_no_level_speaks_of_a_share_of_yield(table):
    assert not any("%" in str(part) for row in table("thresholds") for part in row.values())
    rows = {code: row for code, row in table("verdicts").items() if code.startswith("threshold_")}
    assert rows and not any("%" in row["words"] for row in rows.values())
