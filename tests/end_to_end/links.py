"""Making a link to the garden, and coming in by one."""

import re

from playwright.sync_api import expect


def make_link(grower, role, label="For the test", phones=1):
    """Make a link on the grower's phone and return its address."""
    grower.open("/helpers")
    grower.button("Make a link").tap()
    grower.page.get_by_text(role, exact=True).tap()
    grower.page.get_by_label("What it is for").fill(label)
    grower.page.get_by_role("textbox", name="On how many phones").fill(str(phones))
    grower.button("Make the link").tap()
    address = grower.page.get_by_text(re.compile("/join#")).inner_text()
    grower.button("Done").tap()
    expect(grower.page.get_by_role("heading", name=label)).to_be_visible()
    return address


def come_in(phone, address, name):
    """Open a link on a phone that is nobody's and say a name."""
    phone.page.goto(address)
    phone.page.get_by_label("Your name").fill(name)
    with phone.answered_with(401):
        phone.button("Come in").tap()
        expect(phone.page.get_by_role("heading", name="Old Fig Garden")).to_be_visible(
            timeout=20_000
        )
    phone.wait_until_sent()
    phone.wait_until_offline_ready()


def end_link(grower, refuse_later=False):
    """End the one link there is."""
    grower.open("/helpers")
    grower.button("End this link").tap()
    if refuse_later:
        grower.page.get_by_text("Refuse it").tap()
    grower.button("End it").tap()
    expect(grower.page.get_by_role("dialog")).to_be_hidden()
    expect(grower.page.get_by_text("No link yet")).to_be_visible()
