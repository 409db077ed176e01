"""One phone: a browser context of 360 x 640, and what a thumb does on it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from gardens.services.demo import DEMO_USERNAME
from tests.end_to_end.demo_garden import DEMO_PASSWORD
from tests.end_to_end.ear import Ear
from tests.end_to_end.server import Server

EVERY_PLANT = re.compile("^Every plant")
SMALL_PHONE = {"width": 360, "height": 640}


class Phone:
    """A signed-in or blank phone; `page` is what it shows."""

    def __init__(self, context: BrowserContext, server: Server, address: str = "") -> None:
        self.context, self.address = context, address or server.address
        self.ear = Ear(server)
        self.taps = 0
        self.page = self._new_page()

    @classmethod
    def in_browser(cls, browser: Browser, server: Server, address: str = "", **options) -> Phone:
        """Return a new phone with nothing on it; `address`: of a line in front of the server."""
        asked = {"viewport": SMALL_PHONE, "has_touch": True, "is_mobile": True, "locale": "en-GB"}
        return cls(browser.new_context(**asked | options), server, address)

    def _new_page(self) -> Page:
        page = self.context.new_page()
        page.set_default_timeout(10_000)
        self.ear.listen(page)
        return page

    @property
    def complaints(self) -> list[str]:
        """What its console said that nobody asked for."""
        return self.ear.complaints

    @contextmanager
    def answered_with(self, *statuses: int) -> Iterator[None]:
        """Say that the server is right to answer so, until the block ends."""
        self.ear.expected |= {*statuses}
        yield
        self.page.wait_for_timeout(50)  # what was said meanwhile may still be on its way
        self.ear.expected -= {*statuses}

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
        with self.answered_with(401):
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

    def wait_for_engine(self) -> None:
        """Wait until the phone holds what draws pages."""
        self.open("/phone")
        here = self.page.get_by_text("It is on this phone.")
        expect(here).to_be_visible(timeout=60_000)

    def make_pdf(self, what: str, to: Path) -> bytes:
        """Have one of a parcel's papers made, and keep it as the phone saves it."""
        paper = self.page.locator("section section", has=self.page.get_by_text(what, exact=True))
        paper.get_by_role("button", name="Make the PDF").tap()
        expect(paper.get_by_text("The PDF is ready.")).to_be_visible(timeout=90_000)
        with self.page.expect_download() as download:
            paper.get_by_role("link", name="Save").tap()
        download.value.save_as(to)
        return to.read_bytes()

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
