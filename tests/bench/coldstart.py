"""From opening the app to a garden one can tap, with the server's process gone."""

import time

from playwright.sync_api import expect

from tests.bench.figures import Figure, percentile, within
from tests.bench.scene import running_server
from tests.bench.slowphone import signed_in, slow_down
from tests.end_to_end.demo_garden import BEDS
from tests.end_to_end.phone import Phone

N_STARTS, BUDGET_S = 9, 1.5


def measure() -> list[Figure]:
    """Open the app in a new page again and again."""
    with running_server() as server, signed_in(server) as phone:
        server.kill()
        seconds = [start(phone) for _ in range(N_STARTS)]
    name = f"offline cold start, median of {N_STARTS}, 4x slow"
    return [within(name, percentile(seconds, 0.5), BUDGET_S, "s")]


def start(phone: Phone) -> float:
    """Return the seconds from the address to the list of beds."""
    phone.kill_page()
    slow_down(phone.page)
    started = time.perf_counter()
    phone.page.goto(f"{phone.address}/", wait_until="commit")
    expect(phone.page.get_by_role("link", name=next(iter(BEDS))).first).to_be_visible()
    return time.perf_counter() - started
