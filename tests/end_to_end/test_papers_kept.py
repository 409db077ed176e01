"""A PDF attached on a phone: kept without a signal, sent later, read offline on another phone."""

import pytest
from playwright.sync_api import expect

from tests.end_to_end.demo_garden import UNSENT_SAMPLE
from tests.end_to_end.lab_forms import flat_form

DARK = """() => {
  const canvas = document.querySelector('canvas');
  const pen = canvas.getContext('2d');
  const {data} = pen.getImageData(0, 0, canvas.width, canvas.height);
  let n = 0;
  for (let at = 0; at < data.length; at += 4) if (data[at + 3] && data[at] < 100) n += 1;
  return n;
}"""


@pytest.fixture
def receipt(tmp_path):
    return flat_form(tmp_path / "receipt.pdf")


def attach(phone, file):
    phone.open(f"/samples/{UNSENT_SAMPLE}")
    phone.page.locator("input[type=file][accept*=pdf]").set_input_files(file)


def shows_ink(phone):
    expect(phone.page.locator("canvas")).to_be_visible()
    for _ in range(50):
        if phone.page.evaluate(DARK) > 200:
            return True
        phone.page.wait_for_timeout(100)
    return False


def test_it_waits_on_the_phone_with_its_name_until_the_server_is_back(server, phone, receipt):
    server.kill()
    attach(phone, receipt)
    expect(phone.page.get_by_role("link", name="receipt.pdf")).to_be_visible()
    phone.open("/phone")
    expect(phone.page.get_by_role("main")).to_contain_text("1 PDF waits")
    expect(phone.page.get_by_role("main")).to_contain_text("Paper receipt.pdf")
    server.start()
    phone.open("/phone")
    expect(phone.page.get_by_role("main")).to_contain_text("everything has reached the server")


def test_another_phone_reads_it_when_the_server_is_gone(server, phone, open_browser, receipt):
    attach(phone, receipt)
    expect(phone.page.get_by_role("link", name="receipt.pdf")).to_be_visible()
    phone.wait_until_sent()
    other = open_browser()
    other.sign_in()
    other.wait_for_engine()
    server.kill()
    other = open_browser()
    other.open(f"/samples/{UNSENT_SAMPLE}")
    other.page.get_by_role("link", name="receipt.pdf").tap()
    assert shows_ink(other)
    assert other.complaints == []


def test_what_is_no_pdf_is_refused_in_words_and_nothing_is_kept(phone, tmp_path):
    picture = tmp_path / "scan.pdf"
    picture.write_bytes(b"GIF89a")
    attach(phone, picture)
    expect(phone.page.get_by_role("alert")).to_contain_text("This file is not a PDF")
    expect(phone.page.get_by_role("link", name="scan.pdf")).to_have_count(0)


def test_a_removed_one_comes_back(phone, receipt):
    attach(phone, receipt)
    with phone.answered_with(409):  # its bytes may be on their way while its record is removed
        phone.page.get_by_role("button", name="Remove receipt.pdf").tap()
        expect(phone.page.get_by_role("link", name="receipt.pdf")).to_have_count(0)
        phone.button("Undo").tap()
        expect(phone.page.get_by_role("link", name="receipt.pdf")).to_be_visible()
        phone.wait_until_sent()
