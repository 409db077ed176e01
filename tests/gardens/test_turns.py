import threading

import pytest
from django.db import connection

from gardens.services.turns import in_turn


@pytest.mark.skipif(connection.vendor != "sqlite", reason="PostgreSQL keeps the order itself")
def test_who_came_first_goes_first():
    came, went = [], []

    def pass_through(number):
        came.append(number)
        with in_turn():
            went.append(number)

    threads = [threading.Thread(target=pass_through, args=(n,)) for n in range(20)]
    with in_turn():
        for n, thread in enumerate(threads):
            thread.start()
            while len(came) <= n:
                pass
            thread.join(0.02)  # it waits for us, so this only lets it queue up
    for thread in threads:
        thread.join()
    assert went == came


def test_a_turn_that_ends_in_an_error_lets_the_next_in():
    with pytest.raises(ValueError), in_turn():
        raise ValueError
    with in_turn():
        pass


@pytest.mark.skipif(connection.vendor != "sqlite", reason="PostgreSQL keeps the order itself")
def test_one_short_statement_waits_for_whoever_is_in_and_for_nobody_else():
    came, went = [], []

    def pass_through(name, briefly):
        came.append(name)
        with in_turn(briefly=briefly):
            went.append(name)

    names = ("long 1", "long 2", "short")
    threads = [threading.Thread(target=pass_through, args=(n, n == "short")) for n in names]
    with in_turn():
        for n, thread in enumerate(threads):
            thread.start()
            while len(came) <= n:
                pass
            thread.join(0.02)
        assert went == []
    for thread in threads:
        thread.join()
    assert went == ["short", "long 1", "long 2"]
