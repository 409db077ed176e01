import json
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from tests.phones import bed, item, new_id, planting, rating, root_check

TODAY = "2031-07-01"


@pytest.fixture
def dug(phone):
    """A bed with a root check of three plants; the names of its records."""
    made = {"bed": new_id(), "planting": new_id(), "check": new_id()}
    chosen = {"how": "every_kth", "every_k": 3}
    phone.push(
        bed(made["bed"], name="Crooked bed"),
        planting(made["bed"], made["planting"]),
        root_check(made["planting"], made["check"], chosen=chosen),
        *(rating(made["check"], grade=grade, plant=grade) for grade in (1, 3, 8)),
    )
    return made


def brief(phone, today=TODAY):
    return phone.get(phone.path(f"briefing?today={today}"))


def test_the_briefing_tells_the_mean_of_a_bed_and_where_the_garden_stood(phone, dug):
    answer = brief(phone)
    told = answer.json()
    (one,) = told["briefing"]["beds"]
    assert answer.headers["Cache-Control"] == "private, no-cache"
    assert told["head"] == phone.high
    assert (one["name"], one["crop"]) == ("Crooked bed", "Okra")
    assert one["roots"]["root_check"] == dug["check"]
    assert (one["roots"]["mean"], one["roots"]["days_ago"]) == (4, 17)
    assert "mean grade 4.0 of 10" in one["lines"][0]["words"]


def test_what_was_deleted_is_not_told(phone, dug):
    phone.push(item("delete", "root_check", dug["check"], base=9))
    (one,) = brief(phone).json()["briefing"]["beds"]
    assert one["roots"] is None
    assert [line["code"] for line in brief(phone).json()["briefing"]["lines"]] == []


@pytest.mark.parametrize("time_zone", ["Pacific/Kiritimati", "UTC", "Pacific/Pago_Pago"])
def test_without_a_day_the_one_on_the_gardens_clock_is_meant(phone, dug, time_zone):
    phone.push(item("patch", "garden", phone.garden, base=9, time_zone=time_zone))
    before, told, after = (
        datetime.now(ZoneInfo(time_zone)).date().isoformat(),
        phone.get(phone.path("briefing")).json()["briefing"]["today"],
        datetime.now(ZoneInfo(time_zone)).date().isoformat(),
    )
    assert before <= told <= after


@pytest.mark.parametrize("today", ["", "tomorrow", "2031-02-30", "20310701", "1803-01-01"])
def test_a_day_that_is_none_is_refused(phone, dug, today):
    answer = brief(phone, today)
    assert (answer.status_code, answer.json()["field"]) == (400, "today")


def test_a_helper_without_rights_and_a_stranger_learn_nothing(helpers_phone, stranger, dug):
    assert brief(helpers_phone).status_code == 404
    assert brief(stranger).status_code == 401


def test_the_same_garden_is_told_in_the_same_bytes(phone, dug):
    first, second = (brief(phone).json() for _ in range(2))
    assert json.dumps(first, sort_keys=True) == json.dumps(second, sort_keys=True)


def test_a_lab_s_public_holidays_come_as_plain_days_and_close_it(phone):
    # The first of May is a public holiday in Portugal (its labour code, from memory).
    lab = {"name": "Valley soil room", "country": "PT"}
    phone.push(item("put", "lab_profile", new_id(), **lab))
    told = brief(phone, "2031-04-21").json()["briefing"]
    assert "2031-05-01" in told["holidays"]["PT"]
    days = {one["ship_on"]: one["verdict"] for one in told["labs"][0]["days"]}
    assert days["2031-05-01"] == "never"


def test_a_country_nobody_has_a_list_for_is_left_out(phone):
    phone.push(item("put", "lab_profile", new_id(), name="Valley soil room", country="ZZ"))
    assert brief(phone).json()["briefing"]["holidays"] == {}
