import hashlib
from datetime import datetime, timedelta

import pytest
from django.contrib.auth import get_user_model
from django.utils import timezone

from gardens.domain.roles import rights_of
from gardens.models import Garden, Helper, Share
from tests.api.test_carrying import send
from tests.phones import Phone, bed, item, new_id, rating


def in_days(days):
    return (timezone.now() + timedelta(days=days)).isoformat()


def test_a_link_is_told_once_and_only_its_hash_is_kept(phone):
    made = phone.make_link("rater", label="Saturday", expires_at=in_days(7), max_devices=3)
    address, _, secret = made["url"].partition("#")
    assert (address, len(secret)) == ("http://testserver/join", 43)
    assert Share.objects.get().secret_hash == hashlib.sha256(secret.encode()).hexdigest()
    (listed,) = phone.get(phone.path("shares")).json()
    assert listed == {name: value for name, value in made.items() if name != "url"}
    assert (listed["role"], listed["label"], listed["max_devices"]) == ("rater", "Saturday", 3)


@pytest.mark.parametrize(
    "wrong",
    [
        {"role": "owner"},
        {"role": None},
        {"max_devices": 0},
        {"max_devices": 51},
        {"expires_at": "2020-01-01T00:00:00Z"},
        {"expires_at": "soon"},
        {"label": "x" * 81},
    ],
)
def test_a_link_that_cannot_be_is_not_made(phone, wrong):
    body = {"role": "rater", "label": "", "expires_at": None, "max_devices": 1, **wrong}
    answer = phone.post(phone.path("shares"), body)
    assert (answer.status_code, answer.json()["field"]) == (400, next(iter(wrong)))
    assert not Share.objects.exists()


def test_a_helper_comes_in_with_a_name_and_no_password(phone):
    ana = Phone(None, name="iPhone")
    answer = ana.open_link(phone.make_link("rater"), "Ana").json()
    assert answer["account"]["username"] == "Ana"
    assert answer["account"]["is_helper"] is True
    assert (answer["garden"], answer["garden_name"]) == (phone.garden, "Behind the mill")
    assert (answer["role"], answer["device"]) == ("rater", ana.device)
    account = Helper.objects.get().account
    assert not account.has_usable_password()
    assert ana.get("me").json()["account"] == answer["account"]


def test_a_helper_sees_the_garden_with_role_and_rights(phone):
    until = in_days(7)
    (told,) = phone.lend("viewer", expires_at=until).get("gardens").json()
    assert (told["id"], told["role"], told["state"]) == (phone.garden, "viewer", "live")
    assert told["rights"] == rights_of("viewer")
    ends = datetime.fromisoformat(told["expires_at"])
    assert abs(ends - datetime.fromisoformat(until)) < timedelta(seconds=1)
    assert datetime.fromisoformat(told["push_until"]) - ends == timedelta(days=14)


def test_everybody_reads_a_helpers_name_and_never_the_account_a_link_made(phone):
    made = bed()
    phone.push(made)
    ana = phone.lend("editor")
    dug = rating(new_id())
    seen = ana.push(dug)["results"][0]["seq"]
    phone.push(item("patch", "bed", made["id"], base=2, name="Long bed"))
    clash = ana.result(item("patch", "bed", made["id"], base=2, name="Dry bed"))
    conflict = clash["conflicts"][0]
    ana.push(item("patch", "conflict", conflict, base=seen, state="kept"))
    told = phone.records()
    assert told[dug["id"]]["by"] == "Ana"
    assert told[conflict]["by"] == "Ana"
    assert told[conflict]["doc"]["other_by"] == "Ana, iPhone"
    assert told[conflict]["doc"]["closed_by"] == "Ana, iPhone"
    assert told[made["id"]]["by"] == "grower"
    names = get_user_model().objects.values_list("username", flat=True)
    assert not [name for name in names if name != "grower" and name in str(told)]


