"""Eight phones push into four gardens at once: PostgreSQL beside SQLite, and what a push takes."""

import threading
import time

from api.bootstrap import postgres
from tests.bench import computing
from tests.bench.crowd import ratings_of
from tests.bench.figures import Figure, beside
from tests.bench.scene import Caller, new_id, put, running_server

N_PHONES, N_GARDENS, N_PUSHES = 8, 4, 10
ALL = N_PHONES * N_PUSHES


def measure() -> list[Figure]:
    """Let the same phones push to a server on each database; both wait for the disk."""
    on_sqlite_s, computed_s = pushed()
    figures = []
    if computing.is_told():
        each, wait = computed_s / ALL * 1000, on_sqlite_s / ALL * 1000
        name = "computing for a push of 50, SQLite"
        against = f"every {wait:.0f} ms one was done"
        figures.append(Figure(name, f"{each:.0f} ms", against, each / wait, None))
    programs = postgres.programs()
    if programs is None:
        print("  PostgreSQL is not installed here: SQLite only.")
        return figures
    with postgres.running(programs, options=postgres.SMALL) as address:
        on_postgresql_s, _ = pushed(DATABASE_URL=address)
    name = f"{ALL} pushes of 50, {N_PHONES} phones, {N_GARDENS} gardens, PostgreSQL"
    return [*figures, beside(name, on_postgresql_s, on_sqlite_s, "SQLite")]


def pushed(**more: str) -> tuple[float, float]:
    """Return the seconds all pushes took together, and what the server computed meanwhile."""
    with running_server(**more) as server:
        gardens = [new_id() for _ in range(N_GARDENS)]
        phones = [Caller(server) for _ in range(N_PHONES)]
        for garden in gardens:
            phones[0].push([put("garden", garden, name="Behind the mill")], garden=garden)
        turns = [
            threading.Thread(target=push_all, args=(phone, gardens[n % N_GARDENS]))
            for n, phone in enumerate(phones)
        ]
        assert server.process
        before = computing.seconds_of_group(server.process.pid) if computing.is_told() else 0.0
        started = time.perf_counter()
        for turn in turns:
            turn.start()
        for turn in turns:
            turn.join()
        seconds = time.perf_counter() - started
        after = computing.seconds_of_group(server.process.pid) if computing.is_told() else 0.0
        [(n_stored,)] = server.ask("select count(*) from gardens_gallrating")
    if n_stored < ALL * 50:
        raise RuntimeError(f"only {n_stored} ratings were stored")
    return seconds, after - before


def push_all(phone: Caller, garden: str) -> None:
    """Push one batch after the other into a garden."""
    for _ in range(N_PUSHES):
        phone.push(ratings_of(new_id()), garden=garden)
