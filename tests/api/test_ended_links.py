import hashlib
from datetime import timedelta

import pytest
from django.utils import timezone

from gardens.models import GallRating, Garden, Helper, JournalEntry, Share
from tests.api import test_papers as papers
from tests.api.test_blobs import announce, encoded, fetched, put
from tests.phones import MOMENT, Phone, bed, item, new_id, rating


@pytest.fixture
def ana(phone):
    """A helper who was let in to rate."""
    return phone.lend("rater")


def end(phone, **how):
    (share,) = phone.get(phone.path("shares")).json()
    query = "".join(f"?{name}={value}" for name, value in how.items())
    assert phone.delete(phone.path(f"shares/{share['id']}{query}")).status_code == 204


def expire(days_ago=0.0):
    ended = timezone.now() - timedelta(days=days_ago)
    Share.objects.update(expires_at=ended)


def held(phone, state=None):
    docs = {key: one["doc"] for key, one in phone.records("held").items()}
    return {key: doc for key, doc in docs.items() if state in (None, doc["state"])}


def decide(phone, state, only=None):
    """Settle what waits, in the order it came."""
    waiting = [one["id"] for one in phone.pull()["records"] if one["kind"] == "held"]
    chosen = [only] if only else waiting
    return phone.push(*[item("patch", "held", one, state=state) for one in chosen])["results"]


@pytest.mark.parametrize("how", ["revoked", "expired", "phone ended"])
def test_an_ended_link_reads_nothing_and_its_changes_are_held(phone, ana, how):
    if how == "revoked":
        end(phone)
    elif how == "expired":
        expire()
    else:
        phone.delete(phone.path(f"helpers/{Helper.objects.get().id}"))
    for path in ("pull", "briefing", "sheets/bed-map.pdf"):
        answer = ana.get(ana.path(path))
        assert (answer.status_code, answer.json()["code"]) == (403, "share_ended")
    result = ana.result(rating(new_id()))
    assert result["status"] == "held"
    assert not GallRating.objects.exists()
    assert JournalEntry.objects.get(seq=result["seq"]).kind == "held"


def test_a_held_change_says_who_made_it_when_and_why(phone, ana):
    end(phone)
    made = rating(new_id(), grade=7)
    ana.push(made)
    (doc,) = held(phone).values()
    assert (doc["op"], doc["kind"], doc["of"]["id"]) == ("put", "gall_rating", made["id"])
    assert (doc["by"], doc["by_device"], doc["at"]) == ("Ana", "iPhone", MOMENT)
    assert (doc["why"], doc["state"], doc["mid"]) == ("link_ended", "waiting", made["mid"])
    assert doc["set"]["reading"]["grade"] == 7


def test_a_held_change_sent_again_is_a_duplicate(phone, ana):
    end(phone)
    made = rating(new_id())
    first, again = ana.result(made), ana.result(made)
    assert again == {**first, "status": "duplicate", "was": "held"}
    assert len(held(phone)) == 1


def test_accepting_applies_the_change_as_its_authors_own(phone, ana):
    end(phone)
    made = rating(new_id(), grade=7)
    ana.push(made)
    (result,) = decide(phone, "accepted")
    assert result["status"] == "applied"
    told = phone.records("gall_rating")[made["id"]]
    assert (told["by"], told["doc"]["reading"]["grade"]) == ("Ana", 7)
    stored = GallRating.objects.get()
    assert (stored.created_by, str(stored.device)) == (Helper.objects.get().account, ana.device)
    (doc,) = held(phone).values()
    assert (doc["state"], doc["closed_by"]) == ("accepted", "grower, phone")


def test_a_record_and_its_correction_are_accepted_together(phone, ana):
    end(phone)
    made = rating(new_id())
    ana.push(made, item("patch", "gall_rating", made["id"], note="second root"))
    assert [one["status"] for one in decide(phone, "accepted")] == ["applied", "applied"]
    assert phone.records()[made["id"]]["doc"]["note"] == "second root"


