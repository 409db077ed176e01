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
