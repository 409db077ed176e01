from datetime import datetime, timedelta

import pytest
from django.core.management import CommandError, call_command

from gardens.services import pairing
from gardens.services.pairing import mint_token
from tests.phones import Phone, new_id


def pair(token, phone=None):
    phone = phone or Phone(None)
    sent = {"token": token, "device": phone.device, "device_name": "New phone"}
    return phone.post("pair", sent)


def test_a_signed_in_phone_lets_the_next_one_in(phone):
    made = phone.post("pairings", {}).json()
    assert made["url"] == f"http://testserver/pair#{made['token']}"
    left = datetime.fromisoformat(made["expires_at"]) - datetime.now().astimezone()
    assert timedelta(minutes=14) < left <= timedelta(minutes=15)
    new = Phone(None, garden=phone.garden)
    answer = pair(made["token"], new)
    assert answer.status_code == 200
    assert answer.json()["account"] == phone.get("me").json()["account"]
    new.csrf = answer.json()["csrf"]
    assert new.records() == phone.records()
    assert new.send().status_code == 200


def test_a_code_works_once(grower):
    token = mint_token(grower)
    assert pair(token).status_code == 200
    answer = pair(token)
    assert (answer.status_code, answer.json()["code"]) == (403, "pair_token_ended")


def test_a_code_ends_after_a_quarter_of_an_hour(grower, monkeypatch):
    token = mint_token(grower)
    monkeypatch.setattr(pairing, "LIFETIME", timedelta(seconds=-1))
    assert pair(token).json()["code"] == "pair_token_ended"


@pytest.mark.parametrize("token", ["x", "a:b:c", "W10:1xVzz2:sig"])
def test_a_damaged_code_is_refused(grower, token):
    assert pair(token).json()["code"] == "pair_token_ended"


def test_a_code_for_an_account_that_was_closed_is_refused(grower):
    token = mint_token(grower)
    grower.is_active = False
    grower.save()
    assert pair(token).json()["code"] == "pair_token_ended"


def test_guessing_codes_is_slowed_down(grower):
    for _ in range(100):
        pair("guess")
    assert pair(mint_token(grower)).json()["code"] == "slow_down"


def test_a_stranger_cannot_make_a_code(stranger):
    assert stranger.post("pairings", {}).json()["code"] == "login_needed"


def test_the_command_prints_a_link_that_works(grower, capsys):
    call_command("pairing_link", origin="http://garden.example/")
    link = capsys.readouterr().out.strip()
    assert link.startswith("http://garden.example/pair#")
    assert pair(link.split("#")[1]).status_code == 200


def test_the_command_asks_which_account_is_meant(grower, neighbour, capsys):
    with pytest.raises(CommandError, match="several accounts"):
        call_command("pairing_link", origin="http://garden.example")
    call_command("pairing_link", origin="http://garden.example", username="neighbour")
    assert "#" in capsys.readouterr().out


def test_the_command_says_when_there_is_no_account(db):
    with pytest.raises(CommandError, match="no such account"):
        call_command("pairing_link", origin="http://garden.example")


def test_a_device_keeps_its_newest_name(grower):
    device = new_id()
    for name in ("old", "new"):
        Phone(None).post(
            "pair", {"token": mint_token(grower), "device": device, "device_name": name}
        )
    assert list(grower.devices.values_list("name", flat=True)) == ["new"]
