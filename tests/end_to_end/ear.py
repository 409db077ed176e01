"""What a phone's console may say, and when; every other line fails the test."""

from __future__ import annotations

import re

from playwright.sync_api import ConsoleMessage, Page

from tests.end_to_end.server import Server

STATUS = re.compile(r"responded with a status of (\d{3})")


class Ear:
    """Listens to one phone; the browser itself writes a line for each answer that is not 200."""

    def __init__(self, server: Server) -> None:
        self.server = server
        self.complaints: list[str] = []
        self.expected: set[int] = set()
        self.is_line_bad = False  # a test cuts connections, and the browser says so

    def listen(self, page: Page) -> None:
        """Hear everything a page complains of from now on."""
        page.on("console", self._hear)
        page.on("pageerror", lambda error: self.complaints.append(f"page error: {error}"))

    def _hear(self, message: ConsoleMessage) -> None:
        url = (message.location or {}).get("url", "")
        if message.type == "error" and not self.may_be(message.text, url):
            self.complaints.append(f"{message.text} ({url})")

    def may_be(self, text: str, url: str) -> bool:
        """Say whether the app asks for this line knowingly."""
        answered = STATUS.search(text)
        if answered is None:
            # A browser that was cut off by the test says so in words of its own.
            is_cut_off = "net::ERR_INTERNET_DISCONNECTED" in text
            return is_cut_off or ("net::ERR_" in text and self._was_cut())
        status = int(answered[1])
        # Before a photo is sent, the app asks whether it is there.
        return status in self.expected or (status == 404 and "/blobs/" in url)

    def _was_cut(self) -> bool:
        return self.is_line_bad or self.server.was_away()
