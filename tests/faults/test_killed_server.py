from contextlib import contextmanager, nullcontext

import pytest

from api.bootstrap import postgres
from tests.bench.scene import running_server
from tests.faults.counts import FIRST_SEED, TIMES, Counts, tell
from tests.faults.killed_server import check_everything, kill_again_and_again

N_KILLS = 5 * TIMES


@contextmanager
def on_postgresql():
    programs = postgres.programs()
    if programs is None:
        pytest.skip("PostgreSQL is not installed here: the server was killed on SQLite only")
    with postgres.running(programs) as address:
        yield address


@pytest.mark.parametrize("database", ["SQLite", "PostgreSQL"])
def test_a_server_killed_under_load_loses_nothing_and_doubles_nothing(database):
    counts = Counts()
    with on_postgresql() if database == "PostgreSQL" else nullcontext("") as address:
        named = {"DATABASE_URL": address} if address else {}
        with running_server(**named) as server:
            pushers = kill_again_and_again(server, N_KILLS, FIRST_SEED, counts)
            check_everything(server, pushers)
    tell(f"kills on {database}", counts)
    assert counts["broken requests"] >= N_KILLS and counts["photos"] > 0
