"""A server of the bench's own with the demo garden, and a caller that is signed in to it."""

import http.client
import json
import secrets
import sqlite3
import tempfile
import time
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from api.bootstrap.places import WEB_BUILD
from gardens.services.demo import DEMO_USERNAME, RECORDS
from tests.end_to_end.demo_garden import DEMO_PASSWORD
from tests.end_to_end.server import Server, manage

GARDEN = json.loads(RECORDS.read_text(encoding="utf-8"))["garden"]
BATCH = 200


@contextmanager
def running_server() -> Iterator[Server]:
    """Yield a running server on a fresh demo garden."""
    with tempfile.TemporaryDirectory(prefix="knotbed-bench-") as folder:
        data = Path(folder)
        manage(data, WEB_BUILD, "migrate", "--verbosity", "0")
        manage(data, WEB_BUILD, "load_demo", "--password", DEMO_PASSWORD)
        server = Server(data, WEB_BUILD)
        server.start()
        try:
            yield server
        finally:
            server.kill()


class Caller:
    """One signed-in device on one kept-alive connection."""

    def __init__(self, server: Server) -> None:
        self.line = http.client.HTTPConnection("127.0.0.1", server.port, timeout=60)
        self.headers = {"Content-Type": "application/json"}
        self.device = new_id()
        named = {"device": self.device, "device_name": "Bench"}
        answer = self.ask(
            "POST", "/login", named | {"username": DEMO_USERNAME, "password": DEMO_PASSWORD}
        )
        self.headers["X-CSRFToken"] = json.loads(answer)["csrf"]

    def ask(self, method: str, path: str, body: Any = None) -> bytes:
        """Make one request and return the body of its answer."""
        sent = None if body is None else json.dumps(body).encode()
        self.line.request(method, f"/api/v1{path}", sent, self.headers)
        answer = self.line.getresponse()
        content = answer.read()
        if answer.status not in (200, 201):
            raise RuntimeError(f"{method} {path}: {answer.status} {content[:300]!r}")
        cookie = answer.getheader("Set-Cookie")
        if cookie:
            self.headers["Cookie"] = cookie.split(";")[0]
        return content

    def send_paper(self, sha256: str, data: bytes) -> None:
        """Send the bytes of a PDF whose record has arrived."""
        headers = self.headers | {"Content-Type": "application/pdf"}
        self.line.request("PUT", f"/api/v1/gardens/{GARDEN}/papers/{sha256}", data, headers)
        answer = self.line.getresponse()
        content = answer.read()
        if answer.status != 201:
            raise RuntimeError(f"paper: {answer.status} {content[:300]!r}")

    def push(self, mutations: list[dict[str, Any]]) -> None:
        """Push one batch to the demo garden; every item has to be taken."""
        body = {"proto": 1, "schema": 1, "device": self.device, "sent_at": moment(), "high": None}
        answer = self.ask("POST", f"/gardens/{GARDEN}/push", body | {"mutations": mutations})
        refused = [r for r in json.loads(answer)["results"] if r["status"] != "applied"]
        if refused:
            raise RuntimeError(f"not taken: {refused[0]}")


def put(kind: str, record_id: str, **values: Any) -> dict[str, Any]:
    """Make the change that makes one record."""
    made = {"mid": new_id(), "op": "put", "kind": kind, "id": record_id, "base": 0}
    return made | {"at": moment(), "set": values}


def root_check(planting: str, record_id: str) -> dict[str, Any]:
    """Make the change that begins a check of every plant."""
    day, chosen = moment()[:10], {"how": "all", "every_k": None}
    return put("root_check", record_id, planting=planting, checked_on=day, chosen=chosen)


def ratings(n: int, check: str | None = None) -> list[dict[str, Any]]:
    """Make the changes that record so many ratings of one root check."""
    check = check or new_id()
    return [rating(check, number) for number in range(1, n + 1)]


def rating(check: str, number: int) -> dict[str, Any]:
    """Make the change that records one rating."""
    reading = {"state": "rated", "grade": number % 11, "gall_scale": "pct10", "trace_only": False}
    place = {"x_cm": number % 100, "y_cm": number // 100, "plant": None}
    values = {"root_check": check, "place": place, "reading": reading, "rated_at": moment()}
    return put("gall_rating", new_id(), **values)


def batches(items: list[Any]) -> list[list[Any]]:
    """Cut a list into pushes."""
    return [items[start : start + BATCH] for start in range(0, len(items), BATCH)]


def moment() -> str:
    """Return now as the wire writes it."""
    return time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime())


def new_id() -> str:
    """Return a UUIDv7, as a device makes it."""
    value = (int(time.time() * 1000) << 80) | secrets.randbits(80)
    value = value & ~(0xF << 76) | (7 << 76)
    value = value & ~(0x3 << 62) | (2 << 62)
    return str(uuid.UUID(int=value))


def stored_ratings(server: Server, ids: list[str]) -> tuple[list[str], list[tuple[Any, ...]]]:
    """Return the statements that make the table of ratings, and the stored rows of these ids."""
    with sqlite3.connect(server.data / "db.sqlite3") as file:
        schema = (
            "SELECT sql FROM sqlite_master WHERE tbl_name = 'gardens_gallrating' AND sql NOTNULL"
        )
        statements = [row[0] for row in file.execute(schema)]
        wanted = {uuid.UUID(one).hex for one in ids}
        rows = file.execute("SELECT * FROM gardens_gallrating").fetchall()
    return statements, [row for row in rows if wanted & {str(part) for part in row}]