def test_a_signed_in_account_keeps_itself_and_gains_the_garden(phone, neighbour):
    own = Phone(neighbour).sign_in().open_garden(name="Own")
    account = own.get("me").json()["account"]
    own.join(phone.make_link("editor"), "Bo")
    told = own.get("me").json()
    assert told["account"] == account
    assert {one["name"]: one["role"] for one in told["gardens"]} == {
        "Own": "owner",
        "Behind the mill": "editor",
    }
    made = bed()
    own.push(made)
    assert phone.records()[made["id"]]["by"] == "Bo"


def test_a_signed_in_phone_brings_its_token_and_its_own_device(phone, neighbour):
    link = phone.make_link()
    own = Phone(neighbour).sign_in()
    own.csrf, token = "wrong", own.csrf
    assert own.open_link(link).json()["code"] == "csrf"
    own.csrf, own.device = token, new_id()
    assert own.open_link(link).json()["code"] == "device_mismatch"


def test_the_owner_who_opens_the_link_stays_the_owner_and_takes_no_place(phone):
    answer = phone.open_link(phone.make_link("viewer")).json()
    assert answer["role"] == "owner"
    assert not Helper.objects.exists()


def test_of_two_links_the_stronger_counts(phone):
    ana = phone.lend("viewer")
    ana.join(phone.make_link("editor"))
    assert ana.get("me").json()["gardens"][0]["role"] == "editor"


def test_looking_at_a_link_does_not_use_it_up(phone):
    link = phone.make_link(max_devices=1)
    for _ in range(3):
        assert Phone(None).get("join").status_code == 405
    assert Phone(None).open_link(link).status_code == 200


def test_unknown_ended_and_expired_links_get_one_answer(phone):
    ended, expired = phone.make_link(), phone.make_link(expires_at=in_days(1))
    phone.delete(phone.path(f"shares/{ended['id']}"))
    Share.objects.filter(id=expired["id"]).update(expires_at=timezone.now())
    unknown = {"url": f"#{'x' * 43}"}
    answers = [Phone(None).open_link(link) for link in (ended, expired, unknown)]
    assert {one.status_code for one in answers} == {403}
    assert {one.json()["code"] for one in answers} == {"link_ended"}
    assert len({one.content for one in answers}) == 1


def test_guessing_links_is_slowed_down(phone):
    link = phone.make_link()
    for _ in range(10):
        Phone(None).open_link({"url": "#guess"})
    answer = Phone(None).open_link(link)
    assert (answer.status_code, answer.json()["code"]) == (429, "slow_down")
    assert answer.headers["Retry-After"] == "60"


def test_a_link_lets_in_as_many_phones_as_it_is_for(phone):
    link = phone.make_link(max_devices=2)
    first = Phone(None).join(link, "Ana")
    Phone(None).join(link, "Bo")
    answer = Phone(None).open_link(link, "Cy")
    assert (answer.status_code, answer.json()["code"]) == (403, "link_full")
    assert first.get("me").status_code == 200


def test_two_people_of_one_name_are_told_apart(phone, grower):
    link = phone.make_link("rater", max_devices=4)
    phones = [Phone(None).join(link, name) for name in ("Ana", "ana", "A" * 80, "A" * 80)]
    told = [one.get("me").json()["account"]["username"] for one in phones]
    assert told == ["Ana", "ana (2)", "A" * 80, "A" * 76 + " (2)"]
    other = Phone(None).join(phone.make_link("rater"), grower.username)
    assert other.get("me").json()["account"]["username"] == f"{grower.username} (2)"
    made = rating(new_id())
    phones[1].push(made)
    assert phone.records()[made["id"]]["by"] == "ana (2)"


def test_the_same_phone_opening_its_link_again_is_the_same_helper(phone):
    link = phone.make_link(max_devices=1)
    ana = Phone(None).join(link, "Ana")
    account = ana.get("me").json()["account"]["id"]
    again = Phone(None)
    again.device = ana.device
    assert again.join(link, "Anna").get("me").json()["account"]["id"] == account
    assert Helper.objects.get().name == "Anna"
    assert again.get("me").json()["account"]["username"] == "Anna"
    assert ana.get("me").status_code == 401, "a phone has one session"


