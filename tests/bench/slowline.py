"""A phone far from the mast: 1,000 ratings over 200 ms and 1 Mbit/s, photos over 8 Mbit/s.

Taken from the product's phone in a real browser, through a small proxy of our own. A line has a
floor that no program gets under: its bytes at its width.
"""

from collections.abc import Iterator
from contextlib import contextmanager

from tests.bench.figures import Figure, beside, within
from tests.bench.scene import running_server
from tests.bench.slowphone import signed_in
from tests.end_to_end.phone import Phone
from tests.faults.queued import NO_ENGINE, begin_sending, noise, queue, waiting
from tests.faults.slow_line import Quality, SlowLine, slow_line

N_RATINGS, PACKED_S, MOST_REQUESTS = 1000, 2.5, 6
N_PHOTOS, OVER_FLOOR = 40, 1.1
FAR, WIDER = Quality(0.2, 1e6), Quality(0.1, 8e6)
NO_PACKING = "delete window.CompressionStream"

# From the first request to the last answer of a kind: by then all of that kind is safe.
TO_LAST = """([first, last]) => {
  const asked = performance.getEntriesByType("resource").filter((e) => e.name.includes("/api/"));
  const of = (path) => asked.filter((e) => e.name.includes(path));
  const end = Math.max(...of(last).map((e) => e.responseEnd));
  const began = Math.min(...of(first).map((e) => e.startTime));
  return [end - began, asked.filter((e) => e.startTime < end).length];
}"""


def measure() -> list[Figure]:
    """Send the ratings unpacked, then packed, then photos."""
    plain_ms, _, floor_s = records(NO_PACKING)
    packed_ms, n_requests, _ = records("")
    name = f"{N_RATINGS} ratings over 200 ms, 1 Mbit/s"
    return [
        beside(f"{name}, not packed", plain_ms / 1000, floor_s, "the line's own time"),
        within(f"{name}, packed", packed_ms / 1000, PACKED_S, "s"),
        within(f"{name}, requests", n_requests, MOST_REQUESTS, ""),
        photos(),
    ]


@contextmanager
def far_phone(script: str) -> Iterator[tuple[Phone, SlowLine]]:
    """Yield a phone with the whole garden, and the line it will send over, still good."""
    with (
        running_server() as server,
        slow_line(server.port) as line,
        signed_in(server, f"http://127.0.0.1:{line.port}") as phone,
    ):
        phone.page.add_init_script(f"{NO_ENGINE}; {script}")
        phone.open("/")
        phone.wait_until_sent()
        phone.page.wait_for_load_state("networkidle")  # the briefing shares the line otherwise
        yield phone, line


def send_all(
    phone: Phone, line: SlowLine, quality: Quality, first: str, last: str
) -> tuple[float, int]:
    """Send what waits; return the ms and the requests between two kinds of request."""
    phone.page.evaluate("performance.clearResourceTimings()")
    line.quality = quality
    begin_sending(phone.page)
    while waiting(phone.page):
        phone.page.wait_for_timeout(200)
    took, n = phone.page.evaluate(TO_LAST, [first, last])
    return took, n


def records(script: str) -> tuple[float, int, float]:
    """Send the ratings; return ms, requests, and the seconds the line alone needs for these."""
    with far_phone(script) as (phone, line):
        queue(phone.page, N_RATINGS)
        before = line.up.n_bytes
        took, n = send_all(phone, line, FAR, "/me", "/push")
        n_bytes = line.up.n_bytes - before
    return took, n, n_bytes * 8 / FAR.bits_per_s + n * FAR.round_trip_s


def photos() -> Figure:
    """Send photos of about 300 kB; held against the time their bytes alone need."""
    made = [noise(seed) for seed in range(N_PHOTOS)]
    with far_phone("") as (phone, line):
        queue(phone.page, 0, made)
        took, _ = send_all(phone, line, WIDER, "/blobs/", "/blobs/")
    floor_s = sum(map(len, made)) * 8 / WIDER.bits_per_s
    name = f"{N_PHOTOS} photos over 100 ms, 8 Mbit/s"
    return within(name, took / 1000, round(OVER_FLOOR * floor_s, 1), "s")
