import gzip
import json
import zlib

import pytest
from django.db import OperationalError

from gardens.models import Bed, JournalEntry
from tests.phones import bed, item, new_id

DEEP = b'{"a":' * 80_000 + b"1" + b"}" * 80_000
UNREADABLE = {
    "not JSON": b"{",
    "not UTF-8": b'{"proto":"\xff"}',
    "NaN": b'{"proto":NaN}',
    "Infinity": b'{"proto":-Infinity}',
    "a double beyond all": b'{"proto":1e999}',
    "5,000 digits": b'{"proto":' + b"9" * 5000 + b"}",
    "10 to the 400": b'{"proto":1' + b"0" * 400 + b"}",
    "one beyond 64 bits": b'{"proto":9223372036854775808}',
    "80,000 deep": DEEP,
    "21 deep": b"[" * 21 + b"]" * 21,
    "a key twice": b'{"proto":1,"proto":2}',
    "a key twice, far inside": b'{"mutations":[{"set":{"note":"a","n\\u006fte":"b"}}]}',
    "a byte order mark": b'\xef\xbb\xbf{"proto":1}',
    "UTF-16": '{"proto":1}'.encode("utf-16"),
    "UTF-8 longer than it need be": b'{"proto":"\xc0\x80"}',
    "half an emoji in bytes": b'{"proto":"\xed\xa0\xbd"}',
    "a NUL between": b'{"proto":1,\x00}',
    "two texts": b"{}{}",
    "text after the end": b"{} more",
    "a comment": b'{"proto":1} // one',
    "a comma too many": b'{"proto":1,}',
    "single quotes": b"{'proto':1}",
    "a line break in a string": b'{"proto":"\n"}',
    "a number that begins with 0": b'{"proto":01}',
    "hexadecimal": b'{"proto":0x1}',
}
ENTRANCES = ["login", "pair", "join", "gardens/{garden}/shares"]


@pytest.mark.parametrize("body", UNREADABLE.values(), ids=UNREADABLE.keys())
def test_a_body_that_is_not_plain_json_is_refused_whole(phone, body):
    answer = phone.post(phone.path("push"), body)
    assert (answer.status_code, answer.json()["code"]) == (400, "bad_json")


@pytest.mark.parametrize("entrance", ENTRANCES)
def test_every_other_address_reads_as_strictly(phone, entrance):
    address = entrance.format(garden=phone.garden)
    for case, body in UNREADABLE.items():
        answer = phone.post(address, body)
        assert (answer.status_code, answer.json()["code"]) == (400, "bad_json"), case
    for body in (b"[]", b"1", b'"text"', b"null", b"[[]]", b"{}", b""):
        answer = phone.post(address, body)
        assert (answer.status_code, answer.json()["code"]) == (400, "bad_request"), body


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"proto": 2}, "proto"),
        ({"schema": True}, "schema"),
        ({"schema": 0}, "schema"),
        ({"device": None}, "device"),
        ({"device": "0199"}, "device"),
        ({"sent_at": "yesterday"}, "sent_at"),
        ({"high": 5}, "high"),
        ({"high": "1.zz"}, "high"),
        ({"mutations": {}}, "mutations"),
        ({"mutations": None}, "mutations"),
    ],
)
def test_an_envelope_that_cannot_be_read_names_its_field(phone, changed, field):
    answer = phone.send(**changed)
    assert (answer.status_code, answer.json()["field"]) == (400, field)


def test_unknown_keys_of_the_envelope_are_refused(phone):
    assert phone.send(extra=1).json()["code"] == "bad_request"
    assert phone.post(phone.path("push"), []).json()["code"] == "bad_request"
    assert phone.post(phone.path("push"), b"").json()["code"] == "bad_request"


def test_more_than_200_items_are_too_many(phone):
    answer = phone.send(*[{}] * 201)
    assert (answer.status_code, answer.json()["code"]) == (413, "batch_too_large")


def test_more_than_512_kilobytes_are_too_much(phone):
    answer = phone.post(phone.path("push"), b" " * 524_289)
    assert (answer.status_code, answer.json()["code"]) == (413, "batch_too_large")


def test_a_gzip_bomb_is_only_opened_as_far_as_allowed(phone):
    bomb = gzip.compress(b" " * 50_000_000)
    answer = phone.post(phone.path("push"), bomb, **{"Content-Encoding": "gzip"})
    assert (answer.status_code, answer.json()["code"]) == (413, "batch_too_large")


PACKED = gzip.compress(b"{}")
ODD_GZIP = {
    "not packed": b"plain",
    "cut off": PACKED[:-9],
    "cut in its last word": PACKED[:-1],
    "a wrong checksum": PACKED[:-8] + b"\x00" * 8,
    "another packing": zlib.compress(b"{}"),
    "two in one": PACKED * 2,
    "more after the end": PACKED + b"{}",
}


@pytest.mark.parametrize("body", ODD_GZIP.values(), ids=ODD_GZIP.keys())
def test_gzip_that_is_none_or_not_whole_is_refused(phone, body):
    answer = phone.post(phone.path("push"), body, **{"Content-Encoding": "gzip"})
    assert (answer.status_code, answer.json()["code"]) == (400, "bad_json")


