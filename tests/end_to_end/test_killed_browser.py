"""The whole browser dies with SIGKILL while it sends; every record arrives exactly once."""

import os
import signal
from pathlib import Path

from tests.end_to_end.demo_garden import BEDS

GRADES = [3, 7, 2, 9, 4, 6]


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


def test_everything_arrives_exactly_once(server, open_browser, tmp_path, small_photo):
    open_browser().sign_in()
    # Ended properly once: a browser writes cookies to the disk up to half a minute late.
    phone = open_browser()
    server.kill()
    phone.start_check(BEDS["Wall bed"])
    for grade in GRADES:
        phone.rate(grade)
    phone.add_photo(small_photo)
    server.start()

    for after_ms in (250, 500, 900):
        die_while_sending(phone, tmp_path / "profile", after_ms)
        phone = open_browser()
    phone.open("/")
    phone.wait_until_sent()

    assert server.ask("select count(*) from gardens_gallrating") == [(71 + len(GRADES),)]
    assert server.ask("select count(*) from gardens_photo where blob = 'stored'") == [(5 + 1,)]
    numbers = [row[0] for row in server.ask("select seq from gardens_journalentry order by seq")]
    assert numbers == list(range(1, len(numbers) + 1))
    assert server.ask("select count(*) from gardens_conflict") == [(0,)]
