from datetime import timedelta

import pytest
from django.utils import timezone

from gardens.models import AccountName, Device, FailedSignIn
from gardens.services.accounts import known_as
from tests.phones import PASSWORD, Phone, new_id


def body(username="grower", password=PASSWORD, **changed):
    return {
        "username": username,
        "password": password,
        "device": new_id(),
        "device_name": "Shed phone",
        **changed,
    }


def called(account):
    return {"id": str(known_as(account).name), "username": "grower", "is_helper": False}


def test_signing_in_gives_account_token_and_device(grower):
    sent = body()
    answer = Phone(grower).post("login", sent)
    assert answer.status_code == 200
    assert answer.json()["account"] == called(grower)
    assert answer.json()["device"] == sent["device"]
    assert answer.json()["csrf"]
    assert Device.objects.get(account=grower).name == "Shed phone"


def test_an_account_is_called_the_same_at_each_sign_in_and_as_no_other(grower, neighbour):
    told = [
        Phone(one).post("login", body(username=one.username)).json()["account"]["id"]
        for one in (grower, grower, neighbour)
    ]
    assert told[0] == told[1] != told[2]


def test_the_first_account_of_another_server_is_called_otherwise(grower):
    here = str(known_as(grower).name)
    AccountName.objects.all().delete()  # as a server has it that was made anew
    answer = Phone(grower).post("login", body()).json()["account"]
    assert answer["id"] != here
    assert answer["id"] != str(grower.pk)


def test_the_cookie_is_out_of_reach_of_scripts_and_other_sites(grower):
    cookie = Phone(grower).post("login", body()).cookies["knotbed-session"]
    assert cookie["httponly"]
    assert cookie["samesite"] == "Lax"
    assert int(cookie["max-age"]) == 180 * 24 * 3600


@pytest.mark.parametrize(
    "sent", [body(password="wrong"), body(username="nobody"), body(username="nobody", password="x")]
)
def test_a_wrong_password_and_an_unknown_name_get_the_same_answer(grower, sent):
    answer = Phone(grower).post("login", sent)
    assert (answer.status_code, answer.json()["code"]) == (401, "login_wrong")


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"device": "phone"}, "device"),
        ({"device": 7}, "device"),
        ({"device_name": "x" * 81}, "device_name"),
        ({"device_name": "half an emoji \ud83d"}, "device_name"),
        ({"username": "a\x00b"}, "username"),
        ({"password": None}, "password"),
    ],
)
def test_a_body_that_cannot_be_read_names_its_field(grower, changed, field):
    answer = Phone(grower).post("login", body(**changed))
    assert (answer.status_code, answer.json()["field"]) == (400, field)


def test_guessing_is_slowed_down_after_ten_failures_a_minute(grower):
    phone = Phone(grower)
    for _ in range(10):
        phone.post("login", body(password="guess"))
    answer = phone.post("login", body())
    assert (answer.status_code, answer.json()["code"]) == (429, "slow_down")
    assert answer.headers["Retry-After"] == "60"
    FailedSignIn.objects.update(tried_at=timezone.now() - timedelta(minutes=2))
    assert phone.post("login", body()).status_code == 200


def test_guessing_one_name_shuts_out_neither_other_names_nor_other_addresses(grower, neighbour):
    phone = Phone(grower)
    for _ in range(11):
        phone.post("login", body(password="guess"))
    assert phone.post("login", body(username="neighbour")).status_code == 200
    phone.client.defaults["REMOTE_ADDR"] = "192.0.2.7"
    assert phone.post("login", body()).status_code == 200


def test_a_hundred_failures_shut_an_address_for_every_name(grower):
    FailedSignIn.objects.bulk_create([FailedSignIn(address="127.0.0.1")] * 100)
    assert Phone(grower).post("login", body()).json()["code"] == "slow_down"


