"""A line of 200 ms and 1 Mbit/s on which one piece in twenty breaks the connection."""

import time

from tests.end_to_end.demo_garden import N_DEMO_RATINGS
from tests.faults.counts import FIRST_SEED, TIMES, tell
from tests.faults.queued import NO_ENGINE, begin_sending, queue, waiting
from tests.faults.slow_line import Quality, slow_line

N_RATINGS = min(200 * TIMES, 1000)
BAD = Quality(round_trip_s=0.2, bits_per_s=1e6, cut_share=0.05)
PATIENCE_S = 60
IN_THE_PUSH = 5  # pieces: the question who I am, its answer, and some of the first push


def test_everything_arrives_once_over_a_slow_line_that_breaks(server, new_phone):
    with slow_line(server.port, FIRST_SEED) as line:
        phone = new_phone(address=f"http://127.0.0.1:{line.port}")
        phone.page.add_init_script(NO_ENGINE)
        phone.sign_in()
        phone.ear.is_line_bad = True
        ids = queue(phone.page, N_RATINGS)
        line.quality, line.sure_cut_in, began = BAD, IN_THE_PUSH, time.monotonic()
        begin_sending(phone.page)
        while waiting(phone.page):
            assert time.monotonic() < began + PATIENCE_S, f"{waiting(phone.page)} never left"
            phone.page.wait_for_timeout(100)
        seconds = round(time.monotonic() - began)
        line.quality = Quality()
        tell("slow line", {"mutations": N_RATINGS, "cuts": line.cuts, "seconds": seconds})
    assert line.cuts > 0
    journal = [mid for (mid,) in server.ask("select record from gardens_journalentry")]
    assert {each.replace("-", "") for each in ids} <= {*journal}
    numbers = [row[0] for row in server.ask("select seq from gardens_journalentry order by seq")]
    assert numbers == list(range(1, len(numbers) + 1))
    stored = server.ask("select count(*) from gardens_gallrating")
    assert stored == [(N_DEMO_RATINGS + N_RATINGS,)]
    assert server.ask("select count(*) from gardens_conflict") == [(0,)]
