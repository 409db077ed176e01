"""One phone: a browser context of 360 x 640, and what a thumb does on it."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Locator, Page, expect

from gardens.services.demo import DEMO_USERNAME
from tests.end_to_end.demo_garden import DEMO_PASSWORD

EVERY_PLANT = re.compile("^Every plant")
SMALL_PHONE = {"width": 360, "height": 640}
# The browser itself writes a line for each answer that is not 200; these are the ones the app
# asks for knowingly: no server, not signed in yet, an older history, a photo not yet there.
EXPECTED = re.compile(
    r"net::ERR_(CONNECTION|INTERNET|NETWORK|FAILED|EMPTY)|status of (401|404|409)"
)
SERVER_ADDRESS = re.compile(r"/api/v1/|/sw\.js")


class Phone:
    """A signed-in or blank phone; `page` is what it shows."""

    def __init__(self, context: BrowserContext, address: str) -> None:
        self.context, self.address = context, address
        self.complaints: list[str] = []
        self.taps = 0
        self.page = self._new_page()

    @classmethod
    def in_browser(cls, browser: Browser, address: str, **options) -> Phone:
        """Return a new phone with nothing on it."""
        asked = {"viewport": SMALL_PHONE, "has_touch": True, "is_mobile": True, "locale": "en-GB"}
        return cls(browser.new_context(**asked | options), address)

    def _new_page(self) -> Page:
        page = self.context.new_page()
        page.set_default_timeout(10_000)
        page.on("console", self._hear)
        page.on("pageerror", lambda error: self.complaints.append(f"page error: {error}"))
        return page

    def _hear(self, message: ConsoleMessage) -> None:
        if message.type != "error":
            return
        url = (message.location or {}).get("url", "")
        if EXPECTED.search(message.text) and (SERVER_ADDRESS.search(url) or "ERR_" in message.text):
            return
        self.complaints.append(f"{message.text} ({url})")

    def put_away(self) -> None:
        """Close the phone for good."""
        self.context.close()

    def open(self, path: str = "/") -> None:
        """Type an address of the app and go there."""
        self.page.goto(self.address + path)

    def kill_page(self) -> None:
        """What a phone does that runs out of memory: the page is gone, nothing is told."""
        self.page.close(run_before_unload=False)
        self.page = self._new_page()

    def sign_in(self, username: str = DEMO_USERNAME, password: str = DEMO_PASSWORD) -> None:
        """Sign in, wait for the whole garden and for the app to be ready without a signal."""
        self.open("/sign-in")
        self.fill_in_sign_in(username, password)
        self.wait_until_sent()
        self.wait_until_offline_ready()

    def fill_in_sign_in(self, username: str = DEMO_USERNAME, password: str = DEMO_PASSWORD) -> None:
        """Type name and password on the screen that asks for them."""
        self.page.get_by_label("Name", exact=True).fill(username)
        self.page.get_by_label("Password", exact=True).fill(password)
        self.page.get_by_role("button", name="Sign in", exact=True).tap()

    def wait_until_offline_ready(self) -> None:
        """Wait for the service worker to hold the app."""
        self.page.evaluate("async () => { await navigator.serviceWorker.ready; }")

    @property
    def chip(self) -> Locator:
        """The one status chip."""
        return self.page.get_by_role("banner").locator("a.chip")

    def wait_until_sent(self) -> None:
        """Wait until the chip says that nothing is left to send."""
        # The chip follows the phone's database; give it the moment it needs to hear of a save.
        self.page.wait_for_timeout(300)
        expect(self.chip).to_contain_text("All sent", timeout=20_000)

    def button(self, name: str | re.Pattern[str]) -> Locator:
        """A button or a link that looks like one, by its words."""
        page = self.page
        return page.get_by_role("button", name=name).or_(page.get_by_role("link", name=name)).first

    def grade(self, grade: int) -> Locator:
        """A grade key."""
        return self.page.get_by_role("button", name=re.compile(rf"^Grade {grade},"))

    def tap(self, target: Locator) -> None:
        """Tap and count."""
        target.tap()
        self.taps += 1

    def open_bed_form(self, bed: str) -> Locator:
        """Open a bed's form, wait until it holds what is stored, and return its name's box."""
        self.open(f"/beds/{bed}/edit")
        name = self.page.get_by_label("Name of the bed")
        expect(name).not_to_have_value("")
        return name

    def start_check(self, bed: str) -> str:
        """Begin a check of every plant of a bed and return its address."""
        self.open(f"/beds/{bed}")
        self.button(EVERY_PLANT).tap()
        expect(self.grade(0)).to_be_visible()
        return self.page.url.removeprefix(self.address)

    def rate(self, grade: int) -> None:
        """Tap a grade and wait until the phone says that it is saved."""
        plant = self.page.get_by_role("group", name=re.compile("^Grade for "))
        name = (plant.get_attribute("aria-label") or "").removeprefix("Grade for ")
        self.tap(self.grade(grade))
        expect(self.page.get_by_text(f"{name}: grade {grade}".capitalize())).to_be_visible()

    def add_photo(self, file: Path) -> None:
        """Photograph the plant rated last and go on."""
        self.button("Photo").tap()
        self.page.locator("input[type=file][capture]").set_input_files(file)
        dialog = self.page.get_by_role("dialog")
        expect(dialog).to_contain_text("Photo saved on this phone")
        dialog.get_by_role("button", name="Close").tap()
        expect(dialog).to_be_hidden()
