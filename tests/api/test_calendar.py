import re
from datetime import date

import pytest
import vobject

from gardens.models import CalendarAddress
from tests.api.test_sheets import sample
from tests.phones import bed, item, new_id, planting

WEEK = [0, 1, 2, 3, 4, 5, 6]
LONG = "Bed under the old fig, beside the wall that ever so slowly leans towards the well"


@pytest.fixture
def due(phone):
    """A garden with a bag to send, a report that is late and pots to wash."""
    names = {name: new_id() for name in ("bed", "lab", "waiting", "late", "pots")}
    carrier = {"transit_days": 1, "to_door": True, "moves_on": WEEK, "words": ""}
    pots = {"n_pots": 4, "blank_pot": 4, "soil_cm3_per_pot": 700, "soil_sample": None}
    lab = {"name": "Valley, soil; room", "working_days": WEEK, "usual_days": 10}
    late = {"sent_on": "2031-06-10", "arrived_on": "2031-06-12"}
    phone.push(
        bed(names["bed"], name=LONG[:80]),
        item("put", "lab_profile", names["lab"], courier=carrier, **lab),
        sample(names["bed"], record=names["waiting"], lab_profile=names["lab"]),
        sample(
            names["bed"],
            "R4TH",
            record=names["late"],
            lab_profile=names["lab"],
            lifted_at="2031-06-10T08:00:00Z",
            parcel=late,
        ),
        planting(
            names["bed"],
            names["pots"],
            crop="Cucumber",
            grown={"from_on": "2031-06-12", "to_on": None},
            pots=pots,
        ),
    )
    return names


def make(phone):
    answer = phone.post("calendar", {})
    assert answer.status_code == 201
    return answer.json()["url"]


def read(client, url):
    return client.get(re.sub(r"^https?://[^/]+", "", url))


def events(content):
    """The events of a feed, read by another library than the one that wrote it."""
    calendar = vobject.readOne(content.decode("utf-8"), validate=True)
    return {one.uid.value: one for one in calendar.contents.get("vevent", [])}


def test_another_program_reads_what_is_due(phone, stranger, due):
    found = events(read(stranger.client, make(phone)).content)
    assert set(found) == {
        f"{due['waiting']}-send@knotbed",
        f"{due['late']}-overdue@knotbed",
        f"{due['pots']}-pots@knotbed",
    }
    late = found[f"{due['late']}-overdue@knotbed"]
    # Ten usual days after the arrival on 12 June are over on the 23rd.
    assert (late.dtstart.value, late.dtend.value) == (date(2031, 6, 23), date(2031, 6, 24))
    assert "R4TH-" in late.summary.value and "Valley, soil; room" in late.summary.value
    pots = found[f"{due['pots']}-pots@knotbed"]
    # 24 to 42 days after sowing; the end is the day after the last.
    assert (pots.dtstart.value, pots.dtend.value) == (date(2031, 7, 6), date(2031, 7, 25))
    assert LONG[:60] in pots.summary.value
    assert pots.url.value.endswith(f"/beds/{due['bed']}")


def test_lines_are_folded_and_end_as_the_standard_says(phone, due):
    # RFC 5545, 3.1: at most 75 octets a line, CRLF at each end, a blank begins what is folded.
    content = read(phone.client, make(phone)).content
    lines = content.split(b"\r\n")
    assert lines[0] == b"BEGIN:VCALENDAR" and lines[-1] == b"" and b"\n" not in b"".join(lines)
    assert max(len(line) for line in lines) <= 75
    assert any(line.startswith(b" ") for line in lines)
    for needed in (b"VERSION:2.0", b"PRODID:", b"DTSTAMP:", b"DTSTART;VALUE=DATE:20310623"):
        assert needed in content


def test_the_same_thing_keeps_its_uid_while_its_day_moves(phone, due):
    url = make(phone)
    before = set(events(read(phone.client, url).content))
    phone.push(item("patch", "lab_profile", due["lab"], base=99, usual_days=20))
    after = events(read(phone.client, url).content)
    assert set(after) == before
    assert after[f"{due['late']}-overdue@knotbed"].dtstart.value == date(2031, 7, 3)


def test_the_file_for_import_holds_the_same(phone, due):
    answer = phone.get(phone.path("calendar.ics"))
    assert answer.headers["Content-Disposition"] == 'attachment; filename="due.ics"'
    assert answer.headers["Content-Type"].startswith("text/calendar")
    assert set(events(answer.content)) == set(events(read(phone.client, make(phone)).content))


def test_only_the_hash_of_an_address_is_kept_and_it_is_shown_once(phone):
    assert phone.get("calendar").json() == {"made_at": None}
    secret = re.search(r"/calendar/([A-Za-z0-9_-]{43})\.ics$", make(phone))[1]
    (kept,) = CalendarAddress.objects.all()
    assert secret not in str(vars(kept))
    told = phone.get("calendar").json()
    assert set(told) == {"made_at"} and told["made_at"]


def test_a_new_address_ends_the_one_before_and_an_ended_one_opens_nothing(phone, stranger):
    old = make(phone)
    new = make(phone)
    assert read(stranger.client, old).status_code == 404
    assert read(stranger.client, new).status_code == 200
    ended = phone.client.delete("/api/v1/calendar", headers={"X-CSRFToken": phone.csrf})
    assert ended.status_code == 204
    assert read(stranger.client, new).status_code == 404
    assert read(stranger.client, new).json()["code"] == "not_found"


def test_an_address_of_an_account_that_was_put_away_opens_nothing(phone, grower, stranger):
    url = make(phone)
    grower.is_active = False
    grower.save()
    assert read(stranger.client, url).status_code == 404


def test_a_feed_is_never_kept_by_a_cache_and_sets_no_cookie(phone, stranger):
    answer = read(stranger.client, make(phone))
    assert answer.headers["Cache-Control"] == "private, no-store"
    assert not answer.cookies


def test_an_address_is_made_only_by_whom_it_belongs_to(phone, stranger):
    assert stranger.get("calendar").status_code == 401
    refused = phone.client.post("/api/v1/calendar", {}, content_type="application/json")
    assert (refused.status_code, refused.json()["code"]) == (403, "csrf")
