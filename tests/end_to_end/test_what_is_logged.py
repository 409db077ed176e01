import gzip
import re

import pytest

from tests.bench.scene import GARDEN, Caller, new_id
from tests.end_to_end.demo_garden import DEMO_PASSWORD
from tests.end_to_end.server import Server

MARK = "radish-never-said"
STATUS = re.compile(r": (\d{3}) ")


@pytest.fixture
def failing_server(server, web_app):
    """The demo garden's server once more, with a fault in it."""
    server.stop()
    settings = "tests.end_to_end.failing_settings"
    failing = Server(server.data, web_app, DJANGO_SETTINGS_MODULE=settings)
    failing.start()
    yield failing
    failing.put_away()


def said(server):
    """Everything the server has written, once it has ended."""
    server.stop()
    return server.log.read_text(errors="replace")


def status(caller, *request):
    """Ask, and return the status alone."""
    caller.line.close()  # a line whose last request was refused unread may be closed over there
    try:
        caller.ask(*request)
    except RuntimeError as refused:
        return int(STATUS.search(str(refused))[1])
    return 200


def strangers_requests():
    device = {"device": new_id(), "device_name": f"{MARK} phone"}
    yield "/login", {"username": f"{MARK}-name", "password": f"{MARK}-word", **device}
    yield "/login", {"username": "demo", "password": f"{MARK}-word", **device}
    yield "/pair", {"token": f"{MARK}-token", **device}
    yield "/pair", {"code": f"{MARK}-code", **device}
    yield "/join", {"token": f"{MARK}-token", "name": f"{MARK} Ana", **device}
    yield "/login", f'{{"password":"{MARK}'.encode()
    yield "/nowhere", {"note": MARK}


def growers_requests(caller):
    envelope = {"proto": 1, "schema": 1, "device": caller.device, "sent_at": None, "high": None}
    shape = {"type": "rectangle", "width_cm": 100, "length_cm": 100}
    for values in ({"name": f"{MARK} bed", "shape": shape}, {"name": MARK, "shape": MARK}):
        change = {"mid": new_id(), "op": "put", "kind": "bed", "id": new_id(), "base": 0}
        yield "/push", {**envelope, "mutations": [{**change, "at": None, "set": values}]}
    yield "/push", {**envelope, "device": new_id(), "mutations": [{"note": MARK}]}
    yield "/push", {**envelope, MARK: MARK}
    yield "/push", f'{{"note":"{MARK}"'.encode()
    yield "/push", gzip.compress(MARK.encode())
    yield "/shares", {"role": MARK, "label": MARK, "expires_at": None, "max_devices": 1}
    yield "/shares", {"role": "rater", "label": MARK, "expires_at": None, "max_devices": 1}


def test_nothing_anybody_sends_is_written_into_the_log(failing_server):
    caller = Caller(failing_server)
    cookie, token = caller.headers["Cookie"].split("=")[1], caller.headers["X-CSRFToken"]
    statuses = {status(caller, "POST", *asked) for asked in strangers_requests()}
    statuses |= {
        status(caller, "POST", f"/gardens/{GARDEN}{path}", body)
        for path, body in growers_requests(caller)
    }
    for asked in (f"answers/compost_layer?depth={MARK}", f"pull?high={MARK}", f"history?{MARK}"):
        statuses.add(status(caller, "GET", f"/gardens/{GARDEN}/{asked}"))
    statuses.add(status(caller, "POST", f"/login?fail=cause&{MARK}", {"password": MARK}))
    assert {200, 400, 401, 403, 500} <= statuses
    log = said(failing_server)
    assert [one for one in (MARK, DEMO_PASSWORD, cookie, token) if one in log] == []
    # What is needed to find the fault is there: the address, the kind of error, the line.
    assert "Internal Server Error: /api/v1/login" in log
    assert "builtins.RuntimeError\n" in log and "builtins.KeyError\n" in log
    assert 'failing_settings.py", line ' in log
