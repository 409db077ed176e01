"""Who asks a running server: one table of them, and how each comes in."""

import http.client
import json
from dataclasses import dataclass

from gardens.domain.roles import LENT_ROLES
from gardens.services.demo import DEMO_USERNAME
from tests.bench.scene import GARDEN, new_id
from tests.end_to_end.demo_garden import DEMO_PASSWORD

ASKERS = ("nobody", *LENT_ROLES, "owner")


@dataclass(frozen=True)
class Session:
    """What a phone holds after it has come in; empty for somebody who has not."""

    device: str
    cookie: str = ""
    token: str = ""

    @property
    def headers(self) -> dict[str, str]:
        """What it sends with every request."""
        return {"Cookie": self.cookie, "X-CSRFToken": self.token} if self.cookie else {}


def come_in(port: int, who: str) -> Session:
    """Return a new session of one of the askers, looking at the demo garden."""
    if who == "nobody":
        return Session(new_id())
    owner = _enter(port, "login", username=DEMO_USERNAME, password=DEMO_PASSWORD)
    if who == "owner":
        return owner
    wanted = {"role": who, "label": who, "expires_at": None, "max_devices": 1}
    link, _ = _post(port, f"gardens/{GARDEN}/shares", wanted, owner.headers)
    return _enter(port, "join", token=link["url"].split("#")[1], name=who)


def _enter(port: int, address: str, **given: str) -> Session:
    device = new_id()
    body = {"device": device, "device_name": "Asker", **given}
    told, cookie = _post(port, address, body, {})
    return Session(device, cookie.split(";")[0], told["csrf"])


def _post(port: int, address: str, body: dict, headers: dict[str, str]) -> tuple[dict, str]:
    line = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    kind = {"Content-Type": "application/json"}
    line.request("POST", f"/api/v1/{address}", json.dumps(body), kind | headers)
    answer = line.getresponse()
    told = json.loads(answer.read())
    assert answer.status in (200, 201), told
    return told, answer.getheader("Set-Cookie") or ""
