import pytest

from gardens.domain.produce import produce_damage


def part(n_examined, n_damaged, signs=""):
    return {"n_examined": n_examined, "n_damaged": n_damaged, "signs": signs}


def test_nobody_looked():
    found = produce_damage([None, None])
    assert (found.n_plants, found.n_examined, found.share, found.interval) == (0, 0, None, None)


def test_one_carrot_a_plant_gives_an_interval():
    # Wilson for 2 of 8, statsmodels.
    found = produce_damage([part(1, int(n < 2)) for n in range(8)])
    assert found.interval == pytest.approx((0.071479213, 0.59072457), abs=1e-8)


def test_many_tubers_of_one_plant_are_no_separate_witnesses():
    found = produce_damage([part(12, 3), part(10, 0)])
    assert found.share == pytest.approx(3 / 22)
    assert found.interval is None


def test_each_sign_is_told_once():
    found = produce_damage([part(1, 1, "forked"), part(1, 1, " forked "), part(1, 1, "cracked")])
    assert found.signs == ("forked", "cracked")