def test_an_account_with_a_password_is_not_given_away_by_a_link(phone, neighbour):
    link = phone.make_link()
    own = Phone(neighbour).sign_in().join(link, "Bo")
    other = Phone(None)
    other.device = own.device
    assert other.open_link(link, "Cy").json()["account"]["is_helper"] is True
    assert own.get("me").json()["account"]["username"] == "neighbour"


def test_a_phone_that_was_ended_does_not_come_back_by_its_link(phone):
    link = phone.make_link()
    ana = Phone(None).join(link)
    (share,) = phone.get(phone.path("shares")).json()
    assert phone.delete(phone.path(f"helpers/{share['helpers'][0]['id']}")).status_code == 204
    assert ana.open_link(link).json()["code"] == "link_ended"
    assert Phone(None).open_link(link).status_code == 200


def test_the_owner_sees_who_came_in_and_when(phone):
    phone.lend("rater", name="Ana")
    (share,) = phone.get(phone.path("shares")).json()
    (told,) = share["helpers"]
    assert (told["name"], told["device_name"], told["ended_at"]) == ("Ana", "iPhone", None)
    assert told["joined_at"] and told["last_seen_at"]


def test_a_helper_learns_no_address_of_the_grower_nor_of_the_lab(phone):
    phone.push(
        item("patch", "garden", phone.garden, base=1, grower_address="Mill lane 3", note="wet"),
        item("put", "lab_profile", new_id(), name="Soil lab", address="Quay 9"),
    )
    tablet = Phone(phone.account, garden=phone.garden).sign_in()
    clash = item("patch", "garden", phone.garden, base=1, grower_address="Mill lane 4")
    assert tablet.result(clash)["status"] == "conflict"
    for role, hidden in (("viewer", True), ("rater", True), ("editor", False)):
        told = phone.lend(role).records()
        assert ("Mill lane" not in str(told)) is hidden
        assert ("Quay 9" not in str(told)) is hidden
        assert told[phone.garden]["doc"]["note"] == "wet"


def test_a_page_of_what_is_hidden_still_moves_the_cursor(phone):
    phone.push(*[item("put", "lab_profile", new_id(), name="Lab") for _ in range(3)], bed())
    ana = phone.lend("viewer")
    page = ana.pull(cursor=1, limit=2)
    assert (page["records"], page["more"], page["cursor"]) == ([], True, 3)
    assert [one["kind"] for one in ana.pull(cursor=3)["records"]] == ["bed"]


def test_which_phone_made_a_record_is_told_to_its_own_account_only(phone):
    made = bed()
    phone.push(made)
    assert phone.records()[made["id"]]["device"] == phone.device
    assert phone.lend("editor").records()[made["id"]]["device"] is None


def opened(phone):
    """Push a new garden and return the whole answer."""
    phone.garden, phone.high = new_id(), None
    return phone.send(item("put", "garden", phone.garden, name="Own"), bed())


def test_who_came_by_a_link_opens_three_gardens_and_then_none_is_known(phone):
    ana = phone.lend("editor")
    unknown = Phone(phone.account, garden=new_id()).sign_in().send(bed())
    for _ in range(3):
        assert {one["status"] for one in opened(ana).json()["results"]} == {"applied"}
    n_before = Garden.objects.count()
    answer = opened(ana)
    assert (answer.status_code, answer.content) == (404, unknown.content)
    assert Garden.objects.count() == n_before
    bo = phone.lend("rater", name="Bo")
    assert opened(bo).status_code == 200, "each account has its own three"


def test_an_account_of_its_own_opens_as_many_gardens_as_it_likes(phone, neighbour):
    own = Phone(neighbour).sign_in()
    own.join(phone.make_link("editor"), "Bo")
    for _ in range(5):
        assert opened(own).status_code == 200


def test_who_came_by_a_link_brings_no_gardens_file(phone):
    ana = phone.lend("editor")
    for path in ("arrivals", "arrivals?apply=1"):
        answer = send(ana, path, b"x")
        assert (answer.status_code, answer.json()["code"]) == (403, "forbidden")
