"""The calendar address on the phone screen: made, fetched by a stranger's program, ended."""

import urllib.error
import urllib.request

import pytest
import vobject
from playwright.sync_api import expect


def fetched(url):
    with urllib.request.urlopen(url) as answer:
        return answer.read().decode("utf-8")


def make_address(phone):
    phone.open("/phone")
    phone.button("Make a calendar address").tap()
    shown = phone.page.get_by_text(".ics")
    expect(shown).to_be_visible()
    return shown.inner_text()


def test_a_calendar_program_reads_the_address_until_it_is_ended(phone):
    url = make_address(phone)
    assert vobject.readOne(fetched(url)).name == "VCALENDAR"
    phone.button("End the address").tap()
    expect(phone.page.get_by_text("The address is ended")).to_be_visible()
    with pytest.raises(urllib.error.HTTPError, match="404"):
        fetched(url)


def test_it_is_shown_once_and_a_new_one_stops_the_one_before(phone):
    first = make_address(phone)
    phone.open("/phone")
    expect(phone.page.get_by_text("It was shown once.")).to_be_visible()
    expect(phone.page.get_by_text(".ics")).to_have_count(0)
    phone.button("Make a new one").tap()
    expect(phone.page.get_by_text(".ics")).to_be_visible()
    with pytest.raises(urllib.error.HTTPError, match="404"):
        fetched(first)


def test_the_file_holds_the_same_for_a_program_that_only_imports(phone, tmp_path):
    phone.open("/phone")
    with phone.page.expect_download() as download:
        phone.button("Save it as a file").tap()
    download.value.save_as(tmp_path / "due.ics")
    assert download.value.suggested_filename == "knotbed.ics"
    assert vobject.readOne((tmp_path / "due.ics").read_text("utf-8")).name == "VCALENDAR"


def test_without_a_server_it_says_that_nothing_is_changed(server, phone):
    phone.open("/phone")
    expect(phone.page.get_by_text("What is due, in your calendar")).to_be_visible()
    server.kill()
    phone.button("Make a calendar address").tap()
    expect(phone.page.get_by_role("alert")).to_contain_text("Nothing is changed")
