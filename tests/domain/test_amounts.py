import pytest
import scipy.constants as exact
from hypothesis import given
from hypothesis import strategies as st

from gardens.domain.amounts import Span, bags, celsius, layer, volume, weight_kg
from gardens.domain.errors import DomainError
from gardens.domain.rates import (
    RATES,
    convert_rate,
    dressing_kg,
    nitrogen_carried,
    rate_of_soil_weight,
    seed_grams,
)

amounts = st.floats(0, 1e6)
units = st.sampled_from(sorted(RATES))


def test_rates_agree_with_the_constants_of_a_reference_library():
    hundred_ft2 = 100 * exact.foot**2
    assert RATES["lb_per_100_ft2"] == pytest.approx(1000 * exact.pound / hundred_ft2, rel=1e-12)
    assert RATES["lb_per_acre"] == pytest.approx(1000 * exact.pound / exact.acre, rel=1e-12)
    assert RATES["kg_per_ha"] == pytest.approx(1000 / exact.hectare, rel=1e-12)
    assert RATES["t_per_ha"] == pytest.approx(1e6 / exact.hectare, rel=1e-12)


def test_volumes_agree_with_the_constants_of_a_reference_library():
    found = volume(1000)
    assert found.cubic_feet == pytest.approx(1 / exact.foot**3, rel=1e-12)
    assert found.cubic_yards == pytest.approx(1 / exact.yard**3, rel=1e-12)


@given(st.floats(-40, 200))
def test_fahrenheit_agrees_with_a_reference_library(fahrenheit):
    from_library = exact.convert_temperature(fahrenheit, "Fahrenheit", "Celsius")
    assert celsius(fahrenheit) == pytest.approx(from_library, abs=1e-9)


@given(amounts, units, units)
def test_a_rate_comes_back_as_it_was(value, one, other):
    back = convert_rate(convert_rate(value, one, other), other, one)
    assert back == pytest.approx(value, rel=1e-9)


@given(amounts, st.floats(0.1, 200))
def test_bags_are_never_too_few_and_never_one_too_many(litres, bag_litres):
    found = bags(litres, bag_litres)
    assert found.n_bags * bag_litres >= litres - 1e-6 * bag_litres
    assert (found.n_bags - 1) * bag_litres < litres or found.n_bags == 0
    assert 0 <= found.left_over_litres <= bag_litres


def test_bags_that_fit_exactly_leave_nothing_over():
    assert bags(120, 40).n_bags == 3
    assert bags(3 * 0.1, 0.1).n_bags == 3  # 0.1 three times is not 0.3 in binary


@given(st.floats(0, 1e4), st.floats(0, 100))
def test_a_layer_twice_as_deep_is_twice_the_volume(area_m2, depth_cm):
    once, twice = layer(area_m2, depth_cm), layer(area_m2, 2 * depth_cm)
    assert twice.litres == pytest.approx(2 * once.litres)


@pytest.mark.parametrize(
    "call",
    [
        lambda: layer(-1, 2),
        lambda: layer(float("nan"), 2),
        lambda: bags(10, 0),
        lambda: convert_rate(float("inf"), "kg_per_ha", "t_per_ha"),
        lambda: seed_grams(1, Span(1, 2), 0),
        lambda: nitrogen_carried(10, 101, 17),
        lambda: weight_kg(10, -1, 2),
        lambda: rate_of_soil_weight(1, -15, 1.3),
        lambda: dressing_kg(1, -1),
    ],
)
def test_what_is_no_amount_is_refused(call):
    with pytest.raises(DomainError, match="not_an_amount"):
        call()


def test_an_unknown_unit_is_refused():
    with pytest.raises(DomainError, match="unknown_rate_unit"):
        convert_rate(1, "oz_per_yd2", "g_per_m2")


def test_seed_that_germinates_badly_needs_more():
    assert seed_grams(10, Span(4, 6)) == Span(40, 60)
    assert seed_grams(10, Span(4, 6), 50) == Span(80, 120)


def test_a_dressing_at_the_line_is_within_a_season():
    assert nitrogen_carried(1700, 1, 17).warn == "within_a_season"
    assert nitrogen_carried(1701, 1, 17).warn == "more_than_a_crop_takes"


def test_bulk_densities_may_come_in_either_order():
    assert weight_kg(1000, 712, 593) == Span(593, 712)
