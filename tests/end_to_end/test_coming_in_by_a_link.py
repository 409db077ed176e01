"""The grower lends the garden to others by a link: to look, to rate, until it ends."""

import re

import pytest
from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS, LATEST_CHECK_OF_WELL_ELBOW
from tests.end_to_end.links import come_in, end_link, make_link

CHECK = f"/checks/{LATEST_CHECK_OF_WELL_ELBOW}"
BED = f"/beds/{BEDS['Well elbow']}"
DIGITS = re.compile(r"\d{3} \d{3}$")
N_RATINGS = "select count(*) from gardens_gallrating"


@pytest.fixture
def ana(phone, new_phone):
    """Ana's phone, on which she rates; the grower is `phone`."""
    helper = new_phone()
    come_in(helper, make_link(phone, "Rate roots"), "Ana")
    return helper


def rate_with_no_signal(helper, server):
    helper.open(CHECK)
    expect(helper.grade(0)).to_be_visible()
    helper.context.set_offline(True)
    helper.rate(4)


def test_the_secret_leaves_the_address_bar_before_anything_is_asked(phone, new_phone):
    helper = new_phone()
    helper.page.goto(make_link(phone, "Look"))
    expect(helper.page.get_by_label("Your name")).to_be_visible()
    assert helper.page.url == f"{helper.address}/join"
    helper.page.reload()
    expect(helper.page.get_by_text("This address holds no link")).to_be_visible()


def test_who_may_look_sees_the_maps_and_no_form(phone, new_phone):
    viewer = new_phone()
    come_in(viewer, make_link(phone, "Look"), "Bo")
    main = viewer.page.get_by_role("main")
    expect(main.get_by_text("You can look at the maps")).to_be_visible()
    expect(main.get_by_role("link", name="Add a bed")).to_have_count(0)
    viewer.open(BED)
    expect(main.get_by_role("heading", name="What we know")).to_be_visible()
    expect(main.get_by_text("Rate roots: which plants?")).to_have_count(0)
    for path in (CHECK, f"{BED}/edit", "/garden", "/samples/new"):
        viewer.open(path)
        expect(main.get_by_role("heading", name="Not yours to change")).to_be_visible()


def test_what_was_rated_before_the_link_ended_goes_in_when_the_grower_accepts(server, phone, ana):
    before = server.ask(N_RATINGS)[0][0]
    rate_with_no_signal(ana, server)
    end_link(phone)
    ana.context.set_offline(False)
    ana.open("/phone")
    expect(ana.page.get_by_text("With the grower, to be decided")).to_be_visible(timeout=20_000)
    expect(ana.page.get_by_text("The link to Old Fig Garden has ended.")).to_be_visible()
    assert server.ask(N_RATINGS)[0][0] == before

    phone.open("/needs-you")
    expect(phone.page.get_by_text("Ana made it on their phone")).to_be_visible(timeout=20_000)
    phone.button("Accept").tap()
    expect(phone.page.get_by_role("main")).to_contain_text("Accepted: Plant")
    phone.wait_until_sent()
    assert server.ask(N_RATINGS)[0][0] == before + 1
    phone.open(BED)
    expect(phone.page.get_by_role("main")).to_contain_text("7 of")


def test_a_refused_phone_keeps_what_was_rated_and_hands_it_over_in_a_file(server, phone, ana):
    rate_with_no_signal(ana, server)
    end_link(phone, refuse_later=True)
    ana.context.set_offline(False)
    with ana.answered_with(403):
        ana.open("/ended")
        expect(ana.page.get_by_text("Save them to a file")).to_be_visible(timeout=20_000)
    with ana.page.expect_download() as download:
        ana.button("Save to a file").tap()
    assert "gall_rating" in download.value.path().read_text()
    ana.button("Take the garden off this phone").tap()
    ana.open("/phone")
    expect(ana.page.get_by_role("main")).to_contain_text("1 entry waits")