def test_gzip_hides_no_depth_and_no_repeated_key(phone):
    for body in (DEEP, UNREADABLE["a key twice"]):
        packed = gzip.compress(body)
        answer = phone.post(phone.path("push"), packed, **{"Content-Encoding": "gzip"})
        assert answer.json()["code"] in ("bad_json", "batch_too_large")


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", "", "x"])
def test_a_body_that_does_not_call_itself_json_is_refused(phone, kind):
    answer = phone.client.post(
        f"/api/v1/{phone.path('push')}",
        json.dumps(phone.envelope(bed())),
        content_type=kind,
        headers={"X-CSRFToken": phone.csrf},
    )
    assert (answer.status_code, answer.json()["code"]) == (415, "not_json")


def test_the_fullest_push_that_is_allowed_is_taken(phone):
    made = [bed(note="\U0001f955" * 100) for _ in range(200)]
    assert {one["status"] for one in phone.push(*made)["results"]} == {"applied"}


def test_one_number_on_two_changes_of_a_push_is_told_at_the_second(phone):
    first = bed()
    results = phone.push(first, {**bed(), "mid": first["mid"]}, first)["results"]
    assert [one["status"] for one in results] == ["applied", "rejected", "duplicate"]
    assert results[1]["code"] == "mid_reused"


@pytest.mark.parametrize("packing", ["br", "deflate", "gzip, gzip", "GZIP;q=1"])
def test_an_unknown_packing_is_refused(phone, packing):
    answer = phone.post(phone.path("push"), b"{}", **{"Content-Encoding": packing})
    assert (answer.status_code, answer.json()["code"]) == (400, "bad_request")


def changed(**parts):
    return {**bed(), **parts}


POISON = {
    "a NUL in the name": bed(name="a\x00b"),
    "half an emoji": bed(name="wet \ud83d"),
    "half an emoji as a key": bed(**{"\ud83d": 1}),
    "a NUL as a key": bed(**{"\x00": 1}),
    "a note of a megabyte": bed(note="x" * 300_000),
    "a number as a name": bed(name=5),
    "a list as a kind": changed(kind=["bed"]),
    "an unknown kind": changed(kind="gate"),
    "an unknown op": changed(op="merge"),
    "an op that is a list": changed(op=["put"]),
    "an unknown part": changed(colour="red"),
    "an unknown part that cannot be written": changed(**{"\ud83d": 1}),
    "a number that is none": changed(mid="7"),
    "no number": changed(mid=None),
    "a number that cannot be written": changed(mid="\ud83d"),
    "a very long number": changed(mid="x" * 1000),
    "an id that is none": changed(id="bed-1"),
    "an id that is a list": changed(id=[1]),
    "a base before everything": changed(base=-1),
    "a base that is text": changed(base="1"),
    "a base that is true": changed(base=True),
    "a moment that is none": changed(at="noon"),
    "a moment that is a number": changed(at=5),
    "a set that is a list": changed(set=[]),
    "a set that is missing": {k: v for k, v in bed().items() if k != "set"},
    "a deletion with a set": {**bed(), "op": "delete"},
    "a shape without measures": bed(shape={"type": "rectangle"}),
    "a shape too deep": bed(shape={"type": "outline", "points_cm": [[[1]]]}),
    "an item that is a list": [],
    "an item that is text": "put",
    "an item that is null": None,
}


@pytest.mark.parametrize("poison", POISON.values(), ids=POISON.keys())
def test_a_poisonous_item_is_rejected_alone(phone, poison):
    good = bed(), bed()
    body = json.dumps(phone.envelope(good[0], poison, good[1])).encode()
    answer = phone.post(phone.path("push"), body)
    assert answer.status_code == 200, answer.content
    results = answer.json()["results"]
    assert [one["status"] for one in results] == ["applied", "rejected", "applied"]
    assert results[1]["message"].count(".") >= 2
    assert Bed.objects.count() == 2


def test_an_item_the_database_refuses_does_not_hold_up_the_others(phone, monkeypatch):
    from gardens.services import mutation

    # As if the judging of values had forgotten a rule that the table still holds.
    monkeypatch.setattr(mutation.records, "checked_set", lambda kind, set_, creating: dict(set_))
    good, poison = bed(), bed(depth_cm=9999)
    results = phone.push(good, poison, bed())["results"]
    assert [one["status"] for one in results] == ["applied", "rejected", "applied"]
    assert results[1]["code"] == "unstorable"
    assert [one["seq"] for one in results if "seq" in one] == [2, 3]
    assert list(JournalEntry.objects.order_by("seq").values_list("seq", flat=True)) == [1, 2, 3]


def test_a_database_in_trouble_is_no_fault_of_an_item(phone, monkeypatch):
    # As on a full disk: every write fails, also that of each item by itself. Set aside on the
    # phone, none of them would ever be sent again.
    from gardens.services.batch import Batch

    def full(self):
        raise OperationalError("database or disk is full")

    good = bed(), bed()
    with monkeypatch.context() as broken:
        broken.setattr(Batch, "write", full)
        answer = phone.send(*good)
    assert (answer.status_code, answer.json()["code"]) == (503, "database_away")
    assert [one["status"] for one in phone.push(*good)["results"]] == ["applied", "applied"]


def test_a_very_large_base_is_only_a_large_base(phone):
    made = bed()
    phone.push(made)
    assert phone.result(item("patch", "bed", made["id"], base=2**63 - 1, note="x"))["status"] == (
        "applied"
    )


def test_a_mid_given_back_is_the_one_that_was_sent(phone):
    wanted = new_id()
    assert phone.result({**bed(name=""), "mid": wanted})["mid"] == wanted
