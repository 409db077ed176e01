"""Browser tests: a real server process, a real browser, phones of 360 x 640.

The cast: the grower (account `demo`, or one made in the test), a second phone of the same
grower, and nobody else.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack, suppress
from pathlib import Path

import pytest

# An open browser leaves an event loop behind, and Django would refuse every query beside it.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"

from playwright.sync_api import Browser, BrowserType, Error, sync_playwright  # noqa: E402

from api.bootstrap import webapp  # noqa: E402
from api.bootstrap.places import WEB_BUILD  # noqa: E402
from gardens.demo.pictures import draw_root_photo  # noqa: E402
from tests.cluster import database  # noqa: E402
from tests.end_to_end.demo_garden import DEMO_PASSWORD  # noqa: E402
from tests.end_to_end.phone import SMALL_PHONE, Phone  # noqa: E402
from tests.end_to_end.server import Server, manage  # noqa: E402

CHROMIUM_NAMES = ("chromium", "chromium-browser", "google-chrome")
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def chromium_path() -> str:
    """Return the browser to drive: $CHROMIUM, or the first known name on PATH."""
    named = os.environ.get("CHROMIUM")
    found = named or next(filter(None, map(shutil.which, CHROMIUM_NAMES)), None)
    assert found, "No Chromium found. Set CHROMIUM to its path, or install it."
    return found


@pytest.fixture(scope="session")
def web_app(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the built web app, so that a rebuild elsewhere changes nothing here."""
    webapp.build()
    copy = tmp_path_factory.mktemp("web") / "webbuild"
    shutil.copytree(WEB_BUILD, copy)
    return copy


def fill_with_demo(data: Path, web: Path, **more: str) -> Path:
    """Make a data folder with the demo garden in it."""
    data.mkdir()
    manage(data, web, "migrate", "--verbosity", "0", **more)
    manage(data, web, "load_demo", "--password", DEMO_PASSWORD, **more)
    return data


@pytest.fixture(scope="session")
def demo_data(tmp_path_factory: pytest.TempPathFactory, web_app: Path) -> Path:
    """A data folder with the demo garden in it; tests copy it and never open it."""
    return fill_with_demo(tmp_path_factory.mktemp("demo") / "data", web_app)


@pytest.fixture(scope="session")
def demo_on_postgresql(
    tmp_path_factory: pytest.TempPathFactory, web_app: Path, cluster: str
) -> Iterator[tuple[Path, str]]:
    """The same with its records on PostgreSQL; the database is copied too, never opened."""
    data = tmp_path_factory.mktemp("demo-on-postgresql") / "data"
    with database(cluster) as address:
        yield fill_with_demo(data, web_app, DATABASE_URL=address), address


@pytest.fixture
def server(
    request: pytest.FixtureRequest, tmp_path: Path, demo_data: Path, web_app: Path
) -> Iterator[Server]:
    """A running server on a fresh copy of the demo garden; on SQLite, if not asked for both."""
    with ExitStack() as until_the_end:
        more = {}
        if getattr(request, "param", "SQLite") == "PostgreSQL":
            demo_data, address = request.getfixturevalue("demo_on_postgresql")
            copy = database(request.getfixturevalue("cluster"), like=address)
            more["DATABASE_URL"] = until_the_end.enter_context(copy)
        data = tmp_path / "data"
        shutil.copytree(demo_data, data)
        running = Server(data, web_app, **more)
        until_the_end.callback(running.put_away)
        running.start()
        yield running


@pytest.fixture(scope="session")
def chromium() -> Iterator[BrowserType]:
    """Playwright's Chromium driver, not started."""
    with sync_playwright() as driver:
        yield driver.chromium


@pytest.fixture(scope="session")
def browser(chromium: BrowserType) -> Iterator[Browser]:
    """One browser for the whole run; every phone is a context of its own in it."""
    opened = chromium.launch(executable_path=chromium_path(), args=FLAGS)
    yield opened
    opened.close()


@pytest.fixture
def new_phone(browser: Browser, server: Server) -> Iterator[Callable[..., Phone]]:
    """Hand out phones; at the end none of them may have complained in its console."""
    handed_out: list[Phone] = []

    def take(**options) -> Phone:
        phone = Phone.in_browser(browser, server, **options)
        handed_out.append(phone)
        return phone

    yield take
    complaints = [line for phone in handed_out for line in phone.complaints]
    for phone in handed_out:
        phone.put_away()
    assert complaints == []


@pytest.fixture
def phone(new_phone: Callable[..., Phone]) -> Phone:
    """A phone signed in to the demo garden, everything received, ready for no signal."""
    taken = new_phone()
    taken.sign_in()
    return taken


@pytest.fixture(scope="session")
def small_photo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A picture file that is quick to read."""
    path = tmp_path_factory.mktemp("photos") / "root.jpg"
    path.write_bytes(draw_root_photo(seed=3, galled_pct=40))
    return path


@pytest.fixture
def open_browser(
    chromium: BrowserType, server: Server, tmp_path: Path
) -> Iterator[Callable[..., Phone]]:
    """Start the browser on one profile again and again, like one phone switched off and on."""
    opened = []

    def start(*more_flags: str) -> Phone:
        for earlier in opened:
            with suppress(Error):  # it may have been killed
                earlier.close()
        context = chromium.launch_persistent_context(
            tmp_path / "profile",
            executable_path=chromium_path(),
            args=[*FLAGS, *more_flags],
            viewport=SMALL_PHONE,
            has_touch=True,
            is_mobile=True,
        )
        opened.append(context)
        return Phone(context, server)

    yield start
    opened[-1].close()


@pytest.fixture
def phone_with_engine(open_browser: Callable[..., Phone]) -> Phone:
    """A phone that fetched the engine by itself; the browser is then closed."""
    phone = open_browser()
    phone.sign_in()
    phone.wait_for_engine()
    return phone
