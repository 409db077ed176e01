import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gardens.domain.core_plan import core_plan
from gardens.domain.errors import DomainError
from gardens.domain.geometry import is_inside

BED = [(0, 0), (120, 0), (120, 480), (0, 480)]
ELBOW = [(0, 0), (120, 0), (120, 200), (300, 200), (300, 320), (0, 320)]
PRONGS = [(0, 0), (400, 0), (400, 200), (300, 200), (300, 60), (100, 60), (100, 200), (0, 200)]
SLANTED = [(0, 0), (200, 80), (260, 300), (40, 260)]
PLANTS = [(x, y) for x in (30, 90) for y in range(30, 480, 60)]

beds = st.sampled_from([BED, ELBOW, PRONGS, SLANTED])


@settings(deadline=None)
@given(beds, st.integers(1, 40), st.text(max_size=8))
def test_every_core_lies_in_the_bed_and_no_two_in_one_place(bed, n, seed):
    plan = core_plan(bed, n, seed)
    assert len(set(plan)) == n
    assert all(is_inside(bed, place) for place in plan)


@settings(deadline=None)
@given(beds, st.integers(1, 40), st.text(max_size=8))
def test_the_same_seed_gives_the_same_places(bed, n, seed):
    assert core_plan(bed, n, seed) == core_plan(bed, n, seed)


def test_another_seed_shifts_the_places():
    assert len({core_plan(BED, 10, seed) for seed in "abcdef"}) == 6


def test_cores_go_to_and_fro_along_the_longer_side():
    plan = core_plan(BED, 12, "K7M2H")
    assert [y for _, y in plan] == sorted(y for _, y in plan)
    assert {x for x, _ in plan} == {24, 60, 96}
    assert all(one[0] != other[0] for one, other in itertools.pairwise(plan))


def test_a_bed_that_lies_across_is_walked_across():
    plan = core_plan([(0, 0), (480, 0), (480, 120), (0, 120)], 12, "K7M2H")
    assert [x for x, _ in plan] == sorted(x for x, _ in plan)


def test_every_strip_of_equal_area_has_one_core():
    plan = core_plan(BED, 10, "R4THB")
    assert [y // 48 for _, y in plan] == list(range(10))


def test_cores_are_lifted_beside_the_stems():
    plan = core_plan(BED, 10, "K7M2H", plants=PLANTS, root_zone_cm=10)
    for place in plan:
        assert 9 <= min(math.dist(place, plant) for plant in PLANTS) <= 11


def test_no_plant_has_more_than_its_share_of_cores():
    plants = [(60, 60), (60, 240), (60, 420)]
    plan = core_plan(BED, 9, "K7M2H", plants=plants)
    nearest = [min(plants, key=lambda plant: math.dist(plant, place)) for place in plan]
    assert sorted(nearest.count(plant) for plant in plants) == [3, 3, 3]


def test_plants_at_the_edge_keep_their_cores_in_the_bed():
    plan = core_plan(BED, 8, "K7M2H", plants=[(1, y) for y in range(20, 480, 60)])
    assert all(is_inside(BED, place) for place in plan)


def test_a_part_of_the_bed_is_sampled_alone():
    plan = core_plan(ELBOW, 8, "K7M2H", part=(0, 0, 120, 320), plants=[(250, 260), (60, 100)])
    assert all(0 <= x <= 120 and 0 <= y <= 320 for x, y in plan)


def test_ground_that_cannot_hold_the_cores_says_how_many_fit():
    with pytest.raises(DomainError) as refusal:
        core_plan([(0, 0), (20, 0), (20, 20), (0, 20)], 11, "x")
    assert refusal.value.code == "too_many_cores" and refusal.value.params["most"] == 10


def test_a_part_beside_the_bed_is_refused():
    with pytest.raises(DomainError, match="part_outside_bed"):
        core_plan(ELBOW, 4, "x", part=(200, 0, 300, 150))


def test_a_sliver_without_a_whole_centimetre_is_refused():
    sliver = [(0.2, 0), (0.8, 0), (0.8, 400), (0.2, 400)]
    with pytest.raises(DomainError, match="no_room_for_core"):
        core_plan(sliver, 2, "x")
