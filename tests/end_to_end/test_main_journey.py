"""The main job, end to end: rate with no signal, see the map on a second phone, print the sheet."""

import re
import subprocess

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import expect

from tests.cluster import on_both_databases
from tests.end_to_end.demo_garden import BEDS, UNSENT_SAMPLE

GRADES = list(range(11))


@pytest.fixture
def rated_without_signal(server, phone, small_photo):
    """A check of eleven plants, graded 0 to 10 with two photos, made while no server runs."""
    server.kill()
    check = phone.start_check(BEDS["Wall bed"])
    for grade in GRADES:
        phone.rate(grade)
        if grade in (3, 8):
            phone.add_photo(small_photo)
    return check


def marks_on_the_map(phone):
    """What a screen reader hears of the plants on the bed's map."""
    phone.open(f"/beds/{BEDS['Wall bed']}")
    marks = phone.page.get_by_role("option", name=re.compile(r"^Plant \d+, grade"))
    expect(marks).to_have_count(len(GRADES))
    return sorted(marks.evaluate_all("all => all.map(one => one.getAttribute('aria-label'))"))


def test_ratings_without_a_signal_are_all_there_after_a_reload(phone, rated_without_signal):
    phone.page.reload()
    expect(phone.page.get_by_text(re.compile(r"^11 plants, mean 5"))).to_be_visible()
    expect(phone.chip).to_contain_text("No signal: keep going")


def test_an_address_never_visited_opens_without_a_signal(phone, rated_without_signal):
    phone.open(f"/samples/{UNSENT_SAMPLE}")
    expect(phone.page.get_by_role("heading", name="R4TH-B")).to_be_visible()


def test_a_page_killed_on_its_way_to_the_camera_comes_back_to_that_plant(
    phone, rated_without_signal
):
    phone.open(rated_without_signal)
    phone.button("Photo").tap()
    expect(phone.page.locator("input[type=file][capture]")).to_be_enabled()
    phone.kill_page()
    phone.open(rated_without_signal)

    dialog = phone.page.get_by_role("dialog")
    expect(dialog).to_contain_text("You were about to take a photo of plant 11")
    phone.button("Go on with the photo").tap()
    expect(phone.page.locator("input[type=file][capture]")).to_be_enabled()


@on_both_databases("server")
def test_a_second_phone_shows_the_same_map(server, phone, rated_without_signal, new_phone):
    server.start()
    phone.open("/")
    phone.wait_until_sent()
    second = new_phone()
    second.sign_in()

    assert marks_on_the_map(second) == marks_on_the_map(phone)
    stored = "select count(*) from gardens_photo where blob = 'stored'"
    assert server.ask(stored) == [(5 + 2,)]


@pytest.fixture
def sheet(phone, tmp_path):
    """The sheet for the parcel with the unsent sample, as the phone saves it."""
    phone.open(f"/print?sample={UNSENT_SAMPLE}")
    phone.button("Make the PDF").tap()
    with phone.page.expect_download() as download:
        phone.button("Save").tap()
    download.value.save_as(tmp_path / "sheet.pdf")
    return tmp_path / "sheet.pdf"


def test_the_sheet_for_the_lab_says_who_what_and_where(sheet):
    read = subprocess.run(["pdftotext", "-layout", sheet, "-"], capture_output=True, text=True)
    for words in ("R4TH-B", "Well elbow", "Vento Norte", "Sequeira Mbói", "Okra", "OF-018"):
        assert words in read.stdout, words


def test_a_phone_that_scans_the_sheet_signs_in_and_sees_the_sample(server, sheet, new_phone):
    subprocess.run(["pdftoppm", "-r", "150", "-png", sheet, sheet.with_suffix("")], check=True)
    pages = [Image.open(page) for page in sorted(sheet.parent.glob("sheet-*.png"))]
    codes = [code.text for page in pages for code in zxingcpp.read_barcodes(page)]
    [address] = [code for code in codes if "/samples/" in code]
    assert address == f"{server.address}/samples/{UNSENT_SAMPLE}"

    other = new_phone()
    other.page.goto(address)
    other.fill_in_sign_in()
    expect(other.page.get_by_role("heading", name="R4TH-B")).to_be_visible()
