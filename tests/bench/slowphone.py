"""A phone with a slow processor in a real browser: four times slower than this computer.

The slow-down is the browser's own (Emulation.setCPUThrottlingRate) and holds for the page, not for
the service worker's thread.
"""

from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import Page, sync_playwright

from tests.end_to_end.conftest import FLAGS, chromium_path
from tests.end_to_end.phone import Phone
from tests.end_to_end.server import Server

SLOW_DOWN = 4


@contextmanager
def signed_in(server: Server, address: str = "") -> Iterator[Phone]:
    """Yield a phone that holds the whole garden and can do without the server."""
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=chromium_path(), args=FLAGS)
        phone = Phone.in_browser(browser, server, address)
        phone.sign_in()
        yield phone
        browser.close()


def slow_down(page: Page) -> None:
    """Make the page's processor slow from now on."""
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOW_DOWN})
