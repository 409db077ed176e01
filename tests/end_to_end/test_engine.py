"""The Python core on the phone: with the server gone and the browser started anew, it prints."""

from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS, UNSENT_SAMPLE

# No compiler and so no WebAssembly, as phones locked down by their owner have it.
NO_WASM = "--js-flags=--jitless"


def print_sheet(phone, to):
    """The sheet of the unsent sample, as the phone saves it; and what the phone says of it."""
    phone.open(f"/print?sample={UNSENT_SAMPLE}")
    phone.button("Make the PDF").tap()
    made = phone.page.get_by_text("The PDF is ready.")
    expect(made).to_be_visible(timeout=60_000)
    with phone.page.expect_download() as download:
        phone.button("Save").tap()
    download.value.save_as(to)
    return to.read_bytes(), made.inner_text()


def test_without_server_the_restarted_phone_prints_the_servers_page(
    server, open_browser, phone_with_engine, tmp_path
):
    from_server, said = print_sheet(phone_with_engine, tmp_path / "server.pdf")
    assert "This phone drew it" not in said
    server.kill()

    phone = open_browser()
    from_phone, said = print_sheet(phone, tmp_path / "phone.pdf")
    assert "This phone drew it" in said
    assert from_phone == from_server
    assert phone.complaints == []


def test_what_is_not_sent_yet_stands_on_the_page_drawn_here(
    server, open_browser, phone_with_engine, tmp_path
):
    server.kill()
    phone = open_browser()
    check = phone.start_check(BEDS["Wall bed"])
    phone.rate(4)
    phone.open(f"/print?check={check.removeprefix('/checks/')}")
    phone.button("Make the PDF").tap()
    expect(phone.page.get_by_text("with the entries not sent yet")).to_be_visible(timeout=60_000)


def test_a_phone_that_cannot_run_it_says_so_and_saves_on(server, open_browser):
    phone = open_browser(NO_WASM)
    phone.sign_in()
    server.kill()
    phone.open("/phone")
    expect(phone.page.get_by_text("This browser does not run it")).to_be_visible()

    phone.open(f"/print?sample={UNSENT_SAMPLE}")
    phone.button("Make the PDF").tap()
    expect(phone.page.get_by_role("alert")).to_contain_text("this phone cannot draw pages itself")

    phone.start_check(BEDS["Wall bed"])
    phone.rate(4)
    phone.page.reload()
    expect(phone.page.get_by_text("1 plant, mean 4")).to_be_visible()
    assert phone.complaints == []


def test_before_it_has_come_a_sentence_says_when_it_will(server, phone):
    phone.page.context.set_offline(True)
    server.kill()
    phone.open(f"/print?sample={UNSENT_SAMPLE}")
    phone.button("Make the PDF").tap()
    expect(phone.page.get_by_role("alert")).to_contain_text("It comes by itself")
