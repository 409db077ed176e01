import math

import numpy
import pytest
import statsmodels.api
from hypothesis import given
from hypothesis import strategies as st

from gardens.domain.efficacy import (
    Cells,
    Plots,
    abbott,
    efficacy_at_least,
    efficacy_of_composites,
    efficacy_of_plots,
    henderson_tilton,
)

COUNT = st.integers(1, 2000)
FUMIGANTS = [("See", 49.628219), ("Car", 37.327689), ("Cym", 16.664798), ("Chl", 0.64641954)]


@pytest.mark.parametrize(("fumigant", "percent"), FUMIGANTS)
def test_the_fumigants_of_1935_come_out_as_in_statsmodels(eelworms, fumigant, percent):
    found = efficacy_of_plots(Plots(*eelworms.of(fumigant), *eelworms.of("Con")))
    assert found.percent == pytest.approx(percent, abs=5e-7)
    assert found.percent == pytest.approx(by_poisson_model(eelworms, fumigant), abs=1e-6)


def by_poisson_model(eelworms, fumigant):
    """Interaction of treatment and date in a Poisson model with a log link."""
    counts, rows = [], []
    for treated, name in ((1, fumigant), (0, "Con")):
        for after, cell in enumerate(eelworms.of(name)):
            counts += cell
            rows += [[1, treated, after, treated * after]] * len(cell)
    family = statsmodels.api.families.Poisson()
    model = statsmodels.api.GLM(numpy.array(counts), numpy.array(rows), family=family)
    return 100 * (1 - math.exp(model.fit().params[3]))


def test_the_best_fumigant_has_the_interval_worked_out_before(eelworms):
    # 11 to 72 %, 36.2 degrees of freedom; our own earlier working.
    found = efficacy_of_plots(Plots(*eelworms.of("See"), *eelworms.of("Con")))
    assert (found.low, found.high, found.degrees) == pytest.approx((11, 72, 36.2), abs=0.5)


def test_the_error_of_eight_and_eight_plots_is_that_of_a_sandwich(eelworms):
    # statsmodels' sandwich error times the square root of 8/7.
    first_eight = [cell[:8] for cell in eelworms.of("Con")]
    found = efficacy_of_plots(Plots(*eelworms.of("See"), *first_eight))
    assert found.se == pytest.approx(0.27290065, abs=5e-9)


def test_every_untreated_plot_rose(eelworms):
    before, after = eelworms.of("Con")
    assert all(b < a for b, a in zip(before, after, strict=True)) and len(before) == 16


@given(before=COUNT, treated=COUNT, untreated=COUNT)
def test_with_equal_starts_it_is_abbotts(before, treated, untreated):
    same = henderson_tilton(Cells(before, treated, before, untreated))
    assert same == pytest.approx(abbott(treated, untreated), rel=1e-9, abs=1e-9)


@given(cells=st.tuples(COUNT, COUNT, COUNT, COUNT), k=st.floats(0.5, 50))
def test_an_interval_holds_its_value_and_more_cores_narrow_it(cells, k):
    found = efficacy_of_composites(Cells(*cells), k)
    finer = efficacy_of_composites(Cells(*cells), 2 * k)
    assert found.low < found.percent < found.high <= 100
    assert found.low < finer.low and finer.high < found.high


def test_none_recovered_is_not_a_hundred_percent():
    counted = Cells(180, 0, 150, 200)
    found = efficacy_of_composites(counted, 10)
    assert (found.code, found.percent, found.high) == ("none_recovered", None, None)
    plots = Plots((9, 12), (0, 0), (8, 8), (9, 12))
    assert efficacy_of_plots(plots).code == "none_recovered"


def test_a_bound_for_the_soil_says_at_least():
    found = efficacy_at_least(Cells(300, 0, 280, 350), 11.7)
    assert found.at_least == pytest.approx(100 * (1 - 11.7 * 280 / (300 * 350)))
    assert efficacy_at_least(Cells(5, 0, 50, 10), 12).at_least == 0


@pytest.mark.parametrize("cells", [(0, 1, 5, 5), (5, 1, 0, 5), (5, 1, 5, 0)])
def test_there_is_no_ratio_over_nothing(cells):
    assert henderson_tilton(Cells(*cells)) is None
    assert efficacy_of_composites(Cells(*cells), 5) is None
    assert efficacy_at_least(Cells(*cells), 5) is None
    assert efficacy_of_plots(Plots(*((one, one) for one in cells))) is None
    assert abbott(3, 0) is None


def test_one_plot_each_has_no_interval():
    assert efficacy_of_plots(Plots((9,), (3,), (8,), (9,))) is None


def test_plots_that_are_all_alike_leave_nothing_to_guess():
    found = efficacy_of_plots(Plots((9, 9), (3, 3), (8, 8), (8, 8)))
    assert found.low == found.percent == found.high
