"""The whole browser dies with SIGKILL while it sends, or soon after it signed in."""

import os
import signal
from pathlib import Path

from playwright.sync_api import expect

from tests.cluster import on_both_databases
from tests.end_to_end.demo_garden import BEDS, N_DEMO_RATINGS
from tests.faults.counts import TIMES, tell
from tests.faults.queued import noise, queue

GRADES = [3, 7, 2, 9, 4, 6]
N_MORE = 20
MOMENTS_MS = (150, 300, 500, 750, 1100, 1600)


def browser_process(profile: Path) -> int:
    """Find the browser we started by its profile folder; nobody else has that path."""
    for entry in Path("/proc").iterdir():
        if not entry.name.isdigit():
            continue
        try:
            words = (entry / "cmdline").read_bytes().split(b"\0")
        except OSError:
            continue
        own = f"--user-data-dir={profile}".encode() in words
        if own and not any(word.startswith(b"--type=") for word in words):
            return int(entry.name)
    raise AssertionError("our browser is not running")


def die_while_sending(phone, profile: Path, after_ms: int) -> None:
    """Open the app, let it send for a moment, and kill the whole browser."""
    phone.page.goto(phone.address, wait_until="commit")
    phone.page.wait_for_timeout(after_ms)
    os.kill(browser_process(profile), signal.SIGKILL)


@on_both_databases("server")
def test_everything_arrives_exactly_once(server, open_browser, tmp_path, small_photo):
    open_browser().sign_in()
    # Ended properly once: a browser writes cookies to the disk up to half a minute late.
    phone = open_browser()
    server.kill()
    phone.start_check(BEDS["Wall bed"])
    for grade in GRADES:
        phone.rate(grade)
    phone.add_photo(small_photo)
    queue(phone.page, N_MORE, [noise(seed) for seed in range(N_MORE)])
    server.start()

    moments_ms = [at * (1 + extra) for extra in range(TIMES) for at in MOMENTS_MS]
    for after_ms in moments_ms:
        die_while_sending(phone, tmp_path / "profile", after_ms)
        phone = open_browser()
    phone.open("/")
    phone.wait_until_sent()

    tell("killed browser", {"kills": len(moments_ms), "mutations": len(GRADES) + 1 + 2 * N_MORE})
    assert server.ask("select count(*) from gardens_gallrating") == [
        (N_DEMO_RATINGS + len(GRADES) + N_MORE,)
    ]
    assert server.ask("select count(*) from gardens_photo where blob = 'stored'") == [(6 + N_MORE,)]
    numbers = [row[0] for row in server.ask("select seq from gardens_journalentry order by seq")]
    assert numbers == list(range(1, len(numbers) + 1))
    assert server.ask("select count(*) from gardens_conflict") == [(0,)]


def test_what_was_rated_right_after_the_first_sign_in_is_found_again(
    server, open_browser, tmp_path
):
    phone = open_browser()
    phone.sign_in()
    phone.start_check(BEDS["Wall bed"])
    server.kill()
    phone.rate(6)
    # What the browser has not yet written: its cookies, and the quick memory of whose phone it is.
    phone.context.clear_cookies()
    phone.page.evaluate("localStorage.clear()")
    os.kill(browser_process(tmp_path / "profile"), signal.SIGKILL)

    phone = open_browser()
    phone.open("/phone")
    expect(phone.page.get_by_role("main")).to_contain_text("demo")
    server.start()
    phone.sign_in()
    expect(phone.chip).to_contain_text("All sent")
    assert server.ask("select count(*) from gardens_gallrating") == [(N_DEMO_RATINGS + 1,)]
    newest = server.ask("select grade from gardens_gallrating order by rated_at desc limit 1")
    assert newest == [(6,)]
