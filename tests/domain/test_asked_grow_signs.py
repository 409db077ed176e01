from itertools import product

import pytest

from gardens.domain.differential import HOSTS
from tests.domain.asking import asked, cells, codes, words
from tests.domain.briefed import BED, TABLES, bed, planting
from tests.domain.grown import galled, named


def plants(galled="", spared="", **typed):
    return asked("test_plants", galled=galled, not_galled=spared, **typed)


def numbers(before, after, **typed):
    return asked("host_by_numbers", before=before, after=after, **typed)


def settle(answer):
    return answer["lines"][0]["settle"]


def test_the_row_of_hapla_leaves_hapla_and_names_the_nearest_too():
    # The differential host test as generally reproduced (Taylor and Sasser 1978; from memory).
    answer = plants("tobacco,pepper,peanut,tomato", "cotton,watermelon")
    said = words(answer, "test_plants_one_fits")
    assert "consistent with M. hapla; M. arenaria would fit too but for 1 plant." in said
    assert cells(answer, "M. hapla")["Fits on"].startswith("cotton, tobacco, pepper")
    assert cells(answer, "M. arenaria")["Would fit but for"] == "watermelon (race 1)"
    assert "never an identification" in answer["lines"][0]["how_sure"]


def test_galled_tobacco_leaves_javanica_and_not_race_1_of_incognita():
    # López, Dickson and Littell 1977: M. incognita spared tobacco NC95, M. javanica galled it.
    galled, spared = (plants(*one) for one in (("tobacco,tomato",), ("tomato", "tobacco")))
    assert "M. javanica" in named(galled)
    assert "Fits on (race 1)" not in cells(galled, "M. incognita")
    assert "Fits on" not in cells(spared, "M. javanica")
    assert "Fits on (race 1)" in cells(spared, "M. incognita")


def test_pepper_without_galls_excludes_nothing():
    # A 2022 study from Florida: three M. arenaria isolates bred on pepper, next to no galls.
    answer = plants("tobacco,watermelon,tomato", "cotton,pepper,peanut")
    assert {"M. arenaria", "M. floridensis", "M. javanica"} <= set(named(answer))
    assert "says nothing" in words(answer, "test_plants_pepper")
    assert "pepper" not in cells(answer, "M. javanica")["Fits on"]


def test_enterolobii_among_those_left_calls_for_the_authority():
    answer = plants("tobacco,pepper,watermelon,tomato", "peanut")
    assert "plant-health authority" in words(answer, "species_may_be_regulated")
    (marked,) = [row["name"] for row in answer["rows"] if row["caution"]]
    assert marked == "M. enterolobii"


def test_signs_that_fit_no_row_go_to_a_laboratory():
    answer = plants("cotton,peanut,tomato", "tobacco,watermelon")
    assert codes(answer) == ["test_plants_none_fit", "test_plants_send"]
    assert len(answer["rows"]) >= 2
    assert all("Would fit but for" in cells(answer, name) for name in named(answer))


@pytest.mark.parametrize("others", list(product(["galled", "spared", "open"], repeat=5)))
def test_two_species_at_least_are_always_listed(others):
    did = dict(zip([one for one in HOSTS if one != "tomato"], others, strict=True))
    galled = [host for host, what in did.items() if what == "galled"]
    spared = [host for host, what in did.items() if what == "spared"]
    answer = plants(",".join([*galled, "tomato"]), ",".join(spared))
    assert len(answer["rows"]) == len(set(named(answer))) >= 2
    assert "identified" not in answer["lines"][0]["words"]


def test_what_to_grow_next_is_named():
    answer = plants("peanut,tomato")
    assert "Grow watermelon too: the rows left differ there." in settle(answer)


def test_without_a_galled_tomato_the_test_is_in_doubt():
    assert "test_plants_no_tomato" in codes(plants("peanut"))
    assert "test_plants_no_tomato" not in codes(plants("peanut,tomato"))


@pytest.mark.parametrize(
    ("galled", "spared", "field"),
    [
        ("", "", "galled"),
        ("", "cotton", "galled"),
        ("peanut", "tomato", "not_galled"),
        ("peanut,tomato", "peanut", "not_galled"),
    ],
)
def test_test_plants_that_cannot_be_read_are_told_beside_their_box(galled, spared, field):
    (wrong,) = plants(galled, spared)["wrong"]
    assert wrong["field"] == field


def test_the_roots_of_the_bed_are_told_beside_the_test_plants():
    answer = asked("test_plants", galled("strawberry", 5, 6, 4), galled="peanut,tomato", bed=BED)
    assert "M. hapla" in words(answer, "test_plants_and_bed")
    nothing = asked("test_plants", [bed()], galled="peanut,tomato", bed=BED)
    assert "test_plants_and_bed" not in codes(nothing)


