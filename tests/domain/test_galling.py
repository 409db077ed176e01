import pytest

from gardens.domain.bounded import mean_interval
from gardens.domain.errors import DomainError
from gardens.domain.galling import (
    Reading,
    plant_key,
    read_reading,
    rounded_outward,
    summarize,
    sureness,
)


def rated(*grades, scale="pct10"):
    return [Reading("rated", grade, scale) for grade in grades]


MISSING = Reading("missing", None, "pct10")
DEAD = Reading("dead", None, "pct10")

# Ends computed outside this project: scipy's brentq on (p - mu)^2 = q^2 phi mu (1 - mu) / n,
# with scipy's t quantile; the last but one by statsmodels' proportion_confint (Wilson) at the
# alpha whose z is t(7).
CHECKED = [
    ([0, 1, 1, 2, 3, 5], None, 0.807342, 4.157667),
    ([0, 1, 1, 2, 3, 5], 12, 1.021016, 3.546869),
    ([4, 4, 4, 4], None, 2.971584, 5.124814),
    ([10] * 5, None, 6.837519, 10),
    ([0, 0, 0, 7, 7, 8, 6, 0], None, 1.296982, 6.605064),
    ([0, 0, 0, 7, 7, 8, 6, 0], 10, 2.216168, 5.045475),
    ([3, 4, 4, 5, 5, 5, 6, 6, 7, 4, 5, 6], None, 4.290460, 5.709540),
    ([0, 10, 10, 0, 10, 0, 0, 10], None, 1.792998, 8.207002),
    ([0, 0, 0, 0, 1, 0, 0, 2], None, 0.062492, 1.944486),
]


@pytest.mark.parametrize(("grades", "n_plants", "low", "high"), CHECKED)
def test_the_interval_agrees_with_scipy_and_statsmodels(grades, n_plants, low, high):
    assert mean_interval(grades, n_plants) == pytest.approx((low, high), abs=2e-6)


@pytest.mark.parametrize(
    ("n", "high"), [(3, 5.032), (5, 3.162), (8, 1.733), (12, 1.080), (20, 0.617)]
)
def test_plants_without_a_gall_still_leave_an_upper_end(n, high):
    # Same source: scipy, given to three decimals.
    assert mean_interval([0] * n) == pytest.approx((0, high), abs=5e-4)


def test_many_middling_plants_agree_with_the_plain_t_interval():
    # Textbook t interval: m ± t(0.975, n - 1) s / √n; t(0.975, 399) = 1.96593 (table value).
    grades = [4, 5, 5, 6] * 100
    half = 1.96593 * (200 / 399) ** 0.5 / 400**0.5
    assert mean_interval(grades) == pytest.approx((5 - half, 5 + half), abs=4e-3)


@pytest.mark.parametrize("grades", [[], [3], [3, 9]])
def test_two_plants_or_fewer_have_no_interval(grades):
    assert mean_interval(grades) is None


def test_knowing_how_many_plants_stood_narrows_the_interval():
    low, high = mean_interval([0, 1, 1, 2, 3, 5])
    low_of_12, high_of_12 = mean_interval([0, 1, 1, 2, 3, 5], 12)
    assert low < low_of_12 < 2 < high_of_12 < high


def test_a_bed_dug_whole_has_no_interval():
    assert mean_interval([1, 2, 3, 4], 4) is None
    assert sureness(rated(1, 2, 3, 4), "every_kth", 4).why == "whole_bed"
    assert sureness(rated(1, 2, 3, 4), "all", None, n_laid_out=4).why == "whole_bed"
    assert sureness(rated(1, 2, 3, 4), "random", None, n_laid_out=4).why == "whole_bed"


def test_a_bed_of_which_some_plants_were_missing_is_still_whole():
    assert sureness([*rated(1, 2, 3), MISSING], "all", 4).why == "whole_bed"


def test_a_bed_to_be_dug_whole_has_no_interval_before_that():
    assert sureness(rated(1, 2, 3), "all", 12).why == "unfinished"


