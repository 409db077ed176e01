"""A new version of the app arrives while the page is open: it asks, and nothing is lost."""

import re
import shutil

from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS

ASK_SERVER = "async () => { await (await navigator.serviceWorker.ready).update(); }"
VERSION = re.compile(r"(?<=app-)[0-9a-f]{16}")


def next_version(web_app, folder):
    """Copy the web app, change a word of its front page, and give its worker a new version."""
    shutil.copytree(web_app, folder)
    page = folder / "index.html"
    page.write_text(page.read_text().replace("<html ", '<html data-release="next" '))
    worker = folder / "sw.js"
    changed = VERSION.sub("0123456789abcdef", worker.read_text())
    assert changed != worker.read_text()
    worker.write_text(changed)
    return folder


def release(server, web):
    server.stop()
    server.web = web
    server.start()


def is_next(phone):
    return phone.page.locator("html[data-release=next]")


def test_it_asks_first_and_the_half_typed_form_is_still_there(server, phone, web_app, tmp_path):
    phone.open_bed_form(BEDS["Wall bed"]).fill("Wall bed, half typ")
    release(server, next_version(web_app, tmp_path / "next"))
    phone.page.evaluate(ASK_SERVER)

    expect(phone.page.get_by_text("New version ready.")).to_be_visible()
    expect(phone.page.get_by_label("Name of the bed")).to_have_value("Wall bed, half typ")
    expect(is_next(phone)).to_have_count(0)

    phone.button("Use it").tap()
    expect(is_next(phone)).to_have_count(1)
    expect(phone.page.get_by_label("Name of the bed")).to_have_value("Wall bed, half typ")


def test_a_reload_alone_does_not_bring_the_new_version(server, phone, web_app, tmp_path):
    release(server, next_version(web_app, tmp_path / "next"))
    phone.page.evaluate(ASK_SERVER)
    expect(phone.page.get_by_text("New version ready.")).to_be_visible()
    phone.page.reload()

    expect(phone.page.get_by_text("New version ready.")).to_be_visible()
    expect(is_next(phone)).to_have_count(0)


def test_the_new_version_opens_without_a_signal_too(server, phone, web_app, tmp_path):
    release(server, next_version(web_app, tmp_path / "next"))
    phone.page.evaluate(ASK_SERVER)
    phone.button("Use it").tap()
    expect(is_next(phone)).to_have_count(1)
    server.kill()
    phone.open("/samples")

    expect(is_next(phone)).to_have_count(1)
    expect(phone.page.get_by_role("heading", name="Samples")).to_be_visible()


def test_the_open_page_finds_its_own_parts_while_the_next_version_waits(
    server, phone, web_app, tmp_path
):
    release(server, next_version(web_app, tmp_path / "next"))
    phone.page.evaluate(ASK_SERVER)
    expect(phone.page.get_by_text("New version ready.")).to_be_visible()
    server.kill()
    phone.page.get_by_role("navigation").get_by_role("link", name="Samples").tap()

    expect(phone.page.get_by_role("heading", name="Samples")).to_be_visible()
    expect(is_next(phone)).to_have_count(0)
