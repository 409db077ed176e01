import pytest
from django.db import connection

from tests.conftest import make_account
from tests.faults.counts import TIMES, tell
from tests.faults.gap import N_WRITERS, naive_way, open_gardens, products_way

N_EACH = 60 * TIMES

pytestmark = [
    pytest.mark.django_db(transaction=True),
    pytest.mark.skipif(
        connection.vendor == "sqlite", reason="SQLite lets one writer in at a time: there is no gap"
    ),
]


@pytest.mark.parametrize("n_gardens", [1, 8])
def test_a_reader_misses_nothing_that_commits_late(n_gardens):
    grower = make_account("grower")
    gardens = open_gardens(grower, n_gardens)
    assert products_way(grower, gardens, N_EACH) == 0
    tell(f"gap, {n_gardens} gardens", {"mutations": N_WRITERS * N_EACH})


def test_a_reader_that_follows_a_sequence_would_miss_some():
    n = naive_way(N_EACH)
    tell("gap, naive", {"mutations": N_WRITERS * N_EACH, "missed by the naive reader": n})
    assert n > 0
