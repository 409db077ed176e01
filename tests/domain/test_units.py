import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardens.domain.errors import DomainError
from gardens.domain.units import PER_100_CM3, Unit, convert_count, read_unit

counts = st.floats(0, 1e6)
soil_units = st.builds(Unit, st.sampled_from(["volume", "weight"]), st.floats(1, 5000))


@given(counts, soil_units, soil_units, st.floats(0.2, 2))
def test_there_and_back_is_the_same_count(count, one, other, weight):
    there = convert_count(count, one, other, {}, weight).value
    assert convert_count(there, other, one, {}, weight).value == pytest.approx(count)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("per 100 cm³", Unit("volume", 100)),
        ("J2/500 cc", Unit("volume", 500)),
        ("nematodes per 200 mL", Unit("volume", 200)),
        ("100 cm3", Unit("volume", 100)),
        ("per litre of soil", Unit("volume", 1000)),
        ("per kg dry soil", Unit("weight", 1000)),
        ("count per 1,000 g soil", Unit("weight", 1000)),
        ("0.250 kg", Unit("weight", 250)),
        ("per g of root", Unit("root_weight", 1)),
        ("per g fresh roots", Unit("root_weight", 1)),
    ],
)
def test_what_labs_write_is_read(text, unit):
    assert read_unit(text) == unit


UNSURE = ["", "many", "per plant", "per 2,5 g", "per 0 cc", "per cc root"]
UNSURE += ["per 1/2 pint", "1/4 litre", "per 1.000 g", "12.500 cc", "40/100 g"]


@pytest.mark.parametrize("text", UNSURE)
def test_what_could_be_read_two_ways_is_not_read(text):
    assert read_unit(text) is None


@given(st.text(max_size=60))
def test_any_text_is_read_or_not_but_never_breaks(text):
    assert read_unit(text) is None or read_unit(text).amount > 0


def test_crossing_weight_and_volume_is_flagged(table):
    per_kg = Unit("weight", 1000)
    assumed = convert_count(666, per_kg, PER_100_CM3, table("judgements"))
    stated = convert_count(666, per_kg, PER_100_CM3, table("judgements"), 1.2)
    assert (assumed.flag, assumed.bulk_density) == ("bulk_density_assumed", 1.3)
    assert stated.flag == "bulk_density_stated"
    assert 79 < stated.value < assumed.value < 88


def test_nothing_is_flagged_between_volumes():
    found = convert_count(20, Unit("volume", 500), PER_100_CM3, {})
    assert (found.value, found.flag, found.bulk_density) == (4, None, None)


def test_roots_are_never_turned_into_soil():
    with pytest.raises(DomainError, match="no_conversion_of_roots"):
        convert_count(5, Unit("root_weight", 1), PER_100_CM3, {}, 1.3)


@pytest.mark.parametrize("weight", [0, -1, 3, float("nan")])
def test_a_weight_no_soil_has_is_refused(weight):
    with pytest.raises(DomainError, match="bulk_density_wrong"):
        convert_count(5, Unit("weight", 1), PER_100_CM3, {}, weight)


def test_a_count_below_nothing_is_refused():
    with pytest.raises(DomainError, match="negative"):
        convert_count(-1, PER_100_CM3, PER_100_CM3, {})
