"""Two phones without a signal write different things in one place; a person decides."""

from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS
from tests.end_to_end.journeys import two_phones_that_disagree

BED = f"/beds/{BEDS['Fig corner']}"


def test_both_values_are_shown_on_both_phones(server, new_phone):
    for phone in two_phones_that_disagree(server, new_phone):
        phone.open("/needs-you")
        main = phone.page.get_by_role("main")
        expect(main).to_contain_text("Fig end")
        expect(main).to_contain_text("Top bed")
        expect(phone.chip).to_contain_text("1 needs you")


def test_settling_it_on_one_phone_settles_it_on_the_other(server, new_phone):
    first, second = two_phones_that_disagree(server, new_phone)
    second.open("/needs-you")
    second.button("Take Top bed").tap()
    expect(second.page.get_by_role("main")).to_contain_text("Taken: Top bed")
    second.wait_until_sent()

    first.open("/needs-you")
    first.wait_until_sent()
    expect(first.page.get_by_role("main")).to_contain_text("Nothing needs you")
    for phone in (first, second):
        phone.open(BED)
        expect(phone.page.get_by_role("heading", name="Top bed").first).to_be_visible()


def test_the_value_that_was_not_taken_is_still_in_the_journal(server, new_phone):
    first, _ = two_phones_that_disagree(server, new_phone)
    first.open("/needs-you")
    first.button("Keep Fig end").tap()
    expect(first.page.get_by_role("main")).to_contain_text("Kept: Fig end")
    first.wait_until_sent()

    bodies = [row[0] for row in server.ask("select body from gardens_journalentry")]
    assert any("Top bed" in body for body in bodies)
    assert server.ask(
        "select name from gardens_bed where id = ?", BEDS["Fig corner"].replace("-", "")
    ) == [("Fig end",)]