def test_a_correction_of_what_was_not_accepted_waits(phone, ana):
    end(phone)
    made = rating(new_id())
    ana.push(made, item("patch", "gall_rating", made["id"], note="second root"))
    first, second = [one["id"] for one in phone.pull()["records"] if one["kind"] == "held"]
    (result,) = decide(phone, "accepted", only=second)
    assert (result["status"], result["code"]) == ("rejected", "not_found")
    assert len(held(phone, "waiting")) == 2
    decide(phone, "accepted", only=first)
    assert decide(phone, "accepted", only=second)[0]["status"] == "applied"


def test_declining_changes_nothing_and_can_be_taken_back(phone, ana):
    end(phone)
    ana.push(rating(new_id()))
    decide(phone, "declined")
    assert len(held(phone, "declined")) == 1
    assert not GallRating.objects.exists()
    decide(phone, "accepted")
    assert GallRating.objects.exists()


def test_what_was_accepted_stays_accepted(phone, ana):
    end(phone)
    ana.push(rating(new_id()))
    decide(phone, "accepted")
    (result,) = decide(phone, "declined")
    assert (result["status"], result["code"]) == ("rejected", "forbidden")
    assert "stays accepted" in result["message"]
    assert decide(phone, "accepted")[0]["status"] == "applied"
    assert JournalEntry.objects.filter(kind="gall_rating").count() == 1


def test_accepting_what_another_phone_has_changed_meanwhile_makes_a_conflict(phone, ana):
    made = rating(new_id())
    seen = ana.result(made)["seq"]
    end(phone)
    phone.push(item("patch", "gall_rating", made["id"], base=seen, note="by the gate"))
    ana.push(item("patch", "gall_rating", made["id"], base=seen, note="by the wall"))
    decide(phone, "accepted")
    (conflict,) = phone.records("conflict").values()
    assert (conflict["doc"]["kept"], conflict["doc"]["other"]) == ("by the gate", "by the wall")
    assert conflict["doc"]["other_by"] == "Ana, iPhone"


def test_a_held_deletion_is_applied_when_accepted(phone, ana):
    made = rating(new_id())
    seen = ana.result(made)["seq"]
    end(phone)
    assert ana.result(item("delete", "gall_rating", made["id"], base=seen))["status"] == "held"
    assert phone.records()[made["id"]]["deleted"] is False
    decide(phone, "accepted")
    assert phone.records()[made["id"]]["deleted"] is True


def test_what_the_role_never_allowed_is_refused_and_not_held(phone, ana):
    end(phone)
    assert ana.result(bed())["code"] == "forbidden"
    assert held(phone) == {}


def test_whoever_waits_for_a_decision_does_not_decide(phone):
    ed = phone.lend("editor")
    end(phone)
    ed.push(bed())
    waiting = next(iter(held(phone)))
    assert ed.result(item("patch", "held", waiting, state="accepted"))["code"] == "forbidden"


@pytest.mark.parametrize("role", ["viewer", "rater"])
def test_below_an_editor_nobody_sees_or_settles_what_is_held(phone, ana, role):
    end(phone)
    ana.push(rating(new_id()))
    waiting = next(iter(held(phone)))
    other = phone.lend(role, name="Bo")
    assert other.records("held") == {}
    result = other.result(item("patch", "held", waiting, state="accepted"))
    assert result["code"] == "forbidden"


def test_a_link_refused_for_later_takes_nothing_and_is_not_listed(phone, ana):
    end(phone, refuse_later=1)
    answer = ana.send(rating(new_id()))
    assert (answer.status_code, answer.json()["code"]) == (403, "share_ended")
    assert ana.get("gardens").json() == []
    assert held(phone) == {}


def test_refusing_can_be_added_after_the_end(phone, ana):
    end(phone)
    end(phone, refuse_later=1)
    assert ana.send(rating(new_id())).status_code == 403


def test_fourteen_days_after_the_end_nothing_is_taken_any_more(phone, ana):
    expire(days_ago=13.9)
    (listed,) = ana.get("gardens").json()
    assert (listed["state"], listed["role"]) == ("ended", "rater")
    assert ana.result(rating(new_id()))["status"] == "held"
    expire(days_ago=14.1)
    assert ana.send(rating(new_id())).json()["code"] == "share_ended"
    assert ana.get("gardens").json() == []


