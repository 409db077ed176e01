"""A new sample: nothing is answered for the grower, and its hours are those of the garden."""

from datetime import datetime
from zoneinfo import ZoneInfo

from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS, CONTENT

ZONE = next(item["set"] for item in CONTENT["mutations"] if item["kind"] == "garden")["time_zone"]


def begin(phone, bed):
    phone.open(f"/samples/new?bed={BEDS[bed]}")
    phone.page.get_by_text("Plants look poor: is it root-knot?").tap()
    phone.button("Start the sample").tap()
    expect(phone.page.get_by_role("heading", name="Write this on the bag")).to_be_visible()


def unfold(phone, part):
    phone.page.get_by_text(f"{part} ·").tap()


def chosen(phone, question):
    return phone.page.get_by_role("group", name=question).get_by_role("radio", checked=True)


def test_the_bed_is_not_asked_again_and_its_crop_is_there_already(phone):
    begin(phone, "Wall bed")
    unfold(phone, "The plants")
    growing = chosen(phone, "What grows or grew there?").locator("xpath=..")
    expect(growing).not_to_contain_text("Nothing")


def test_roots_in_the_bag_are_not_said_until_somebody_says_so(phone):
    begin(phone, "Wall bed")
    unfold(phone, "The soil")
    roots = chosen(phone, "Fine roots in the same bag?").locator("xpath=..")
    expect(roots).to_contain_text("Not said")
    expect(phone.page.get_by_text("The soil · 1 of 5 answered")).to_be_visible()


def test_a_phone_far_away_shows_the_hours_of_the_garden(new_phone):
    away = new_phone(timezone_id="Pacific/Kiritimati")
    away.sign_in()
    begin(away, "Wall bed")
    unfold(away, "The soil")
    shown = datetime.fromisoformat(away.page.get_by_label("Day and hour").input_value())
    now = datetime.now(ZoneInfo(ZONE)).replace(tzinfo=None)
    assert abs((now - shown).total_seconds()) < 180
    expect(away.page.get_by_text("By the garden's clock")).to_be_visible()


def test_the_lines_that_would_print_empty_are_named_before_the_paper_is_made(phone):
    begin(phone, "Wall bed")
    phone.wait_until_sent()
    phone.open(f"/print?sample={phone.page.url.rsplit('/', 1)[-1]}")
    empty = phone.page.get_by_text("will print empty")
    expect(empty).to_contain_text("Cores mixed, Depth, Moisture")
    expect(empty).not_to_contain_text("Crop now")
    phone.button("Fill in").tap()
    unfold(phone, "The soil")
    phone.page.get_by_text("Just moist, holds together").tap()
    phone.page.go_back()
    expect(empty).to_contain_text("Cores mixed, Depth, Soil temp.")
