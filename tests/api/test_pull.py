import gzip
import json

from gardens.models import Garden
from tests.phones import Phone, bed, item, new_id


def test_a_pull_from_nothing_gives_every_record_once_in_order(phone):
    phone.push(bed(), bed())
    page = phone.pull()
    assert [one["seq"] for one in page["records"]] == [1, 2, 3]
    assert (page["cursor"], page["more"], page["head"]) == (3, False, phone.high)


def test_a_record_tells_who_made_it_and_which_change_set_each_field(phone):
    made = bed()
    phone.push(made, item("patch", "bed", made["id"], base=2, soil="clay"))
    record = phone.records()[made["id"]]
    assert (record["by"], record["device"]) == ("grower", phone.device)
    assert record["rev"]["name"] == 2
    assert record["rev"]["soil"] == 3


def test_a_changed_record_moves_to_its_newest_number(phone):
    made = bed()
    phone.push(made, bed(), item("patch", "bed", made["id"], base=2, soil="clay"))
    assert [one["id"] for one in phone.pull(cursor=3)["records"]] == [made["id"]]


def test_pages_together_hold_everything(phone):
    phone.push(*[bed() for _ in range(9)])
    cursor, found, more = 0, [], True
    while more:
        page = phone.pull(cursor=cursor, limit=4)
        assert len(page["records"]) <= 4
        cursor, more = page["cursor"], page["more"]
        found += page["records"]
    assert [one["seq"] for one in found] == list(range(1, 11))


def test_a_record_changed_between_two_pages_comes_later_and_is_never_missed(phone):
    made = [bed() for _ in range(4)]
    phone.push(*made)
    first = phone.pull(limit=2)
    phone.push(item("patch", "bed", made[3]["id"], base=5, soil="clay"))
    rest = phone.pull(cursor=first["cursor"])["records"]
    assert {one["id"] for one in first["records"] + rest} == {
        phone.garden,
        *(one["id"] for one in made),
    }


def test_the_page_never_reaches_beyond_the_head_that_was_read_first(phone, monkeypatch):
    from api.views import sync

    phone.push(bed())
    before = phone.high
    whole_page = sync.feed_page

    def commit_in_between(garden, cursor, limit):
        phone.push(bed())
        return whole_page(garden, cursor, limit)

    monkeypatch.setattr(sync, "feed_page", commit_in_between)
    page = phone.pull()
    assert (page["head"], page["cursor"], len(page["records"])) == (before, 2, 2)


def test_a_quiet_garden_gives_an_empty_page(phone):
    page = phone.pull(cursor=1)
    assert (page["records"], page["cursor"], page["more"]) == ([], 1, False)


def test_a_mark_of_another_history_is_noticed(phone):
    answer = phone.get_pull(cursor=1, high="1.0123456789abcdef")
    assert (answer.status_code, answer.json()["code"]) == (409, "history_changed")


def test_a_mark_of_this_history_is_welcome_however_old(phone):
    old = phone.high
    phone.push(bed())
    assert phone.get_pull(high=old).status_code == 200


def test_a_cursor_from_the_future_means_another_history(phone):
    assert phone.get_pull(cursor=99).status_code == 409


def test_a_cursor_from_before_the_purge_has_to_read_afresh(phone):
    phone.push(bed(), bed())
    Garden.objects.filter(id=phone.garden).update(purged_below=3)
    answer = phone.get_pull(cursor=2)
    assert (answer.status_code, answer.json()["code"]) == (410, "cursor_too_old")
    assert phone.get_pull(cursor=0).status_code == 200


def test_odd_numbers_in_the_address_are_named(phone):
    for asked in (
        {"cursor": "-1"},
        {"cursor": "1e3"},
        {"limit": "0"},
        {"limit": "501"},
        {"high": "x"},
        {"cursor": "9" * 30},
    ):
        answer = phone.get_pull(**asked)
        assert (answer.status_code, answer.json()["field"]) == (400, next(iter(asked)))


def test_a_neighbour_pulling_a_foreign_garden_learns_nothing(neighbours_phone, neighbour):
    foreign, unknown = neighbours_phone.get_pull(), Phone(neighbour).sign_in().get_pull()
    assert foreign.status_code == unknown.status_code == 404
    assert foreign.content == unknown.content


def test_a_stranger_is_asked_to_sign_in(stranger):
    assert stranger.get_pull().json()["code"] == "login_needed"


def test_a_garden_that_is_not_an_id_does_not_exist(phone):
    assert phone.get("gardens/mine/pull").status_code == 404
    assert phone.get(f"gardens/{new_id()}/pull").status_code == 404


def test_a_question_of_a_sample_that_nobody_answered_stays_unanswered(phone):
    of_the_bag = {"bed": new_id(), "code": "K7M2H", "purpose": "predict"}
    silent = item("put", "soil_sample", new_id(), **of_the_bag)
    without = item("put", "soil_sample", new_id(), **of_the_bag, has_roots=False)
    unsaid = item("put", "soil_sample", new_id(), **of_the_bag, has_roots=None)
    phone.push(silent, without, unsaid)
    found = [phone.records()[one["id"]]["doc"]["has_roots"] for one in (silent, without, unsaid)]
    assert found == [None, False, None]


def test_long_answers_of_pull_and_push_are_packed_for_a_phone_that_asks_for_it(phone):
    items = [bed() for _ in range(30)]
    pushed = phone.post(phone.path("push"), phone.envelope(*items), **{"Accept-Encoding": "gzip"})
    pulled = phone.get(f"{phone.path('pull')}?cursor=0", **{"Accept-Encoding": "gzip"})
    for answer in (pushed, pulled):
        assert answer["Content-Encoding"] == "gzip"
    assert len(json.loads(gzip.decompress(pulled.content))["records"]) == 31
