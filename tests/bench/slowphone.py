"""A phone with a slow processor in a real browser: four times slower than this computer.

The slow-down is the browser's own (Emulation.setCPUThrottlingRate) and holds for the page, not for
the service worker's thread.
"""

import json
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from playwright.sync_api import Page, sync_playwright

from tests.end_to_end.conftest import FLAGS, chromium_path
from tests.end_to_end.phone import Phone
from tests.end_to_end.server import Server

SLOW_DOWN = 4
SLOWLY_FROM_THE_START: list[tuple[str, dict[str, Any]]] = [
    ("Emulation.setCPUThrottlingRate", {"rate": SLOW_DOWN}),
    ("Runtime.runIfWaitingForDebugger", {}),
]


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


def slow_down_with_workers(page: Page) -> None:
    """Make the page's processor slow, and that of every worker it starts from now on."""
    slow_down(page)
    session = page.context.new_cdp_session(page)

    def slow_worker(event: dict[str, Any]) -> None:
        for number, (method, params) in enumerate(SLOWLY_FROM_THE_START, start=1):
            order = json.dumps({"id": number, "method": method, "params": params})
            told = {"sessionId": event["sessionId"], "message": order}
            session.send("Target.sendMessageToTarget", told)

    session.on("Target.attachedToTarget", slow_worker)
    watch = {"autoAttach": True, "waitForDebuggerOnStart": True, "flatten": False}
    session.send("Target.setAutoAttach", watch)
