"""The server is put back to yesterday's backup; the phones carry the rest back to it."""

import pytest
from playwright.sync_api import expect

from tests.cluster import on_both_databases
from tests.end_to_end.demo_garden import BEDS

FIG, WALL = BEDS["Fig corner"], BEDS["Wall bed"]
OLD_NOTE = "The stump of the old fig stands just above the top end."


def write_note(phone, bed, words):
    phone.open_bed_form(bed)
    note = phone.page.get_by_label("Note")
    if not note.is_visible():
        phone.page.get_by_text("Soil, depth and note").tap()
    note.fill(words)
    phone.button("Save bed").tap()
    expect(phone.page.get_by_role("heading", level=1)).not_to_have_text("Change the bed")


def count(server, what):
    return server.ask(f"select count(*) from {what}")[0][0]


@pytest.fixture
def yesterday(server, phone, tmp_path):
    """A backup, made while the server ran and the phone already had the garden."""
    server.back_up(tmp_path / "yesterday.zip")
    return tmp_path / "yesterday.zip"


def put_back(server, yesterday, phone):
    phone.ear.expected.add(409)  # it will be told that the history is another one
    server.stop()
    server.restore(yesterday)
    server.start()


def test_ratings_that_came_after_the_backup_are_sent_again(server, phone, yesterday):
    before = count(server, "gardens_gallrating")
    check = phone.start_check(WALL)
    for grade in (4, 5, 6):
        phone.rate(grade)
    phone.wait_until_sent()
    assert count(server, "gardens_gallrating") == before + 3

    put_back(server, yesterday, phone)
    assert count(server, "gardens_gallrating") == before
    phone.open(check)
    phone.wait_until_sent()

    assert count(server, "gardens_gallrating") == before + 3
    assert count(server, "gardens_conflict") == 0


@on_both_databases("server")
def test_a_photo_that_came_after_the_backup_is_sent_again(server, phone, yesterday, small_photo):
    check = phone.start_check(WALL)
    phone.rate(4)
    phone.add_photo(small_photo)
    phone.wait_until_sent()
    phone.open(check)
    phone.wait_until_sent()
    stored = "gardens_photo where blob = 'stored'"
    assert count(server, stored) == 5 + 1

    put_back(server, yesterday, phone)
    phone.open(check)
    phone.wait_until_sent()

    assert count(server, stored) == 5 + 1
    assert count(server, "gardens_blob") == 5 + 1


def test_what_waited_while_the_backup_was_put_back_is_sent_too(server, phone, yesterday):
    check = phone.start_check(WALL)
    phone.rate(4)
    phone.wait_until_sent()
    server.stop()
    phone.rate(7)
    put_back(server, yesterday, phone)
    phone.open("/")
    phone.wait_until_sent()

    # In the order of their ids, which phones make of the milliseconds: both may be of one second.
    made = "select grade from gardens_gallrating where root_check = ? order by id"
    assert server.ask(made, check.rsplit("/", 1)[-1].replace("-", "")) == [(4,), (7,)]


@on_both_databases("server")
def test_a_change_to_what_another_phone_wrote_is_asked_about_and_not_lost(server, phone, yesterday):
    write_note(phone, FIG, "Stump taken out.")
    phone.wait_until_sent()
    put_back(server, yesterday, phone)
    phone.open("/needs-you")

    main = phone.page.get_by_role("main")
    expect(main).to_contain_text("Stump taken out.", timeout=20_000)
    expect(main).to_contain_text(OLD_NOTE)
