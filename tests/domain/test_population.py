import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from gardens.domain.damage import (
    economic_threshold_ferris,
    peanut_yield_koenning,
    read_damage_parameters,
    relative_yield_seinhorst,
)
from gardens.domain.decline import (
    density_without_host,
    final_density_winter_rye,
    half_life_days,
    monthly_survival,
    survival_after,
)
from gardens.domain.errors import DomainError
from gardens.domain.host_classes import (
    host_class_canto_saenz,
    host_class_oostenbrink,
    resistance_beside_check,
    years_without_host,
)
from gardens.domain.population import (
    final_density_logistic,
    final_density_one_generation,
    final_density_season,
    reproduction_factor,
)
from gardens.domain.what_if import FALLING, GROWING, what_if_season

densities = st.floats(0, 1e5)
above_zero = st.floats(0.01, 1e4)


@given(densities, above_zero, st.floats(0, 1), st.floats(0.5, 0.99))
def test_relative_yield_stays_between_the_least_and_all(density, limit, least, base):
    found = relative_yield_seinhorst(density, limit, least, base)
    assert least - 1e-12 <= found <= 1
    assert relative_yield_seinhorst(density * 2, limit, least, base) <= found
    assert found == 1 or density > limit


@pytest.mark.parametrize("wrong", [(1, 0, 0.1), (-1, 1, 0.1), (1, 1, 1.2), (1, 1, 0.1, 1.0)])
def test_impossible_damage_is_refused(wrong):
    with pytest.raises(DomainError):
        relative_yield_seinhorst(*wrong)


def test_published_fits_of_one_crop_stay_apart(table):
    rows = read_damage_parameters(table("damage_parameters"))
    tomato = [one.tolerance_limit for one in rows if one.crop == "tomato" and one.species == "Mi"]
    assert sorted(tomato) == [0.55, 0.55, 3.3, 4.0]
    assert {one.crop for one in rows} <= {crop["key"] for crop in table("crops")}


def test_a_treatment_dearer_than_the_loss_never_pays():
    asked = {"crop_value": 100, "production_cost": 50, "damage_per_nematode": 0.99,
             "tolerance_limit": 5, "minimum_yield": 0.4}  # fmt: skip
    assert economic_threshold_ferris(control_cost=31, **asked) is None
    assert economic_threshold_ferris(control_cost=0, **asked) == 5
    with pytest.raises(DomainError, match="not_above_zero"):
        economic_threshold_ferris(control_cost=1, **{**asked, "production_cost": 100})


def test_peanut_has_curves_for_two_species_only():
    with pytest.raises(DomainError, match="no_curve_for"):
        peanut_yield_koenning(1, "Mi")


@given(densities, st.floats(1, 1e3), above_zero)
@example(5e-324, 1.0, 1.6)
@example(5e-324, 1.0, 0.6)
def test_no_model_passes_its_ceiling(density, multiplication, ceiling):
    for model in (final_density_one_generation, final_density_season):
        found = model(density, multiplication, ceiling)
        assert 0 <= found <= ceiling * (1 + 1e-12)
        assert found <= multiplication * density * (1 + 1e-9)


@given(st.floats(1, 1e3), above_zero)
def test_the_logistic_stands_still_at_its_equilibrium(multiplication, equilibrium):
    found = final_density_logistic(equilibrium, multiplication, equilibrium)
    assert found == pytest.approx(equilibrium)


def test_a_factor_needs_something_to_start_from():
    with pytest.raises(DomainError, match="not_above_zero"):
        reproduction_factor(0, 10)


@given(st.floats(0.01, 0.99))
def test_a_year_of_months_loses_what_a_year_loses(loss):
    year = density_without_host(1000, monthly_survival(loss), 12)
    assert year == pytest.approx(1000 * (1 - loss))
    assert survival_after(365, half_life_days(loss)) == pytest.approx(1 - loss)


@given(st.floats(0, 5000))
def test_rye_never_leaves_less_than_nothing_nor_more_than_it_found(density):
    assert 0 <= final_density_winter_rye(density) <= density + 1e-9


@pytest.mark.parametrize("call", [host_class_oostenbrink, lambda rf: host_class_canto_saenz(1, rf)])
def test_a_negative_factor_is_refused(call):
    with pytest.raises(DomainError, match="negative"):
        call(-0.1)


def test_a_share_of_galled_roots_is_not_taken_for_a_gall_index():
    with pytest.raises(DomainError, match="out_of_scale"):
        host_class_canto_saenz(40, 1)


def test_resistance_lines_are_open_at_ten_and_fifty_percent():
    assert resistance_beside_check(0, 10) == "highly_resistant"
    assert resistance_beside_check(5, 10) == "not_resistant"
    with pytest.raises(DomainError):
        resistance_beside_check(1, 0)


@given(st.floats(1, 1e5), st.floats(1, 1e5), st.floats(0.05, 0.95))
def test_years_without_host_bring_numbers_back(density, start, survival):
    years = years_without_host(density, start, survival)
    left = density_without_host(density, survival, years)
    assert left == pytest.approx(min(density, start)) and math.isfinite(years)


@pytest.mark.parametrize("season", [*GROWING, *FALLING])
def test_a_what_if_season_is_marked_as_a_judgement(season, table):
    found = what_if_season(100, season, table("judgements"))
    assert found.mark == "judgement"
    assert (found.after > 100) == (season in GROWING)
    if season in FALLING:
        assert what_if_season(100, season, table("judgements"), weedy=True).after == 100


def test_an_unknown_season_is_refused(table):
    with pytest.raises(DomainError, match="unknown_season"):
        what_if_season(100, "monsoon", table("judgements"))