def test_a_bed_begun_is_not_whole_because_nobody_counted_its_plants():
    assert sureness(rated(1, 2, 3), "all", None, n_laid_out=16).why == "unfinished"
    assert sureness(rated(1, 2, 3), "all", None, n_laid_out=0).why == "unfinished"
    assert sureness(rated(1, 2, 3), "all", None).why == "unfinished"


def test_plants_that_were_counted_outweigh_places_that_were_drawn():
    assert sureness(rated(1, 2, 3), "all", 3, n_laid_out=16).why == "whole_bed"
    assert sureness(rated(1, 2, 3), "all", 16, n_laid_out=3).why == "unfinished"


def test_places_that_were_drawn_narrow_no_interval():
    grades = rated(0, 1, 1, 2, 3, 5)
    drawn = sureness(grades, "random", None, n_laid_out=12)
    assert drawn == sureness(grades, "random", None)


def test_the_worst_looking_plants_say_nothing_sure_of_the_bed():
    found = sureness(rated(7, 8, 9), "worst_looking", 40)
    assert (found.why, found.low, found.high) == ("picked", None, None)


@pytest.mark.parametrize("how", ["random", "every_kth"])
def test_plants_chosen_blindly_give_an_interval(how):
    found = sureness(rated(0, 1, 1, 2, 3, 5), how, 12)
    assert found.why == "interval"
    assert (found.low, found.high) == pytest.approx((1.021016, 3.546869), abs=2e-6)


def test_two_plants_of_many_are_too_few():
    assert sureness(rated(2, 3), "random", 40).why == "too_few"


def test_a_check_without_a_rated_plant_has_no_mean():
    assert sureness([MISSING, DEAD], "random", 40).why == "none_rated"
    assert summarize([MISSING, DEAD]).mean is None


def test_missing_and_dead_plants_are_counted_apart_and_never_as_grade_0():
    found = summarize([*rated(4, 6), MISSING, DEAD, DEAD])
    assert (found.mean, found.n_rated, found.n_missing, found.n_dead) == (5, 2, 1, 2)
    assert found.counts[0] == 0


def test_a_check_is_summed_up_as_in_the_worked_example():
    # Grades 0×3, 1×4, 3×2, 6×1: mean gall index 1.6 and incidence 7 of 10; arithmetic after
    # Chiang, Liu and Bock's definition of the index, counts our own.
    found = summarize(rated(0, 0, 0, 1, 1, 1, 1, 3, 3, 6))
    assert found.mean == pytest.approx(1.6)
    assert (found.n_galled, found.n_rated) == (7, 10)
    assert (found.median, found.lowest, found.highest) == (1, 0, 6)
    assert found.counts == (3, 4, 0, 2, 0, 0, 1, 0, 0, 0, 0)


def test_two_scales_are_never_averaged():
    with pytest.raises(DomainError) as refused:
        summarize([*rated(5), *rated(5, scale="zeck10")])
    assert refused.value.code == "scales_differ"
    assert refused.value.params["gall_scales"] == ["pct10", "zeck10"]


def test_an_interval_is_rounded_outward_and_never_inward():
    assert rounded_outward(0.807, 4.157) == (0.8, 4.2)
    assert rounded_outward(0.899, 4.101) == (0.8, 4.2)
    assert rounded_outward(1.3, 4.7) == (1.3, 4.7)


def test_a_reading_is_read_from_the_wire():
    part = {"state": "rated", "grade": 3, "gall_scale": "bp10", "trace_only": False}
    assert read_reading(part) == Reading("rated", 3, "bp10")


def test_a_plant_two_people_read_counts_once_with_the_mean_of_both():
    twice = [
        Reading("rated", 3, "pct10", "plant 1"),
        Reading("rated", 4, "pct10", "plant 1"),
        Reading("rated", 0, "pct10", "plant 2"),
        Reading("missing", None, "pct10", "plant 3"),
        Reading("dead", None, "pct10", "plant 2"),
    ]
    found = summarize(twice)
    assert (found.n_rated, found.mean, found.n_galled) == (2, 1.75, 1)
    assert (found.n_missing, found.n_dead) == (1, 0)
    assert sum(found.counts) == 3
    assert plant_key({"plant": None, "x_cm": 3, "y_cm": 4}) == "spot 3 4"