def test_a_resistant_kind_galled_in_the_bed_adds_the_call_to_identify():
    # Schwarz and others 2021: kinds of sweet potato that resist M. incognita fed M. enterolobii.
    records = galled("sweet_potato", 4, 5, 3, resistance_code="HR: Mi")
    assert "species_identify" in codes(asked("test_plants", records, galled="tomato", bed=BED))


def test_a_sharp_rise_is_a_host():
    # Fenugreek and M. javanica, Journal of Nematology 2023: 31.6-fold at 2 per gram of soil.
    answer = numbers(200, 6320, plant="fenugreek")
    assert "32 times as many" in words(answer, "numbers_host")
    assert cells(answer, "By the numbers alone")["Says"].startswith("Host")
    assert cells(answer, "As published: Fenugreek")["Good host"] == "M. javanica"


def test_a_fall_to_a_fifth_is_a_poor_host():
    # Plant Disease 106: 1238 (2022): from 5,000 to under 1,000 is a factor below 0.2.
    answer = numbers(5000, 990)
    assert "0.2 times as many" in words(answer, "numbers_poor_host")


@pytest.mark.parametrize(("after", "code"), [(300, "uncertain"), (50, "uncertain"), (900, "host")])
def test_a_change_that_luck_allows_is_uncertain(after, code):
    assert codes(numbers(100, after))[0] == f"numbers_{code}"


def test_none_recovered_is_never_told_as_none_there():
    answer = numbers(50, 0)
    said = words(answer, "numbers_none_recovered")
    assert said.startswith("None recovered after") and "up to 0.11 times" in said
    assert "does not prove" in cells(answer, "By the numbers alone")["Says"]


@pytest.mark.parametrize(
    ("galls", "after", "name"),
    # The four classes from their definition; the first two names are from memory.
    [(2, 40, "Resistant"), (2, 300, "Tolerant"), (40, 1200, "Susceptible"), (40, 50, "Hyper")],
)
def test_galls_and_numbers_together_have_four_names(galls, after, name):
    told = cells(numbers(100, after, galls=galls), "By galls and numbers")
    assert told["Says"].startswith(name) and told["Read"] == "From memory, not confirmed."


@pytest.mark.parametrize(("galls", "index"), [(2, 1), (3, 2), (10, 2), (100, 4), (101, 5)])
def test_galls_are_counted_into_the_index_of_the_trade(galls, index):
    # Classes of Taylor and Sasser, quoted in a 2022 study from Florida: 1-2, 3-10, 11-30, 31-100.
    told = cells(numbers(100, 3000, galls=galls), "By galls and numbers")
    assert f"(here {index})" in told["Where the line is"]


def test_beside_a_susceptible_plant_a_tenth_and_a_half_are_the_lines():
    # Aydınlı and others 2019, winter squash: below 10 % and below 50 % of the check.
    says = [
        cells(numbers(100, after, beside=1000), "Beside a susceptible plant")["Says"][:6]
        for after in (99, 100, 499, 500)
    ]
    assert says == ["Highly", "Modera", "Modera", "Not re"]


def test_names_that_do_not_agree_are_uncertain_and_all_shown():
    answer = numbers(100, 3000, galls=5, beside=50000)
    assert words(answer, "numbers_classes_differ").startswith("Uncertain")
    assert len(answer["rows"]) == 3
    assert "numbers_classes_differ" not in codes(numbers(100, 3000, galls=50))


@pytest.mark.parametrize(("after", "galls"), [(0, 1), (60, 50)])
def test_galls_are_believed_before_a_count_that_fell(after, galls):
    assert "Believe the roots" in words(numbers(100, after, galls=galls), "numbers_galls_say_more")


def test_a_bed_sets_what_is_published_of_its_crop_beside_it():
    answer = asked("host_by_numbers", [bed(), planting()], before=100, after=3000, bed=BED)
    assert named(answer)[-1] == "As published: Okra"


@pytest.mark.parametrize(("before", "after"), [(1, 0), (1, 1_000_000), (100_000, 0.4), (1.5, 1.5)])
def test_the_ends_of_the_boxes_are_answered(before, after):
    answer = numbers(before, after, galls=10000, beside=1)
    assert answer["wrong"] == [] and "e+" not in answer["lines"][0]["words"]


def test_counts_are_needed():
    assert {one["field"] for one in asked("host_by_numbers")["wrong"]} == {"before", "after"}


def test_every_test_plant_of_the_table_can_be_ticked():
    assert {one["key"] for one in TABLES["differential_hosts"]["hosts"]} == set(HOSTS)
