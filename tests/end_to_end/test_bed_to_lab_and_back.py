"""From galled roots to a bag at the lab and back: planned and taken on a phone without a signal,
followed and read in another browser.

The core's words are checked in `tests/domain`; here it is that they reach the grower. What the
first line must say is common practice: galls seen on roots outweigh a count of none.
"""

import re

from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS

BED = BEDS["Rain barrel bed"]
IN_BUCKET = re.compile(r"^Core \d+ is in the bucket$")


def plan(phone):
    phone.open(f"/beds/{BED}")
    phone.page.get_by_role("link", name="Sample this bed").tap()
    expect(phone.page.get_by_role("heading", name="Sample Rain barrel bed")).to_be_visible()
    expect(phone.page.get_by_text("Ask the lab to extract", exact=True)).to_be_visible()
    phone.page.get_by_text("All 21 days, and why").tap()
    days = phone.page.locator("summary").filter(has_text=re.compile("(good|better wait|never)$"))
    expect(days).to_have_count(21)
    return int(phone.page.get_by_text("mixed in one bucket").inner_text().split()[0])


def walk(phone, n):
    for _ in range(n):
        phone.button(IN_BUCKET).tap()


def go_on(phone, to):
    phone.button("Next").tap()
    expect(phone.page.get_by_role("heading", name=to)).to_be_visible()


def answer_the_rest(phone, photo):
    go_on(phone, "How deep?")
    phone.page.get_by_text("as planned").tap()
    go_on(phone, "The soil in your hand")
    phone.page.get_by_text("Just moist, holds together").tap()
    go_on(phone, "Warmth and time")
    phone.page.get_by_label("Warmth of the soil", exact=True).fill("24")
    go_on(phone, "A photo")
    phone.page.locator("input[type=file][capture]").set_input_files(photo)
    expect(phone.button("Photo 1 of this sample, larger")).to_be_visible()
    go_on(phone, "Write the bag")
    expect(phone.page.get_by_text("check sign")).to_be_visible()
    go_on(phone, "The parcel")
    phone.button("All 2 bags are packed now").tap()
    expect(phone.page.get_by_text(re.compile("^packed "))).to_have_count(2)


def take_without_a_signal(phone, n, photo):
    phone.button("Begin one bag of the whole bed").tap()
    expect(phone.page.get_by_text(f"0 of {n} cores in the bucket")).to_be_visible()
    walk(phone, 3)
    expect(phone.page.get_by_text(f"3 of {n} cores in the bucket, kept")).to_be_visible()
    address = phone.page.url.removeprefix(phone.address)
    phone.kill_page()
    phone.open(address)
    expect(phone.page.get_by_text(f"3 of {n} cores in the bucket")).to_be_visible()
    walk(phone, n - 3)
    expect(phone.page.get_by_text("Every core is in the bucket")).to_be_visible()
    answer_the_rest(phone, photo)
    phone.button("To the sample's page").tap()
    expect(phone.page.get_by_role("heading", name="Its way to the lab")).to_be_visible()
    return phone.page.url.removeprefix(phone.address)


def follow(desk, sample):
    desk.open(sample)
    for step in ("Handed over just now", "The lab has it since", "The lab extracted it"):
        desk.button(re.compile(f"^{step}")).click()
        desk.wait_until_sent()
    expect(desk.page.get_by_text(re.compile("^Handling [ABC]$"))).to_be_visible(timeout=20_000)


def write_report(desk):
    desk.button("Write down the report").click()
    desk.page.get_by_label("Method").fill("sugar flotation")
    soil = desk.page.get_by_role("group", name="Fill in: Soil it looked at")
    soil.get_by_role("button", name="100 cm³", exact=True).click()
    desk.page.get_by_text("None recovered", exact=True).click()
    desk.button("Add a finding").click()
    second = desk.page.get_by_role("group", name=re.compile("^Finding 2"))
    second.get_by_label("Which nematode").select_option(label="Lesion nematode (Pratylenchus)")
    second = desk.page.get_by_role("group", name=re.compile("^Finding 2"))
    second.get_by_label("How many", exact=True).fill("30")
    second.get_by_label("Per", exact=True).fill("250 cc")
    desk.button("Keep the report").click()
    expect(desk.page.get_by_text("30 per 250 cc")).to_be_visible(timeout=20_000)
    expect(desk.page.get_by_text("12 per 100 cm³", exact=True)).to_be_visible()


def test_a_sample_goes_from_the_bed_to_the_lab_and_its_report_is_not_taken_for_more(
    server, phone, new_phone, small_photo
):
    n = plan(phone)
    server.kill()
    sample = take_without_a_signal(phone, n, small_photo)
    server.start()
    phone.open(sample)
    phone.wait_until_sent()
    desk = new_phone(viewport={"width": 1280, "height": 800}, is_mobile=False)
    desk.sign_in()
    follow(desk, sample)
    write_report(desk)
    desk.button("What it means for the bed").click()
    first = desk.page.get_by_role("main").get_by_role("article").first
    expect(first).to_contain_text("Believe the roots")
    dots = desk.page.get_by_role("img", name=re.compile("Root-knot, per 100.*: < "))
    expect(dots).to_be_visible()


def test_two_bags_of_one_bed_are_told_of_beside_each_other(phone):
    plan(phone)
    phone.button("Begin two bags: poor spot and good spot").tap()
    expect(phone.page.get_by_role("heading", name="Walk the cores")).to_be_visible()
    phone.wait_until_sent()
    phone.open(f"/beds/{BED}/what-we-know")
    planned = re.compile(r"^Bag \S+ is planned")
    expect(phone.page.get_by_role("main").get_by_text(planned)).to_have_count(2)


def test_a_number_of_nought_is_asked_back_and_nothing_typed_is_lost(phone):
    phone.open("/samples")
    phone.page.locator("main a.way").first.tap()
    phone.button("Write down a report").tap()
    phone.page.get_by_label("How many", exact=True).fill("0")
    phone.button("Keep the report").tap()
    expect(phone.page.get_by_text("0 is written as “None recovered”")).to_be_visible()
    phone.page.get_by_label("Its comments").fill("low")
    phone.page.wait_for_timeout(300)
    phone.page.reload()
    expect(phone.page.get_by_text("Welcome back.")).to_be_visible()
    expect(phone.page.get_by_label("Its comments")).to_have_value("low")


def test_a_pot_test_stands_in_a_section_of_its_own_and_its_pots_in_a_row(phone):
    phone.open(f"/beds/{BEDS['Wall bed']}")
    expect(phone.page.get_by_role("heading", name="Pot tests")).to_be_visible()
    expect(phone.page.get_by_text("No root check of this planting yet")).to_be_visible()
    phone.button("Open the ratings").tap()
    row = phone.page.get_by_role("group", name=re.compile("^Pots with "))
    expect(row.get_by_role("button")).to_have_count(4)
    row.get_by_role("button", name=re.compile("^Pot 2")).tap()
    phone.button(re.compile("^More on pot 2")).tap()
    galls = phone.page.get_by_label("Galls counted on this pot", exact=True)
    galls.fill("7")
    phone.button("Keep and go on").tap()
    phone.wait_until_sent()
    phone.open(f"/beds/{BEDS['Wall bed']}")
    expect(phone.page.get_by_text(re.compile("Seedlings of Cucumber had "))).to_be_visible()
