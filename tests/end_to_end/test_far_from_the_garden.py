"""A phone beyond the date line: a day in a garden is the day on the garden's own clock."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import expect

from tests.end_to_end.demo_garden import BEDS, PLANTINGS

HERE, THERE = "Pacific/Kiritimati", "Pacific/Pago_Pago"  # 25 hours apart, so never the same day


@pytest.fixture
def away(new_phone):
    """A phone in Kiritimati whose garden goes by the clock of Pago Pago."""
    phone = new_phone(timezone_id=HERE)
    phone.sign_in()
    phone.open("/garden")
    phone.page.get_by_text("The garden's clock").tap()
    phone.page.get_by_label("Time zone").select_option("Pacific/Pago Pago")
    said = phone.page.get_by_text("Days and hours here go by Pacific/Pago Pago")
    expect(said).to_contain_text("this phone's clock is Pacific/Kiritimati")
    phone.button("Save garden").tap()
    phone.wait_until_sent()
    return phone


def days_there():
    """Today there, and tomorrow in case midnight comes while the test runs."""
    now = datetime.now(ZoneInfo(THERE))
    return [(now + timedelta(days=n)).date().isoformat() for n in (0, 1)]


def test_what_is_begun_today_has_the_gardens_day(server, away):
    days = days_there()
    check = away.start_check(BEDS["Wall bed"])
    away.rate(4)
    away.open(f"/beds/{BEDS['Wall bed']}/plantings/new")
    planted = away.page.get_by_label("Planted on")
    expect(planted).not_to_have_value("")
    assert planted.input_value() in days
    away.wait_until_sent()

    found = "select checked_on from gardens_rootcheck where id = ?"
    ((checked_on,),) = server.ask(found, check.rsplit("/", 1)[-1].replace("-", ""))
    assert checked_on in days
    away.open(f"/beds/{BEDS['Wall bed']}")
    expect(away.button("Go on with today's check")).to_be_visible()
    checks = away.page.get_by_role("button", name="today")
    expect(checks.first).to_be_visible()


def test_a_planting_ends_on_the_gardens_day(away):
    days = days_there()
    away.open(f"/plantings/{next(iter(PLANTINGS.values()))}")
    again = away.button("It still grows")
    if again.is_visible():
        again.tap()
    away.button("It ended today").tap()
    assert away.page.get_by_label("Ended on").input_value() in days


def test_the_server_is_asked_what_is_known_on_the_gardens_day(away):
    with away.page.expect_request(lambda asked: "/briefing?today=" in asked.url) as caught:
        away.start_check(BEDS["Wall bed"])
        away.rate(4)
        away.wait_until_sent()
    assert caught.value.url.rsplit("=", 1)[-1] in days_there()
    assert datetime.now(UTC).astimezone(ZoneInfo(HERE)).date().isoformat() not in days_there()[:1]
