import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gardens.domain.geometry import (
    area_cm2,
    area_within_cm2,
    box,
    corners,
    crosses_itself,
    is_inside,
    scale_to_fit,
    segments_meet,
)

SQUARE = [(0, 0), (4, 0), (4, 4), (0, 4)]
CORNER_BED = [(0, 0), (300, 0), (300, 100), (140, 100), (140, 260), (0, 260)]


def test_areas_agree_with_the_formulas_of_school():
    assert area_cm2(SQUARE) == 16
    assert area_cm2([(0, 0), (6, 0), (4, 3), (1, 3)]) == (6 + 3) / 2 * 3
    assert area_cm2(CORNER_BED) == 300 * 100 + 140 * 160


def test_many_corners_come_near_the_area_of_a_circle():
    ring = [(math.cos(i * math.tau / 400), math.sin(i * math.tau / 400)) for i in range(400)]
    assert area_cm2(ring) == pytest.approx(math.pi, rel=1e-4)


@pytest.mark.parametrize(
    ("bounds", "area"),
    [
        ((0, 0, 300, 260), 300 * 100 + 140 * 160),
        ((-50, -50, 999, 999), 300 * 100 + 140 * 160),
        ((0, 0, 140, 260), 140 * 260),
        ((100, 50, 200, 150), 100 * 50 + 40 * 50),
        ((200, 150, 300, 260), 0),
        ((400, 0, 500, 50), 0),
    ],
)
def test_only_what_lies_in_the_bed_counts_as_part_of_it(bounds, area):
    assert area_within_cm2(CORNER_BED, bounds) == pytest.approx(area)


def test_a_bent_outline_cut_into_two_pieces_has_the_area_of_both():
    prongs = [(0, 0), (50, 0), (50, 30), (30, 30), (30, 10), (10, 10), (10, 30), (0, 30)]
    assert area_within_cm2(prongs, (0, 20, 50, 30)) == pytest.approx(20 * 10 + 10 * 10)


def test_the_box_holds_all_points():
    assert box([(3, 9), (-1, 4), (7, 5)]) == (-1, 4, 7, 9)


def test_a_rectangle_has_four_corners():
    shape = {"type": "rectangle", "width_cm": 120, "length_cm": 300}
    assert corners(shape) == [(0, 0), (120, 0), (120, 300), (0, 300)]
    assert corners({"type": "outline", "points_cm": [[0, 0], [9, 0], [0, 9]]})[1] == (9, 0)


@pytest.mark.parametrize(
    ("point", "inside"),
    [((2, 2), True), ((4, 2), True), ((0, 0), True), ((4.01, 2), False), ((2, -1), False)],
)
def test_a_point_on_the_border_is_inside(point, inside):
    assert is_inside(SQUARE, point) is inside


def test_the_notch_of_a_corner_bed_is_outside():
    assert is_inside(CORNER_BED, (100, 200))
    assert not is_inside(CORNER_BED, (200, 200))


@pytest.mark.parametrize(
    ("segments", "meet"),
    [
        (((0, 0), (2, 2), (0, 2), (2, 0)), True),
        (((0, 0), (2, 0), (1, 0), (1, 5)), True),
        (((0, 0), (2, 0), (1, 0), (3, 0)), True),
        (((0, 0), (1, 0), (2, 0), (3, 0)), False),
        (((0, 0), (1, 0), (0, 1), (1, 1)), False),
    ],
)
def test_segments_meet_when_they_share_a_point(segments, meet):
    assert segments_meet(*segments) is meet


@pytest.mark.parametrize(
    "outline",
    [
        [(0, 0), (2, 2), (2, 0), (0, 2)],
        [(0, 0), (4, 0), (2, 0), (2, 3)],
        [(0, 0), (4, 0), (4, 4), (2, 0), (0, 4)],
        [(0, 0), (4, 0), (4, 4), (0, 0), (0, 4)],
    ],
)
def test_an_outline_that_crosses_touches_or_folds_back_on_itself_is_seen(outline):
    assert crosses_itself(outline)


@pytest.mark.parametrize(
    "outline", [SQUARE, CORNER_BED, [(0, 0), (4, 0), (0, 3)], [(0, 0), (2, 0), (4, 0), (4, 4)]]
)
def test_a_plain_outline_does_not_cross_itself(outline):
    assert not crosses_itself(outline)
    assert not crosses_itself(outline[::-1])


@settings(deadline=None)
@given(st.lists(st.tuples(st.integers(0, 50), st.integers(0, 50)), min_size=3, max_size=3))
def test_three_corners_with_an_area_never_cross(outline):
    assert (area_cm2(outline) == 0) == crosses_itself(outline)


def test_a_thing_fits_its_room_at_the_smaller_scale():
    assert scale_to_fit((120, 300), (60, 60)) == 0.2
    assert scale_to_fit((300, 120), (60, 60)) == 0.2
