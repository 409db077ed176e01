import pytest

from tests.bench.scene import running_server
from tests.cluster import database, on_both_databases
from tests.faults.counts import FIRST_SEED, TIMES, Counts, tell
from tests.faults.killed_server import check_everything, kill_again_and_again

N_KILLS = 5 * TIMES


@pytest.fixture
def server(request):
    if request.param == "SQLite":
        with running_server() as running:
            yield running
        return
    empty = database(request.getfixturevalue("cluster"))
    with empty as address, running_server(DATABASE_URL=address) as running:
        yield running


@on_both_databases("server")
def test_a_server_killed_under_load_loses_nothing_and_doubles_nothing(server, request):
    counts = Counts()
    pushers = kill_again_and_again(server, N_KILLS, FIRST_SEED, counts)
    check_everything(server, pushers)
    tell(f"kills on {request.node.callspec.id}", counts)
    assert counts["broken requests"] >= N_KILLS and counts["photos"] > 0
