"""How much room a rating takes in the database, with its entry in the journal and all indexes."""

import json
from contextlib import ExitStack

from api.bootstrap import postgres
from tests.bench.figures import Figure
from tests.bench.scene import BATCH, Caller, batches, new_id, ratings, running_server
from tests.end_to_end.server import Server

N_RATINGS = 5000
ON_SQLITE = "select page_count * page_size from pragma_page_count, pragma_page_size"
ON_POSTGRESQL = "select pg_database_size(current_database())"


def measure() -> list[Figure]:
    """Fill a database of each kind and look how much it grew."""
    with running_server() as server:
        figures = [grown(server, "SQLite", ON_SQLITE)]
    programs = postgres.programs()
    if programs is None:
        print("  PostgreSQL is not installed here: SQLite only.")
        return figures
    with ExitStack() as opened:
        address = opened.enter_context(postgres.running(programs, options=postgres.SMALL))
        server = opened.enter_context(running_server(DATABASE_URL=address))
        return [*figures, grown(server, "PostgreSQL", ON_POSTGRESQL)]


def grown(server: Server, database: str, question: str) -> Figure:
    """Return how much room a rating took, beside what the phone sent for it."""
    caller, before = Caller(server), server.ask(question)[0][0]
    sent = ratings(N_RATINGS, new_id())
    for batch in batches(sent):
        caller.push(batch)
    n_bytes = (server.ask(question)[0][0] - before) / N_RATINGS
    each = len(json.dumps(sent)) / N_RATINGS
    name = f"room for a rating on {database}, pushed by {BATCH}"
    return Figure(name, f"{n_bytes:.0f} bytes", f"sent as {each:.0f}", n_bytes / each, None)