@pytest.mark.parametrize(
    ("https", "told", "counted"),
    [
        (True, "198.51.100.4, 203.0.113.9", "203.0.113.9"),
        (True, "nonsense", None),
        (False, "198.51.100.4", "127.0.0.1"),
    ],
)
def test_only_the_web_server_in_front_may_say_who_asks(grower, settings, https, told, counted):
    settings.HTTPS = https
    Phone(grower).post("login", body(password="guess"), **{"X-Forwarded-For": told})
    assert [failed.address for failed in FailedSignIn.objects.all()] == [counted]


def test_no_name_that_was_typed_is_kept(grower):
    Phone(grower).post("login", body(username="my password by mistake", password="x"))
    assert "mistake" not in str(FailedSignIn.objects.values().get())


ORIGIN = {"Origin": "https://garden.example", "Host": "garden.example"}


@pytest.fixture
def behind_a_web_server(settings):
    settings.HTTPS, settings.ALLOWED_HOSTS = True, ["garden.example", "127.0.0.1", "testserver"]
    settings.SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")


@pytest.mark.usefixtures("behind_a_web_server")
@pytest.mark.parametrize("headers", [ORIGIN, {**ORIGIN, "Host": "127.0.0.1:8000"}])
def test_a_web_server_in_front_that_keeps_name_or_https_back_is_told_of(grower, headers):
    phone = Phone(grower)
    for answer in (phone.post("login", body(), **headers), pushed_from(phone.sign_in(), headers)):
        assert (answer.status_code, answer.json()["code"]) == (403, "wrong_origin")
        assert "Host" in answer.json()["detail"] and "X-Forwarded-Proto" in answer.json()["detail"]


@pytest.mark.usefixtures("behind_a_web_server")
def test_a_web_server_in_front_that_passes_both_on_is_believed(grower):
    phone, headers = Phone(grower), {**ORIGIN, "X-Forwarded-Proto": "https"}
    answer = phone.post("login", body(device=phone.device), **headers)
    assert answer.status_code == 200
    phone.csrf = answer.json()["csrf"]
    assert pushed_from(phone, headers).status_code == 404  # it may ask; there is no such garden


def pushed_from(phone, headers):
    return phone.post(phone.path("push"), phone.envelope(), **headers)


def test_signing_in_rightly_is_never_slowed_down(grower):
    assert {Phone(grower).post("login", body()).status_code for _ in range(15)} == {200}


def test_signing_in_from_another_sites_page_is_refused(grower):
    answer = Phone(grower).post("login", body(), **{"Sec-Fetch-Site": "cross-site"})
    assert (answer.status_code, answer.json()["code"]) == (403, "wrong_origin")


def test_a_form_post_is_refused(grower):
    answer = Phone(grower).client.post("/api/v1/login", body())
    assert (answer.status_code, answer.json()["code"]) == (415, "not_json")


def test_me_tells_the_account_and_its_gardens(phone):
    answer = phone.get("me").json()
    assert answer["account"] == called(phone.account)
    assert answer["device"] == phone.device
    assert answer["gardens"] == phone.get("gardens").json()


def test_a_token_fetched_later_is_as_good_as_the_first(phone):
    phone.csrf = phone.get("me").json()["csrf"]
    assert phone.send().status_code == 200


def test_signing_out_ends_the_session(phone):
    assert phone.post("logout", {}).status_code == 204
    assert phone.get("me").json()["code"] == "login_needed"


def test_signing_out_needs_the_token(phone):
    phone.csrf = ""
    assert phone.post("logout", {}).json()["code"] == "csrf"
    assert phone.get("me").status_code == 200


def test_a_stranger_is_nobody(stranger):
    answer = stranger.get("me")
    assert (answer.status_code, answer.json()["code"]) == (401, "login_needed")
    assert answer.headers["Content-Type"] == "application/problem+json"


def test_a_session_in_use_is_prolonged_once_a_day(phone):
    session = phone.client.session
    session["seen_on"] = "2001-01-01"
    session.save()
    assert "knotbed-session" in phone.get("me").cookies
    assert "knotbed-session" not in phone.get("me").cookies
