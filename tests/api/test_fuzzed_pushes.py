import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from gardens.domain.records import KINDS
from tests.anything import anything, nearly_right
from tests.domain.record_examples import RIGHT
from tests.phones import bed, item, new_id

ENVELOPE = ["proto", "schema", "device", "sent_at", "high", "mutations"]
STATUSES = {"applied", "conflict", "duplicate", "held", "rejected", "retry"}
ODD_VALUES = [
    *(None, True, False, "", " ", "x" * 81, "x" * 5000, "\x00", "\ud83d", "\u202e", "é" * 80),
    *(0, -1, 1, 2**31, -(2**31) - 1, 2**63 - 1, -(2**63), 0.5, -0.0, 1e300, 5e-324),
    *("2031-02-29", "0000-00-00", "9999-12-31T23:59:59Z", "2031-06-14T24:00:00Z", "00000000"),
    *([], [[]], [None], [[2**63 - 1, 2**63 - 1]], [1] * 2000, {}, {"": {}}, {"type": "outline"}),
]
fuzzed = settings(
    max_examples=60,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)


@pytest.fixture(autouse=True)
def _no_allowance(settings):
    endless = {"window_s": 60, "most_times": 10**9, "most_a_day": 10**15}
    settings.ALLOWANCES = dict.fromkeys(settings.ALLOWANCES, endless)


def post(phone, body):
    """Send a body and return its results; None when it was refused whole."""
    answer = phone.post(phone.path("push"), body)
    told = json.loads(answer.content)
    assert answer.status_code in (200, 400, 403, 409, 413), told
    if answer.status_code != 200:
        return None
    for one in told["results"]:
        assert one["status"] in STATUSES
        # The rules of the core come before those of the tables, and let nothing through to them.
        assert one.get("code") != "unstorable", one
    return told["results"]


def changed_item(draw):
    kind, doc = draw(nearly_right())
    made = item("put", kind, new_id(), **doc)
    if draw(st.booleans()):
        made[draw(st.sampled_from([*sorted(made), "more"]))] = draw(anything)
    return draw(st.sampled_from([made, made, made, draw(anything)]))


@fuzzed
@given(st.data())
def test_good_items_are_taken_whatever_stands_between_them(phone, data):
    odd = [changed_item(data.draw) for _ in range(data.draw(st.integers(1, 6)))]
    body = json.dumps(phone.envelope(bed(), *odd, bed())).encode()
    results = post(phone, body)
    # Refused whole is only what is no JSON, like NaN; such a body has no items.
    if results is not None:
        assert len(results) == len(odd) + 2
        assert results[0]["status"] == results[-1]["status"] == "applied"


@fuzzed
@given(st.dictionaries(st.sampled_from(ENVELOPE), anything))
def test_an_envelope_of_anything_never_makes_the_server_fail(phone, parts):
    post(phone, json.dumps(phone.envelope(bed(), **parts)).encode())


@fuzzed
@given(st.data())
def test_bytes_out_of_place_never_make_the_server_fail(phone, data):
    body = bytearray(json.dumps(phone.envelope(bed(), bed())).encode())
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(body) - 1))
        body[at : at + data.draw(st.integers(0, 3))] = data.draw(st.binary(max_size=3))
    post(phone, bytes(body))


@pytest.mark.parametrize("kind", sorted(RIGHT))
def test_every_field_is_judged_before_the_database_sees_it(phone, kind):
    odd = [(name, value) for name in KINDS[kind].fields for value in ODD_VALUES]
    items = [item("put", kind, new_id(), **{**RIGHT[kind], name: value}) for name, value in odd]
    if kind == "garden":
        items = [{**one, "id": phone.garden} for one in items]
    for start in range(0, len(items), 40):
        results = post(phone, json.dumps(phone.envelope(*items[start : start + 40])).encode())
        assert len(results) == len(items[start : start + 40])