def test_two_people_who_rated_one_plant_are_a_pair(server, phone, ana):
    rate_with_no_signal(ana, server)
    phone.open(CHECK)
    expect(phone.grade(0)).to_be_visible()
    phone.rate(3)
    phone.wait_until_sent()
    ana.context.set_offline(False)
    ana.open("/")
    ana.wait_until_sent()
    phone.open("/")
    phone.wait_until_sent()
    for one, said in ((phone, "Ana 4, you 3"), (ana, "you 4, demo 3")):
        one.open(BED)
        plant = one.page.get_by_role("option", name=said)
        expect(plant).to_have_count(1, timeout=20_000)
        expect(one.page.get_by_role("main")).not_to_contain_text("needs you")


def test_somebody_with_a_garden_of_their_own_gains_one_and_goes_to_and_fro(
    server, phone, new_phone
):
    server.make_account("benilde", "a-row-of-nine-leeks")
    other = new_phone()
    with other.answered_with(401):
        other.open("/sign-in")
        other.fill_in_sign_in("benilde", "a-row-of-nine-leeks")
        other.button("Make your garden").tap()
    other.page.get_by_label("Name of the garden").fill("Leek rows")
    other.button("Next: the first bed").tap()
    other.wait_until_sent()
    other.page.goto(make_link(phone, "Look"))
    expect(other.page.get_by_text("signed in as benilde and stays so")).to_be_visible()
    other.button("Come in").tap()
    expect(other.page.get_by_role("heading", name="Old Fig Garden")).to_be_visible(timeout=20_000)
    other.page.get_by_role("combobox").select_option(label="Leek rows")
    expect(other.page.get_by_role("heading", name="Leek rows")).to_be_visible()
    expect(other.button("Draw the first bed")).to_be_visible()


def test_with_no_signal_the_list_of_links_says_what_it_needs(server, phone):
    server.stop()
    phone.open("/helpers")
    expect(phone.page.get_by_text("it could not be reached")).to_be_visible()


def test_six_digits_bring_the_app_on_the_home_screen_in_as_the_same_person(phone, new_phone):
    browser, installed = new_phone(), new_phone()
    come_in(browser, make_link(phone, "Rate roots", phones=2), "Ana")
    browser.button("Put it on the home screen").tap()
    browser.button("Show six digits").tap()
    digits = DIGITS.search(browser.page.get_by_text(DIGITS).inner_text()).group()

    with installed.answered_with(401):
        installed.open("/")
        installed.button("I have six digits").tap()
        installed.page.get_by_label("Six digits, or the address").fill(digits)
        installed.button("Pair").tap()
        expect(installed.page.get_by_role("heading", name="Old Fig Garden")).to_be_visible(
            timeout=20_000
        )
    installed.open("/phone")
    expect(installed.page.get_by_text("Signed in as Ana")).to_be_visible()
    installed.open("/devices")
    expect(installed.page.get_by_role("listitem")).to_have_count(2)


def test_the_home_screen_is_not_offered_while_entries_would_stay_behind(server, phone, ana):
    server.stop()
    ana.open(CHECK)
    expect(ana.grade(0)).to_be_visible()
    ana.rate(4)
    ana.open("/home-screen")
    expect(ana.page.get_by_text("must reach the server first")).to_be_visible()
    expect(ana.button("Show six digits")).to_have_count(0)


def test_who_works_in_the_garden_reads_who_changed_a_bed(phone, new_phone):
    helper = new_phone()
    come_in(helper, make_link(phone, "Work in the garden"), "Ana")
    helper.open_bed_form(BEDS["Well elbow"]).fill("Elbow at the well")
    helper.button("Save bed").tap()
    helper.wait_until_sent()
    helper.open(BED)
    helper.button("Who changed this").tap()
    changes = helper.page.get_by_role("main").get_by_role("article")
    expect(changes.first).to_contain_text("Ana changed it")
    expect(changes.first).to_contain_text("name: Well elbow → Elbow at the well")
    expect(changes.last).to_contain_text("demo made it")
