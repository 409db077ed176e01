"""A phone as the server sees it: signs in, keeps its mark, pushes and pulls."""

import gzip
import hashlib
import json
from uuid import uuid4

from django.test import Client

PASSWORD = "roots-and-soil-9"
MOMENT = "2031-06-14T09:30:00.000Z"


def new_id():
    """Return a new identifier as text."""
    return str(uuid4())


def item(op, kind, record, base=0, **values):
    """Return one change as a phone sends it."""
    change = {"mid": new_id(), "op": op, "kind": kind, "id": record, "base": base, "at": MOMENT}
    return change if op == "delete" else {**change, "set": values}


def bed(record=None, **values):
    """Return the making of a bed, 1.2 m by 4 m unless told otherwise."""
    shape = {"type": "rectangle", "width_cm": 120, "length_cm": 400}
    return item("put", "bed", record or new_id(), **{"name": "North bed", "shape": shape, **values})


def planting(bed_id, record=None, **values):
    """Return the making of a planting of okra with two plants."""
    return item(
        "put",
        "planting",
        record or new_id(),
        **{
            "bed": bed_id,
            "crop": "Okra",
            "grown": {"from_on": "2031-05-02", "to_on": None},
            "plants": [[20, 20], [20, 60]],
            **values,
        },
    )


def root_check(planting_id, record=None, **values):
    """Return the making of a root check of all plants."""
    chosen = {"how": "all", "every_k": None}
    return item(
        "put",
        "root_check",
        record or new_id(),
        **{"planting": planting_id, "checked_on": "2031-06-14", "chosen": chosen, **values},
    )


def rating(check_id, record=None, grade=3, plant=1, **values):
    """Return the making of a gall rating."""
    return item(
        "put",
        "gall_rating",
        record or new_id(),
        **{
            "root_check": check_id,
            "place": {"x_cm": 20, "y_cm": 20, "plant": plant},
            "reading": {
                "state": "rated",
                "grade": grade,
                "gall_scale": "pct10",
                "trace_only": False,
            },
            "rated_at": MOMENT,
            **values,
        },
    )


def photo(picture, **values):
    """Return the record of a photo with these bytes."""
    told = {
        "sha256": hashlib.sha256(picture).hexdigest(),
        "n_bytes": len(picture),
        "width_px": 1600,
        "height_px": 1200,
        "taken_at": MOMENT,
    }
    return item("put", "photo", new_id(), **told, **values)


class Phone:
    """One device of one account, looking at one garden."""

    def __init__(self, account, *, name="phone", garden=None):
        self.account = account
        self.name = name
        self.device = new_id()
        self.garden = garden or new_id()
        self.client = Client(enforce_csrf_checks=True)
        self.high = None
        self.csrf = ""

    def post(self, path, body, **headers):
        """Post JSON with the token this phone holds."""
        return self.client.post(
            f"/api/v1/{path}",
            body if isinstance(body, bytes) else json.dumps(body),
            content_type="application/json",
            headers={"X-CSRFToken": self.csrf, **headers},
        )

    def get(self, path, **headers):
        """Ask for something below /api/v1/."""
        return self.client.get(f"/api/v1/{path}", headers=headers)

    def head(self, path):
        """Ask whether something below /api/v1/ is there."""
        return self.client.head(f"/api/v1/{path}")

    def sign_in(self):
        """Sign in with the password."""
        body = {"username": self.account.username, "password": PASSWORD, "device": self.device}
        answer = self.post("login", {**body, "device_name": self.name})
        assert answer.status_code == 200, answer.content
        self.csrf = answer.json()["csrf"]
        return self

    def make_link(self, role="rater", **wanted):
        """Make a link to the garden, as its owner, and return what was answered."""
        body = {"role": role, "label": "", "expires_at": None, "max_devices": 5, **wanted}
        answer = self.post(self.path("shares"), body)
        assert answer.status_code == 201, answer.content
        return answer.json()

    def open_link(self, link, name="Ana"):
        """Post what is behind a link's hash mark and return the whole answer."""
        body = {"token": link["url"].split("#")[1], "device": self.device, "name": name}
        return self.post("join", {**body, "device_name": self.name})

    def join(self, link, name="Ana"):
        """Come in by a link, which must succeed."""
        answer = self.open_link(link, name)
        assert answer.status_code == 200, answer.content
        self.csrf, self.high = answer.json()["csrf"], None
        self.garden = answer.json()["garden"]
        return self

    def lend(self, role="rater", name="Ana", **wanted):
        """Make a link as the owner and return the phone of a helper who has come in by it."""
        return Phone(None, name="iPhone").join(self.make_link(role, **wanted), name)

    def delete(self, path):
        """Ask for something to be ended."""
        return self.client.delete(f"/api/v1/{path}", headers={"X-CSRFToken": self.csrf})

    def open_garden(self, **values):
        """Push a new garden."""
        made = item("put", "garden", self.garden, **{"name": "Behind the mill", **values})
        assert self.push(made)["results"][0]["status"] == "applied"
        return self

    def envelope(self, *items, **changed):
        """Return the body of a push."""
        body = {
            "proto": 1,
            "schema": 1,
            "device": self.device,
            "sent_at": MOMENT,
            "high": self.high,
            "mutations": list(items),
        }
        return {**body, **changed}

    def send(self, *items, packed=False, **changed):
        """Push items and return the whole answer."""
        body = json.dumps(self.envelope(*items, **changed)).encode()
        if packed:
            return self.post(self.path("push"), gzip.compress(body), **{"Content-Encoding": "gzip"})
        return self.post(self.path("push"), body)

    def push(self, *items):
        """Push items, which must be taken as a request, and remember the mark."""
        answer = self.send(*items)
        assert answer.status_code == 200, answer.content
        self.high = answer.json()["head"]
        return answer.json()

    def result(self, one):
        """Push one item and return its result."""
        return self.push(one)["results"][0]

    def pull(self, cursor=0, **asked):
        """Pull a page, which must succeed."""
        answer = self.get_pull(cursor=cursor, **asked)
        assert answer.status_code == 200, answer.content
        return answer.json()

    def get_pull(self, **asked):
        """Pull a page and return the whole answer."""
        return self.client.get(f"/api/v1/{self.path('pull')}", asked)

    def path(self, what):
        """Return the address of something of this garden."""
        return f"gardens/{self.garden}/{what}"

    def records(self, kind=None):
        """Pull everything and return it by id."""
        found = self.pull()["records"]
        return {one["id"]: one for one in found if kind in (None, one["kind"])}
