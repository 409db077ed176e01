"""A phone with a slow processor in a real browser: four times slower than this computer.

The slow-down of a page is the browser's own (Emulation.setCPUThrottlingRate), which holds for no
worker; whole processes are made slow by stopping them three quarters of the time.
"""

import os
import signal
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from playwright.sync_api import Page, sync_playwright

from tests.end_to_end.conftest import FLAGS, chromium_path
from tests.end_to_end.phone import Phone
from tests.end_to_end.server import Server

SLOW_DOWN = 4
SLICE_S = 0.02


@contextmanager
def signed_in(server: Server) -> Iterator[Phone]:
    """Yield a phone that holds the whole garden and can do without the server."""
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=chromium_path(), args=FLAGS)
        phone = Phone.in_browser(browser, server.address)
        phone.sign_in()
        yield phone
        browser.close()


def slow_down(page: Page) -> None:
    """Make the page's processor slow from now on."""
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOW_DOWN})


@contextmanager
def slowed(page: Page) -> Iterator[None]:
    """Let the processes of the page and its workers run a quarter of the time (not on Windows)."""
    browser = page.context.browser
    assert browser
    found = browser.new_browser_cdp_session().send("SystemInfo.getProcessInfo")["processInfo"]
    pids = [one["id"] for one in found if one["type"] == "renderer"]
    over = threading.Event()
    thread = threading.Thread(target=_starve, args=(pids, over))
    thread.start()
    try:
        yield
    finally:
        over.set()
        thread.join()


def _starve(pids: list[int], over: threading.Event) -> None:
    while not over.is_set():
        _tell(pids, signal.SIGSTOP)
        time.sleep(SLICE_S * (SLOW_DOWN - 1))
        _tell(pids, signal.SIGCONT)
        time.sleep(SLICE_S)


def _tell(pids: list[int], what: int) -> None:
    for pid in pids:
        with suppress(ProcessLookupError):
            os.kill(pid, what)
