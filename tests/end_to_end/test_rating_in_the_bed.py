"""Rating plant after plant: what was typed is kept and goes to the plant that was meant."""

import re

import pytest
from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS
from tests.end_to_end.test_every_screen import TWICE_AS_LARGE

CLOSE = [
    lambda phone, dialog: dialog.get_by_role("button", name="Close").tap(),
    lambda phone, dialog: phone.page.keyboard.press("Escape"),
    lambda phone, dialog: phone.page.go_back(),
]


@pytest.fixture
def two_rated(phone):
    """A check of the Wall bed with plant 1 at grade 3 and plant 2 at grade 6; plant 3 is next."""
    check = phone.start_check(BEDS["Wall bed"])
    phone.rate(3)
    phone.rate(6)
    return check


@pytest.mark.parametrize("close", CLOSE)
def test_every_way_of_closing_keeps_what_was_typed(phone, two_rated, close):
    phone.button("More on 2").tap()
    dialog = phone.page.get_by_role("dialog")
    dialog.get_by_label("Note").fill("smelled rotten")
    close(phone, dialog)
    expect(dialog).to_be_hidden()
    phone.wait_until_sent()

    phone.open(two_rated)
    phone.button("More on 2").tap()
    expect(dialog.get_by_label("Note")).to_have_value("smelled rotten")


def test_a_trace_is_only_asked_for_where_there_is_a_gall(phone):
    phone.start_check(BEDS["Wall bed"])
    phone.rate(0)
    phone.button("More on 1").tap()
    dialog = phone.page.get_by_role("dialog")
    expect(dialog.get_by_label("Note")).to_be_visible()
    expect(dialog.get_by_label("Only a trace on this plant")).to_have_count(0)


def test_photo_and_more_go_to_the_plant_a_person_went_to(phone, two_rated):
    expect(phone.button("Photo of 2")).to_be_enabled()
    phone.button("Plant before").tap()
    phone.button("Plant before").tap()
    expect(phone.button("Photo of 1")).to_be_enabled()
    expect(phone.button("More on 1")).to_be_enabled()
    for _ in range(3):
        phone.button("Plant after").tap()
    expect(phone.page.get_by_role("button", name="Photo", exact=True)).to_be_disabled()


def test_a_photo_is_removed_and_comes_back_with_undo(phone, two_rated, small_photo):
    phone.button("Photo of 2").tap()
    phone.page.locator("input[type=file][capture]").set_input_files(small_photo)
    dialog = phone.page.get_by_role("dialog")
    picture = dialog.get_by_role("img", name="Photo 1 of plant 2")
    expect(picture).to_be_visible()
    dialog.get_by_role("button", name="Remove photo 1 of plant 2").tap()
    expect(picture).to_have_count(0)
    dialog.get_by_role("button", name="Undo").tap()
    expect(picture).to_be_visible()


def test_an_unanswered_question_does_not_outlive_the_next_grade(phone):
    phone.start_check(BEDS["Wall bed"])
    phone.grade(3).tap()
    phone.grade(3).tap()
    expect(phone.button("Yes, plant 2 too")).to_be_visible()
    phone.grade(8).tap()
    expect(phone.page.get_by_text("Plant 2: grade 8")).to_be_visible()
    expect(phone.page.get_by_role("button", name=re.compile("^Yes"))).to_have_count(0)


def test_the_grade_keys_are_in_sight_when_text_is_twice_as_large(phone, two_rated):
    phone.page.evaluate(TWICE_AS_LARGE)
    phone.page.wait_for_timeout(300)
    boxes = [phone.grade(grade).bounding_box() for grade in range(11)]
    assert max(box["y"] + box["height"] for box in boxes) <= phone.page.viewport_size["height"]
    assert len({box["x"] for box in boxes}) == 4


def test_messages_of_every_length_leave_the_grade_keys_where_they_are(phone):
    phone.start_check(BEDS["Wall bed"])
    tops = [phone.grade(0).bounding_box()["y"]]
    phone.rate(9)
    tops.append(phone.grade(0).bounding_box()["y"])
    phone.grade(2).tap()
    phone.grade(2).tap()
    expect(phone.button("Yes, plant 3 too")).to_be_visible()
    tops.append(phone.grade(0).bounding_box()["y"])
    assert max(tops) - min(tops) < 1, tops


@pytest.mark.parametrize("bed", ["Wall bed", "Well elbow"])
def test_the_four_choices_are_whole_on_a_small_phone(phone, bed):
    phone.open(f"/beds/{BEDS[bed]}")
    choices = phone.page.get_by_role("group", name="Rate roots: which plants?").get_by_role(
        "button"
    )
    expect(choices).to_have_count(4)
    top_of_bar = phone.page.get_by_role("navigation").bounding_box()["y"]
    assert max(
        box["y"] + box["height"] for box in (one.bounding_box() for one in choices.all())
    ) <= (top_of_bar)


def test_with_large_text_every_tool_is_in_sight_and_the_choices_are_one_tap_away(
    server, open_browser
):
    # What a reader sets in the browser: 32 px where 16 px is usual.
    phone = open_browser("--blink-settings=defaultFontSize=32")
    phone.sign_in()
    phone.open(f"/beds/{BEDS['Well elbow']}")
    phone.button("Rate roots: which plants?").tap()
    every = phone.button(re.compile("^Every plant"))
    expect(every).to_be_in_viewport(ratio=1)
    expect(every).to_be_focused()
    every.tap()
    tools = phone.page.get_by_role("group", name="Also for this plant").get_by_role("button")
    expect(tools).to_have_count(5)
    for tool in tools.all():
        expect(tool).to_be_in_viewport(ratio=1)
