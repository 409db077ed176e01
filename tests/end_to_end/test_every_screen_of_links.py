"""The screens and states that only a link brings about, measured as every other screen is."""

import pytest
from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS, LATEST_CHECK_OF_WELL_ELBOW
from tests.end_to_end.links import come_in, end_link, make_link
from tests.end_to_end.screen_checks import (
    TWICE_AS_LARGE,
    WIDER_THAN_SCREEN,
    findings,
    findings_at,
    settle,
)

LONG_NAME = "Maria da Graça dos Santos Évora from the school at the river"
BED, CHECK = f"/beds/{BEDS['Well elbow']}", f"/checks/{LATEST_CHECK_OF_WELL_ELBOW}"


def no_barrier_here(phone):
    settle(phone)
    assert findings(phone) == []
    phone.page.evaluate(TWICE_AS_LARGE)
    settle(phone)
    assert phone.page.evaluate(WIDER_THAN_SCREEN) == []


def test_making_a_link_has_no_barrier(phone):
    phone.open("/helpers")
    phone.button("Make a link").tap()
    no_barrier_here(phone)
    phone.button("Make the link").tap()
    expect(phone.page.get_by_text("It is shown this once.")).to_be_visible()
    no_barrier_here(phone)


def test_ending_one_has_no_barrier(phone, new_phone):
    come_in(new_phone(), make_link(phone, "Rate roots", LONG_NAME), LONG_NAME)
    phone.open("/helpers")
    phone.button(f"End for {LONG_NAME}").tap()
    expect(phone.page.get_by_role("dialog")).to_be_visible()
    no_barrier_here(phone)


def test_coming_in_has_no_barrier(phone, new_phone):
    helper = new_phone()
    helper.page.goto(make_link(phone, "Look"))
    no_barrier_here(helper)


@pytest.mark.parametrize("role", ["Look", "Rate roots", "Work in the garden"])
def test_a_lent_garden_has_no_barrier(phone, new_phone, role):
    helper = new_phone()
    come_in(helper, make_link(phone, role), LONG_NAME)
    paths = ["/", BED, CHECK, "/samples", "/print", "/phone", "/needs-you"]
    assert findings_at(helper, paths) == {}


def test_a_link_that_has_ended_makes_no_barrier(phone, new_phone):
    helper = new_phone()
    come_in(helper, make_link(phone, "Rate roots"), LONG_NAME)
    helper.open(CHECK)
    expect(helper.grade(0)).to_be_visible()
    helper.context.set_offline(True)
    helper.rate(4)
    end_link(phone)
    helper.context.set_offline(False)
    helper.open("/phone")
    expect(helper.page.get_by_text("With the grower")).to_be_visible(timeout=20_000)
    assert findings_at(helper, ["/", "/phone", "/ended", CHECK]) == {}
    phone.open("/needs-you")
    expect(phone.button("Accept")).to_be_visible(timeout=20_000)
    no_barrier_here(phone)
