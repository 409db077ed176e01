import io
import json
from pathlib import Path

import jsonschema
import pytest
import yaml
from django.core.management import call_command

from tests.phones import Phone, bed, item, new_id, planting, rating, root_check

FILE = Path(__file__).resolve().parents[2] / "api" / "openapi.yaml"


@pytest.fixture(scope="module")
def described():
    return with_null(yaml.safe_load(FILE.read_text()))


def with_null(part):
    """The description in plain JSON Schema, which has no word "nullable"."""
    if isinstance(part, list):
        return [with_null(one) for one in part]
    if not isinstance(part, dict):
        return part
    told = {name: with_null(one) for name, one in part.items()}
    return {"anyOf": [told, {"type": "null"}]} if told.get("nullable") is True else told


def check(described, answer, path, verb, status, kind="application/json"):
    assert answer.status_code == status, answer.content
    responses = described["paths"][path][verb]["responses"]
    shape = responses[str(status)]["content"][kind]["schema"]
    whole = {**shape, "components": described["components"]}
    jsonschema.validate(json.loads(answer.content), whole)


def test_the_description_is_up_to_date(tmp_path):
    fresh = tmp_path / "openapi.yaml"
    errors = io.StringIO()
    call_command("spectacular", file=str(fresh), validate=True, fail_on_warn=True, stderr=errors)
    assert fresh.read_text() == FILE.read_text()


def test_every_address_is_described(described):
    from api.urls import api_urls, garden_urls

    assert len(described["paths"]) == len(api_urls) - 1 + len(garden_urls)


def test_answers_have_the_shapes_that_are_described(described, phone, tablet):
    check(described, phone.get("meta"), "/api/v1/meta", "get", 200)
    check(described, phone.get("me"), "/api/v1/me", "get", 200)
    check(described, phone.get("gardens"), "/api/v1/gardens", "get", 200)
    check(described, phone.post("pairings", {}), "/api/v1/pairings", "post", 200)
    made = bed()
    phone.push(made, item("patch", "bed", made["id"], base=2, name="A"))
    clash = item("patch", "bed", made["id"], base=2, name="B")
    pushed = tablet.send(clash, bed(name=""), clash)
    check(described, pushed, "/api/v1/gardens/{garden}/push", "post", 200)
    assert {one["status"] for one in pushed.json()["results"]} == {
        "conflict",
        "rejected",
        "duplicate",
    }
    check(described, phone.get_pull(), "/api/v1/gardens/{garden}/pull", "get", 200)


def test_links_phones_and_histories_have_the_shapes_that_are_described(described, phone):
    garden = "/api/v1/gardens/{garden}"
    link = phone.make_link("editor")
    ana = Phone(None)
    check(described, ana.open_link(link), "/api/v1/join", "post", 200)
    check(described, phone.get(phone.path("shares")), f"{garden}/shares", "get", 200)
    wanted = {"role": "viewer", "label": "", "expires_at": None, "max_devices": 1}
    check(described, phone.post(phone.path("shares"), wanted), f"{garden}/shares", "post", 201)
    told = phone.get(phone.path(f"history?record={phone.garden}"))
    check(described, told, f"{garden}/history", "get", 200)
    check(described, phone.get("devices"), "/api/v1/devices", "get", 200)
    check(described, phone.post("codes", {}), "/api/v1/codes", "post", 200)


def test_a_briefing_has_the_shape_that_is_described(described, phone):
    own, planted, checked = new_id(), new_id(), new_id()
    ratings = [rating(checked, grade=grade, plant=grade + 1) for grade in range(11)]
    checking = root_check(planted, checked, chosen={"how": "random", "every_k": None})
    phone.push(bed(), bed(own), planting(own, planted), checking, *ratings)
    told = phone.get(phone.path("briefing?today=2031-07-01"))
    check(described, told, "/api/v1/gardens/{garden}/briefing", "get", 200)


@pytest.mark.parametrize(("asked", "status"), [({"limit": "x"}, 400), ({"cursor": "9"}, 409)])
def test_problems_have_the_shape_that_is_described(described, phone, asked, status):
    answer = phone.get_pull(**asked)
    assert answer.headers["Content-Type"] == "application/problem+json"
    check(
        described,
        answer,
        "/api/v1/gardens/{garden}/pull",
        "get",
        status,
        "application/problem+json",
    )
