"""The browser throws away everything the app kept, as browsers do when room is short."""

import pytest
from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS
from tests.end_to_end.journeys import rename_bed


def empty(phone):
    """Clear all that a browser stores for the app: databases, caches, worker, cookies."""
    session = phone.context.new_cdp_session(phone.page)
    asked = {"origin": phone.address, "storageTypes": "all"}
    session.send("Storage.clearDataForOrigin", asked)
    phone.context.clear_cookies()
    phone.page.goto("about:blank")


def test_with_nothing_to_send_a_sign_in_brings_everything_back(server, phone):
    rename_bed(phone, "Fig end")
    phone.wait_until_sent()
    before = server.ask("select count(*) from gardens_journalentry")
    empty(phone)
    phone.sign_in()
    phone.open("/")
    expect(phone.page.get_by_role("main")).to_contain_text("Fig end")
    assert server.ask("select count(*) from gardens_journalentry") == before


@pytest.mark.parametrize("step", ["before the sign-in", "after it"])
def test_what_was_never_sent_is_not_said_to_be_there(server, phone, step):
    server.stop()
    rename_bed(phone, "Never sent")
    empty(phone)
    server.start()
    if step == "after it":
        phone.sign_in()
    with phone.answered_with(401):
        phone.open(f"/beds/{BEDS['Fig corner']}" if step == "after it" else "/phone")
        phone.page.wait_for_timeout(500)
    expect(phone.page.locator("body")).not_to_contain_text("Never sent")
    if step == "before the sign-in":
        expect(phone.page.locator("body")).not_to_contain_text("everything has reached the server")
