"""What phones of released versions send, kept as they sent it; it is taken for good.

Made-up records of our own, in the shape of schema 1, the only one released so far.
"""

import json
from pathlib import Path

from gardens.models import Bed, JournalEntry
from tests.phones import Phone

SENT = json.loads((Path(__file__).parent / "pushed_by_schema_1.json").read_text(encoding="utf-8"))


def test_a_phone_of_schema_1_is_taken_as_it_is(grower):
    phone = Phone(grower, garden=SENT["garden"])
    phone.device = SENT["push"]["device"]
    phone.sign_in()
    answer = phone.post(phone.path("push"), SENT["push"])
    assert answer.status_code == 200, answer.content
    statuses = [result["status"] for result in answer.json()["results"]]
    assert statuses == ["applied"] * len(SENT["push"]["mutations"])
    assert Bed.objects.filter(name="Renamed").exists()
    again = phone.post(phone.path("push"), SENT["push"]).json()
    assert {result["status"] for result in again["results"]} == {"duplicate"}
    assert JournalEntry.objects.count() == len(statuses)


def test_every_kind_a_phone_makes_is_in_what_was_kept():
    kinds = {mutation["kind"] for mutation in SENT["push"]["mutations"]}
    assert kinds >= {"garden", "bed", "planting", "root_check", "gall_rating", "photo"}
    assert kinds >= {"lab_profile", "soil_sample"}
