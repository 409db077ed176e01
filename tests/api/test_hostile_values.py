import json
from collections.abc import Mapping

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from gardens.domain import records
from gardens.services.demo import RECORDS
from tests.phones import MOMENT, bed, item, new_id

DEMO = json.loads(RECORDS.read_text(encoding="utf-8"))
MADE = {one["kind"]: one["set"] for one in DEMO["mutations"] if one["op"] == "put"}
MADE["photo"] = {
    "of": {"kind": "bed", "id": new_id()},
    "sha256": "a" * 64,
    "n_bytes": 9,
    "width_px": 4,
    "height_px": 2,
    "taken_at": MOMENT,
}
MADE["paper"] = {
    "of": {"kind": "soil_sample", "id": new_id()},
    "name": "report.pdf",
    "sha256": "b" * 64,
    "n_bytes": 9,
}
KINDS = sorted(MADE.keys() - {"garden"})

DEEP = 1
for _ in range(12):
    DEEP = [DEEP]
HOSTILE = [
    None,
    True,
    0,
    -1,
    2**31,
    2**63 - 1,
    -(2**63),
    0.1,
    -0.0,
    1e308,
    5e-324,
    "",
    " ",
    "x" * 20_000,
    "a\x00b",
    "wet \ud83d",
    "\u202enote",
    "\uffff\ufdd0",
    "=HYPERLINK(1)",
    "'; drop table gardens_bed; --",
    "2031-02-30",
    "0000-00-00",
    "9999-12-31T23:59:60.000Z",
    "2031-06-14T09:30:00+23:59",
    "٣",
    new_id().upper(),
    [],
    [None],
    [[]] * 300,
    {},
    {"type": "rectangle"},
    {"\x00": 1},
    DEEP,
]


def spoiled(values):
    """The same values with one of them, or one part of one, replaced by something hostile."""
    for name, value in values.items():
        for odd in HOSTILE:
            yield {**values, name: odd}
            if isinstance(value, Mapping):
                yield from ({**values, name: {**value, part: odd}} for part in value)
            elif isinstance(value, list) and value:
                yield {**values, name: [odd, *value[1:]]}


def pushed(phone, items):
    """Push items in batches that are never too large, and return the results."""
    results, batch, size = [], [], 0
    for one in [*items, None]:
        length = len(json.dumps(one))
        if batch and (one is None or len(batch) == 150 or size + length > 450_000):
            answer = phone.send(*batch)
            assert answer.status_code == 200, answer.content
            results += answer.json()["results"]
            batch, size = [], 0
        batch.append(one)
        size += length
    return results


@pytest.fixture(autouse=True)
def _no_allowance(settings):
    endless = {"window_s": 60, "most_times": 2**40, "most_a_day": 2**40}
    settings.ALLOWANCES = dict.fromkeys(settings.ALLOWANCES, endless)


def test_every_kind_that_a_phone_makes_is_tried():
    assert {name for name, kind in records.KINDS.items() if not kind.server_made} == set(MADE)


@pytest.mark.parametrize("kind", KINDS)
def test_any_field_with_any_hostile_value_is_judged_alone(phone, kind):
    wanted = [item("put", kind, new_id(), **values) for values in spoiled(MADE[kind])]
    results = pushed(phone, [*wanted, bed()])
    assert [one["mid"] for one in results[:-1]] == [one["mid"] for one in wanted]
    assert {one["status"] for one in results} <= {"applied", "rejected"}
    assert not [one for one in results if one.get("code") == "unstorable"]
    assert results[-1]["status"] == "applied"


@pytest.mark.parametrize("kind", KINDS)
def test_what_was_taken_comes_back_as_something_that_would_be_taken_again(phone, kind):
    wanted = [item("put", kind, new_id(), **values) for values in spoiled(MADE[kind])]
    taken = [one["status"] == "applied" for one in pushed(phone, wanted)]
    cursor, docs = 0, {}
    while True:
        page = phone.pull(cursor=cursor)
        docs |= {one["id"]: one["doc"] for one in page["records"]}
        cursor = page["cursor"]
        if not page["more"]:
            break
    for one, was_taken in zip(wanted, taken, strict=True):
        assert (one["id"] in docs) is was_taken
        if was_taken:
            own = {name: docs[one["id"]][name] for name in one["set"]}
            assert records.checked_set(kind, own, creating=True)


@pytest.mark.parametrize("kind", KINDS)
def test_a_field_nobody_knows_is_named_and_nothing_is_stored(phone, kind):
    odd = [
        item("put", kind, new_id(), **{**MADE[kind], name: 1})
        for name in ("seq", "created_by", "garden_id", "fver", "__class__", "Name")
    ]
    results = pushed(phone, odd)
    assert {one["code"] for one in results} == {"unknown_field"}
    assert {*phone.records()} == {phone.garden}


TEXTS = st.text(st.characters(codec=None), max_size=30)
JSON = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**63), 2**63 - 1)
    | TEXTS
    # Numbers beyond a double and NaN are no JSON; the parser refuses them before.
    | st.floats(allow_nan=False, allow_infinity=False),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXTS, inner, max_size=4),
    max_leaves=12,
)
PARTS = ("mid", "op", "kind", "id", "base", "at", "set")


@st.composite
def odd_items(draw):
    """A change a phone could have sent, with some of its parts replaced by anything."""
    kind = draw(st.sampled_from(sorted(MADE)))
    whole = item(draw(st.sampled_from(["put", "patch"])), kind, new_id(), **MADE[kind])
    for part in draw(st.lists(st.sampled_from(PARTS), max_size=2)):
        whole[part] = draw(JSON)
    if isinstance(whole["set"], dict) and draw(st.booleans()):
        name = draw(st.sampled_from(sorted(MADE[kind])) | TEXTS)
        whole["set"] = {**whole["set"], name: draw(JSON)}
    return whole


def sent(phone, body):
    answer = phone.post(phone.path("push"), json.dumps(body).encode())
    assert answer.status_code in (200, 400, 403, 409, 413), answer.content
    return answer.json()


CALM = {
    "deadline": None,
    "max_examples": 60,
    "suppress_health_check": [HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
}


@settings(**CALM)
@given(items=st.lists(odd_items() | JSON, max_size=6))
def test_no_items_whatever_stop_the_push(phone, items):
    told = sent(phone, phone.envelope(*items, bed()))
    assert len(told["results"]) == len(items) + 1
    assert told["results"][-1]["status"] == "applied"


@settings(**CALM)
@given(
    name=st.sampled_from(["proto", "schema", "device", "sent_at", "high", "mutations"]), odd=JSON
)
def test_no_envelope_whatever_makes_the_server_fail(phone, name, odd):
    sent(phone, phone.envelope(bed(), **{name: odd}))


@settings(**CALM)
@given(body=JSON)
def test_no_body_whatever_makes_the_server_fail(phone, body):
    sent(phone, body)
