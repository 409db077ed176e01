import math

import pytest

from gardens.domain.student import t_quantile

# Two-sided 95 % points of any printed t table (from memory), three decimals.
PRINTED = [(3, 3.182), (4, 2.776), (5, 2.571), (7, 2.365), (10, 2.228), (20, 2.086), (30, 2.042)]


@pytest.mark.parametrize(("degrees", "t"), PRINTED)
def test_quantiles_agree_with_the_printed_table(degrees, t):
    assert t_quantile(0.975, degrees) == pytest.approx(t, abs=5e-4)


@pytest.mark.parametrize("share", [0.6, 0.9, 0.975, 0.995])
def test_one_and_two_degrees_agree_with_their_closed_forms(share):
    # df 1 is Cauchy's: tan(π(p − ½)); df 2: (2p − 1) √(2 / (4p(1 − p))).
    assert t_quantile(share, 1) == pytest.approx(math.tan(math.pi * (share - 0.5)), rel=1e-9)
    closed = (2 * share - 1) * math.sqrt(2 / (4 * share * (1 - share)))
    assert t_quantile(share, 2) == pytest.approx(closed, rel=1e-9)


def test_many_degrees_come_near_the_normal_quantile():
    assert t_quantile(0.975, 1e6) == pytest.approx(1.959964, abs=1e-5)