def test_a_new_link_to_the_same_garden_works_at_once(phone, ana):
    end(phone)
    made = rating(new_id())
    ana.push(made)
    ana.join(phone.make_link("rater"))
    assert ana.result(made)["was"] == "held"
    assert ana.result(rating(new_id()))["status"] == "applied"


def test_the_photo_of_a_held_rating_is_taken_and_shown_once_accepted(phone, ana):
    end(phone)
    data = encoded("JPEG")
    sha256 = hashlib.sha256(data).hexdigest()
    assert put(ana, sha256, data).json()["code"] == "no_photo_record"
    about = {"of": {"kind": "bed", "id": new_id()}, "sha256": sha256, "n_bytes": len(data)}
    shot = item("put", "photo", new_id(), **about, width_px=400, height_px=200, taken_at=MOMENT)
    assert ana.result(shot)["status"] == "held"
    assert put(ana, sha256, data).status_code == 201
    assert put(ana, sha256, data).status_code == 200
    decide(phone, "accepted")
    assert phone.records()[shot["id"]]["doc"]["blob"] == "stored"
    assert fetched(phone, sha256)[1].size == (400, 200)


def test_the_photo_of_a_record_sent_before_the_end_is_still_taken(phone, ana):
    data = encoded("JPEG")
    record, sha256 = announce(ana, data)
    end(phone)
    assert put(ana, sha256, data).status_code == 201
    assert phone.records()[record]["doc"]["blob"] == "stored"
    assert ana.get(ana.path(f"blobs/{sha256}")).json()["code"] == "share_ended"


def test_the_paper_of_a_record_sent_before_the_end_is_still_taken(phone):
    ed = phone.lend("editor")
    record = papers.announce(ed)
    end(phone)
    assert papers.put(ed).status_code == 201
    assert phone.records()[record]["doc"]["blob"] == "stored"
    assert papers.get(ed).json()["code"] == "share_ended"


def test_the_paper_of_a_held_record_is_taken_and_shown_once_accepted(phone):
    ed, other = phone.lend("editor"), phone.lend("editor", name="Bo")
    for share in phone.get(phone.path("shares")).json():
        phone.delete(phone.path(f"shares/{share['id']}"))
    assert papers.put(ed).json()["code"] == "no_paper_record"
    sent = papers.record_of()
    assert ed.result(sent)["status"] == "held"
    assert papers.put(other).json()["code"] == "no_paper_record"
    assert papers.put(ed).status_code == 201
    assert papers.put(ed).status_code == 200
    decide(phone, "accepted")
    assert phone.records()[sent["id"]]["doc"]["blob"] == "stored"
    assert b"".join(papers.get(phone).streaming_content) == papers.PDF


@pytest.mark.parametrize("how", ["refused", "too late", "rater"])
def test_no_paper_is_taken_from_whom_no_record_is(phone, how):
    ed = phone.lend("rater" if how == "rater" else "editor")
    papers.announce(phone)
    end(phone, **({"refuse_later": 1} if how == "refused" else {}))
    if how == "too late":
        Share.objects.update(ended_at=timezone.now() - timedelta(days=14.1))
    code = "forbidden" if how == "rater" else "share_ended"
    assert papers.put(ed).json()["code"] == code


def test_a_phone_that_is_behind_another_history_may_still_hand_in(phone, ana):
    ana.high = f"900.{'a' * 16}"
    assert ana.send().json()["code"] == "history_changed"
    end(phone)
    assert ana.send(rating(new_id())).json()["results"][0]["status"] == "held"


def test_ending_moves_no_head_and_no_other_helper(phone, ana):
    other = phone.lend("rater", name="Bo")
    before = Garden.objects.get().mark
    phone.delete(phone.path(f"helpers/{Helper.objects.get(name='Ana').id}"))
    assert Garden.objects.get().mark == before
    assert other.get_pull().status_code == 200
    assert Phone(None).open_link({"url": "#x"}).status_code == 403
