from datetime import datetime, timedelta

from django.utils import timezone

from gardens.models import FailedSignIn, Helper, PairingCode
from tests.phones import Phone, new_id, rating


def type_in(code, device=None):
    phone = Phone(None, name="home screen")
    phone.device = device or phone.device
    answer = phone.post("pair", {"code": code, "device": phone.device, "device_name": phone.name})
    if answer.status_code == 200:
        phone.csrf = answer.json()["csrf"]
    return phone, answer


def wrong_for(code):
    return f"{(int(code) + 1) % 1_000_000:06}"


def test_six_digits_let_one_more_phone_in_for_ten_minutes(phone):
    made = phone.post("codes", {}).json()
    assert len(made["code"]) == 6 and made["code"].isdigit()
    left = datetime.fromisoformat(made["expires_at"]) - timezone.now()
    assert timedelta(minutes=9) < left <= timedelta(minutes=10)
    assert PairingCode.objects.get().code_hash != made["code"]
    _, answer = type_in(made["code"])
    assert answer.json()["account"] == phone.get("me").json()["account"]


def test_a_code_works_once_and_not_for_ever(phone):
    code = phone.post("codes", {}).json()["code"]
    type_in(code)
    assert type_in(code)[1].json()["code"] == "pair_token_ended"
    late = phone.post("codes", {}).json()["code"]
    PairingCode.objects.update(expires_at=timezone.now())
    assert type_in(late)[1].json()["code"] == "pair_token_ended"


def test_a_new_code_ends_the_one_before(phone):
    first, second = (phone.post("codes", {}).json()["code"] for _ in range(2))
    assert first == second or type_in(first)[1].status_code == 403
    assert type_in(second)[1].status_code == 200


def test_five_wrong_tries_from_anywhere_end_a_code(phone):
    code = phone.post("codes", {}).json()["code"]
    for _ in range(4):
        type_in(wrong_for(code))
    FailedSignIn.objects.all().delete()  # as if they came from as many addresses
    type_in(wrong_for(code))
    assert type_in(code)[1].json()["code"] == "pair_token_ended"


def test_four_wrong_tries_leave_the_fifth(phone):
    code = phone.post("codes", {}).json()["code"]
    for _ in range(4):
        type_in(wrong_for(code))
    assert type_in(code)[1].status_code == 200


def test_a_request_brings_a_token_or_a_code_and_not_both(phone):
    for given in ({}, {"token": "x", "code": "123456"}, {"code": "12345"}, {"code": "abcdef"}):
        answer = phone.post("pair", {**given, "device": phone.device})
        assert (answer.status_code, answer.json()["code"]) == (400, "bad_request")


def test_a_helpers_home_screen_is_a_further_phone_of_the_same_link(phone):
    ana = phone.lend("rater", max_devices=2)
    made = rating(new_id())
    ana.push(made)
    home, answer = type_in(ana.post("codes", {}).json()["code"])
    assert answer.json()["account"] == ana.get("me").json()["account"]
    home.garden = phone.garden
    assert home.records()[made["id"]]["by"] == "Ana"
    came = {(one.name, str(one.device)) for one in Helper.objects.all()}
    assert came == {("Ana", ana.device), ("Ana", home.device)}


def test_a_full_link_takes_no_further_phone_and_the_code_still_works_later(phone):
    ana = phone.lend("rater", max_devices=1)
    code = ana.post("codes", {}).json()["code"]
    _, answer = type_in(code)
    assert (answer.status_code, answer.json()["code"]) == (403, "link_full")
    assert PairingCode.objects.exists()
    token = ana.post("pairings", {}).json()["token"]
    sent = {"token": token, "device": Phone(None).device, "device_name": ""}
    assert Phone(None).post("pair", sent).json()["code"] == "link_full"


def test_the_owners_further_phones_take_no_place(phone):
    code = phone.post("codes", {}).json()["code"]
    home, _ = type_in(code)
    home.garden = phone.garden
    assert home.get_pull().status_code == 200
    assert not Helper.objects.exists()


def test_an_ended_phone_ends_alone(phone):
    ana = phone.lend("rater")
    home, _ = type_in(ana.post("codes", {}).json()["code"])
    home.garden = phone.garden
    first = Helper.objects.get(device=ana.device)
    phone.delete(phone.path(f"helpers/{first.id}"))
    assert ana.get_pull().json()["code"] == "share_ended"
    assert home.get_pull().status_code == 200


def test_a_stranger_cannot_make_a_code(stranger):
    assert stranger.post("codes", {}).json()["code"] == "login_needed"
