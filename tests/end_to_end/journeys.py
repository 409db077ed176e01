"""Ways that several journeys share."""

from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS


def rename_bed(phone, name):
    """Give the Fig corner another name."""
    phone.open_bed_form(BEDS["Fig corner"]).fill(name)
    phone.button("Save bed").tap()
    expect(phone.page.get_by_role("heading", name=name).first).to_be_visible()


def two_phones_that_disagree(server, new_phone):
    """Return two phones that named one bed \"Fig end\" and, later to send, \"Top bed\"."""
    first, second = new_phone(), new_phone()
    first.sign_in()
    second.sign_in()
    server.stop()
    rename_bed(first, "Fig end")
    rename_bed(second, "Top bed")
    second.context.set_offline(True)
    server.start()
    first.open("/")
    first.wait_until_sent()
    second.context.set_offline(False)
    second.open("/")
    expect(second.chip).to_contain_text("1 needs you", timeout=20_000)
    return first, second


def phone_with_a_conflict(server, new_phone):
    """Return the phone that was later to send."""
    return two_phones_that_disagree(server, new_phone)[1]
