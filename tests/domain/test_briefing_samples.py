import pytest

from tests.domain.briefed import bed, id_of, line, only_bed, record

LAB = id_of(1, 0x1AB)
TODAY = "2031-08-07"  # a Thursday


def sample(**changed):
    doc = {"bed": bed()["id"], "code": "K7M2H", "purpose": "predict", "lab_profile": LAB}
    return record("soil_sample", id_of(1, 0x5A), **{**doc, **changed})


def lab(days=(0, 1, 2, 3, 4)):
    return record("lab_profile", LAB, name="Valley soil room", working_days=list(days))


def told(code, *records, today=TODAY):
    return line(only_bed([bed(), *records], today), code)


def test_a_planned_sample_names_the_best_days_to_lift_and_send():
    # Two days by carrier, a lab open Monday to Friday: from a Thursday, the next week's Monday
    # and Tuesday arrive with an open day to spare (labs ask for early in the week).
    found = told("sample_planned", sample(), lab())
    assert (found["about"], found["by"]) == ("sample", "2031-08-11")
    assert "Monday 11 August, Tuesday 12 August" in found["words"]
    assert "No public holidays are known here" in " ".join(one["words"] for one in found["because"])
    assert "briefing_transit_days" in [one["key"] for one in found["assumptions"]]
    assert {"ship_early_in_week", "our_ship_ranking"} <= set(found["sources"])


def test_without_a_lab_or_an_open_day_no_day_is_named():
    assert told("sample_planned_no_lab", sample(lab_profile=None))["by"] is None
    assert told("sample_planned_no_lab", sample())["by"] is None
    assert told("sample_planned_no_day", sample(), lab(days=[]))["by"] is None


@pytest.mark.parametrize(
    ("lifted_at", "moisture", "grade", "reason"),
    [
        ("2031-08-06T09:00:00.000Z", "just_moist", "B", "how warm it got"),
        ("2031-08-06T09:00:00.000Z", "dust_dry", "C", "dust dry"),
        ("2031-08-02T09:00:00.000Z", "just_moist", "B", "no longer fresh"),
    ],
)
def test_a_bag_not_sent_yet_is_graded_and_told_what_helps(lifted_at, moisture, grade, reason):
    found = told("sample_unsent", sample(lifted_at=lifted_at, moisture=moisture), lab())
    assert f"grade on arrival: {grade}" in found["words"]
    assert reason in " ".join(one["words"] for one in found["because"])
    assert "10 to 15 °C" in " ".join(found["settle"])
    assert found["by"] == "2031-08-11"


def test_a_bag_that_lay_too_long_is_to_be_lifted_again():
    old = sample(lifted_at="2031-07-20T09:00:00.000Z")
    assert "Lift fresh soil" in told("sample_unsent_old", old, lab())["settle"][0]


def test_a_bag_without_a_lab_is_graded_as_of_today():
    one = sample(lifted_at="2031-08-05T09:00:00.000Z", lab_profile=None)
    found = told("sample_unsent_no_day", one)
    assert ("2 days ago" in found["words"], found["by"]) == (True, None)


def test_a_bag_under_way_asks_for_the_day_it_arrived():
    parcel = {"sent_on": "2031-08-05", "arrived_on": None}
    assert "sent on 5 August 2031" in told("sample_on_the_way", sample(parcel=parcel))["words"]
    late = told("sample_on_the_way_long", sample(parcel=parcel), today="2031-08-20")
    assert "Ask the laboratory" in late["settle"][0]


def test_a_bag_that_arrived_is_graded_for_a_while():
    parcel = {"sent_on": "2031-08-04", "arrived_on": "2031-08-06"}
    one = sample(parcel=parcel, lifted_at="2031-08-03T09:00:00.000Z", moisture="just_moist")
    found = told("sample_arrived", one)
    assert "Bag K7M2-H arrived on 6 August 2031. Handling grade: B." in found["words"]
    later = only_bed([bed(), one], "2032-08-07")
    assert [own["code"] for own in later["lines"]] == ["never_rated_bare"]


def test_a_bag_lifted_tomorrow_by_a_wrong_clock_is_no_error():
    ahead = sample(lifted_at="2032-08-06T09:00:00.000Z")
    assert "0 days ago" in told("sample_unsent", ahead, lab())["words"]


@pytest.mark.parametrize(
    ("time_zone", "lifted_on", "ago"),
    [
        # 14 hours ahead of UTC and 11 behind, all year (IANA time zone database, from memory).
        ("Pacific/Kiritimati", "6 August", "1 day ago"),
        ("UTC", "5 August", "2 days ago"),
        ("Pacific/Pago_Pago", "4 August", "3 days ago"),
        ("Nowhere/Land", "5 August", "2 days ago"),
    ],
)
def test_a_bag_was_lifted_on_the_day_of_the_gardens_clock(time_zone, lifted_on, ago):
    one = sample(lifted_at="2031-08-05T10:30:00.000Z", lab_profile=None)
    own = record("garden", id_of(1, 0x6A), name="Long Acre", time_zone=time_zone)
    words = told("sample_unsent_no_day", one, own)["words"]
    assert (lifted_on in words, ago in words) == (True, True), words
