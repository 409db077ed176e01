from datetime import timedelta

from django.contrib.sessions.models import Session
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from gardens.models import Device, Helper
from tests.phones import Phone, bed, new_id


def test_the_phones_that_are_signed_in_are_listed(phone, tablet):
    told = {one["name"]: one for one in phone.get("devices").json()}
    assert set(told) == {"phone", "tablet"}
    assert (told["phone"]["is_this"], told["tablet"]["is_this"]) == (True, False)
    assert told["tablet"]["device"] == tablet.device
    assert all(one["first_seen_at"] and one["last_seen_at"] for one in told.values())


def test_an_ended_phone_is_signed_out_and_may_sign_in_again(phone, tablet):
    assert phone.delete(f"devices/{tablet.device}").status_code == 204
    for answer in (tablet.get("me"), tablet.get_pull(), tablet.send(bed())):
        assert (answer.status_code, answer.json()["code"]) == (401, "login_needed")
    assert [one["name"] for one in phone.get("devices").json()] == ["phone"]
    assert tablet.sign_in().send(bed()).status_code == 200


def test_a_phone_signed_in_anew_has_only_its_newest_session(phone, grower):
    again = Phone(grower, garden=phone.garden)
    again.device = phone.device
    again.sign_in()
    assert phone.get("me").status_code == 401
    assert again.get("me").status_code == 200
    assert Session.objects.count() == 1


def test_a_phone_that_signed_out_is_not_listed(phone, tablet):
    tablet.post("logout", {})
    assert [one["name"] for one in phone.get("devices").json()] == ["phone"]


def test_nobody_ends_the_phone_of_another(phone, neighbours_phone):
    foreign = neighbours_phone.delete(f"devices/{phone.device}")
    unknown = neighbours_phone.delete(f"devices/{new_id()}")
    assert foreign.status_code == unknown.status_code == 404
    assert foreign.content == unknown.content
    assert phone.get("me").status_code == 200


def test_ending_a_phone_needs_the_token(phone, tablet):
    phone.csrf = "wrong"
    assert phone.delete(f"devices/{tablet.device}").json()["code"] == "csrf"
    assert tablet.get("me").status_code == 200


def test_when_a_phone_was_seen_is_written_once_a_minute(phone):
    ana = phone.lend("rater")
    Device.objects.update(last_seen_at=timezone.now() - timedelta(days=2))
    Helper.objects.update(last_seen_at=timezone.now() - timedelta(days=2))
    earlier = ana.client.session
    earlier["seen_at"] = "2031-06-14T09:30"
    earlier.save()
    for n_writes in (True, False):
        with CaptureQueriesContext(connection) as asked:
            ana.get("me")
        assert any("UPDATE" in one["sql"] for one in asked) is n_writes
    day_ago = timezone.now() - timedelta(days=1)
    assert Device.objects.get(device=ana.device).last_seen_at > day_ago
    assert Helper.objects.get().last_seen_at > day_ago
