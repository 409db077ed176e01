"""A page and its workers on a slow processor: they stand still three quarters of the time.

The browser's own slow-down (Emulation.setCPUThrottlingRate) holds for no worker. Not on Windows.
"""

import os
import signal
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from playwright.sync_api import Page

SLOW_DOWN = 4
SLICE_S = 0.02


@contextmanager
def starved(page: Page) -> Iterator[None]:
    """Let the processes that draw and work for the page run a quarter of the time."""
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
