"""Two phones without a signal write different things in one place; a person decides."""

from playwright.sync_api import expect

from tests.cluster import on_both_databases
from tests.end_to_end.demo_garden import BEDS
from tests.end_to_end.journeys import rename_bed, two_phones_that_disagree

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


@on_both_databases("server")
def test_the_value_that_was_not_taken_is_still_in_the_journal(server, new_phone):
    first, _ = two_phones_that_disagree(server, new_phone)
    first.open("/needs-you")
    first.button("Keep Fig end").tap()
    expect(first.page.get_by_role("main")).to_contain_text("Kept: Fig end")
    first.wait_until_sent()

    bodies = server.ask("select cast(body as text) from gardens_journalentry")
    assert any("Top bed" in body for (body,) in bodies)
    assert server.ask(
        "select name from gardens_bed where id = ?", BEDS["Fig corner"].replace("-", "")
    ) == [("Fig end",)]


@on_both_databases("server")
def test_answers_of_one_form_that_only_one_phone_changed_are_no_disagreement(server, new_phone):
    first, second = new_phone(), new_phone()
    first.sign_in()
    second.sign_in()
    server.stop()
    rename_bed(first, "Fig end")
    second.open_bed_form(BEDS["Fig corner"])
    second.page.get_by_text("Soil, depth and note").tap()
    second.page.get_by_label("Note").fill("Dug over.")
    second.button("Save bed").tap()
    expect(second.page.get_by_role("heading", level=1)).to_have_text("Fig corner")
    second.context.set_offline(True)
    server.start()
    first.open("/")
    first.wait_until_sent()
    second.context.set_offline(False)
    second.open("/")
    second.wait_until_sent()

    stored = "select name, note from gardens_bed where id = ?"
    assert server.ask(stored, BEDS["Fig corner"].replace("-", "")) == [("Fig end", "Dug over.")]
    assert server.ask("select count(*) from gardens_conflict") == [(0,)]


def test_a_form_left_half_done_does_not_undo_what_another_phone_changed(server, new_phone):
    first, second = new_phone(), new_phone()
    first.sign_in()
    second.sign_in()
    second.open_bed_form(BEDS["Fig corner"])
    second.page.get_by_text("Soil, depth and note").tap()
    second.page.get_by_label("Note").fill("Dug over.")
    second.kill_page()
    rename_bed(first, "Fig end")
    first.wait_until_sent()

    second.open(BED)
    expect(second.page.get_by_role("heading", level=1)).to_have_text("Fig end", timeout=20_000)
    expect(second.open_bed_form(BEDS["Fig corner"])).to_have_value("Fig end")
    expect(second.page.get_by_text("Welcome back")).to_be_visible()
    second.button("Save bed").tap()
    second.wait_until_sent()

    stored = "select name, note from gardens_bed where id = ?"
    assert server.ask(stored, BEDS["Fig corner"].replace("-", "")) == [("Fig end", "Dug over.")]
