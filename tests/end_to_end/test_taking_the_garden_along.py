"""A garden moves from one server to another as a file, and a helper's file is brought in."""

import json

import pytest
from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS
from tests.end_to_end.phone import Phone
from tests.end_to_end.screen_checks import axe_violations, small_targets
from tests.end_to_end.server import Server, manage

NAME, PASSWORD = "benilde", "a-row-of-nine-leeks"
WALL = BEDS["Wall bed"]
TWO_MINUTES = 120_000


@pytest.fixture
def new_server(tmp_path, web_app):
    """Another server, with an account and no garden."""
    data = tmp_path / "other"
    data.mkdir()
    manage(data, web_app, "migrate", "--verbosity", "0")
    running = Server(data, web_app)
    running.make_account(NAME, PASSWORD)
    running.start()
    yield running
    running.put_away()


@pytest.fixture
def new_house(browser, new_server):
    """A phone that is signed in there."""
    phone = Phone.in_browser(browser, new_server)
    phone.sign_in(NAME, PASSWORD)
    yield phone
    assert phone.complaints == []
    phone.put_away()


def take(phone, file):
    """Save the garden to a file, as a person would."""
    phone.open("/phone")
    phone.button("Take the garden with you").tap()
    with phone.page.expect_download() as download:
        phone.button("Save “").tap()
    expect(phone.page.get_by_role("main")).to_contain_text("Look in your downloads")
    download.value.save_as(file)
    return file


def choose(phone, words, file):
    phone.page.get_by_label(words).set_input_files(file)


def barriers(phone):
    found = []
    for scheme in ("light", "dark"):
        phone.page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
        found += axe_violations(phone.page)
    return found + small_targets(phone.page)


def test_a_garden_moves_to_another_server(phone, new_house, new_server, tmp_path):
    file = take(phone, tmp_path / "garden.zip")
    main = new_house.page.get_by_role("main")

    new_house.open("/garden/new")
    new_house.button("Bring a garden from a file instead").tap()
    choose(new_house, "Choose a garden's file", file)
    expect(main).to_contain_text("6 beds, 16 plantings, 13 root checks, 76 plants rated")
    assert new_server.ask("select count(*) from gardens_bed") == [(0,)]
    assert barriers(new_house) == []

    new_house.button("Bring it in").tap()
    new_house.button("Open this garden").tap(timeout=TWO_MINUTES)
    expect(main).to_contain_text("Wall bed")
    new_house.wait_until_sent()
    again = take(new_house, tmp_path / "again.zip")
    assert again.read_bytes() == file.read_bytes()

    choose(new_house, "Choose a garden's file", file)
    expect(main).to_contain_text("There is nothing to bring")


def test_a_file_of_somebody_elses_garden_is_not_taken(server, phone, new_phone, tmp_path):
    file = take(phone, tmp_path / "garden.zip")
    server.make_account(NAME, PASSWORD)
    other = new_phone()
    other.sign_in(NAME, PASSWORD)
    other.open("/leaving")
    with other.answered_with(404):
        choose(other, "Choose a garden's file", file)
        expect(other.page.get_by_role("alert")).to_contain_text("belongs to another account")
    assert barriers(other) == []


def test_what_is_no_gardens_file_is_told_of(phone, tmp_path):
    (tmp_path / "beans.zip").write_bytes(b"beans")
    phone.open("/leaving")
    with phone.answered_with(422):
        choose(phone, "Choose a garden's file", tmp_path / "beans.zip")
        expect(phone.page.get_by_role("alert")).to_contain_text("not a garden's file")
    assert barriers(phone) == []


def test_without_the_server_nothing_happens_and_it_says_so(server, phone, small_photo):
    phone.open("/leaving")
    server.kill()
    phone.button("Save “").tap()
    expect(phone.page.get_by_role("alert")).to_contain_text("could not be reached")
    choose(phone, "Choose a helper's file", small_photo)
    expect(phone.page.get_by_role("alert")).to_have_count(2)
    assert barriers(phone) == []


def test_a_helpers_file_is_brought_in_once(server, phone, new_phone, tmp_path):
    helper = new_phone()
    helper.sign_in()
    server.kill()
    helper.open_bed_form(WALL).fill("Bed by the white wall")
    helper.button("Save bed").tap()
    expect(helper.page.get_by_role("heading", name="Bed by the white wall").first).to_be_visible()
    helper.open("/phone")
    with helper.page.expect_download() as download:
        helper.button("Save all to a file").tap()
    file = tmp_path / "helper.json"
    download.value.save_as(file)
    assert json.loads(file.read_text())["changes"]
    helper.page.close()  # its phone is not seen again
    server.start()

    phone.open("/leaving")
    main = phone.page.get_by_role("main")
    choose(phone, "Choose a helper's file", file)
    expect(main).to_contain_text("1 entry of demo was brought in.")
    assert barriers(phone) == []
    phone.open("/")
    expect(main).to_contain_text("Bed by the white wall")

    phone.open("/leaving")
    choose(phone, "Choose a helper's file", file)
    expect(main).to_contain_text("1 entry was here already.")
