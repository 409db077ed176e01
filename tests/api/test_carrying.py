import base64
import json

import pytest

from gardens.demo.pictures import draw_root_photo
from gardens.models import Bed, GallRating, Garden, JournalEntry
from tests.api.test_papers import PDF, hash_of, record_of
from tests.gardens.carried import another_server, lived_in, taken_away
from tests.phones import Phone, bed, item, new_id, photo, planting, rating, root_check

pytestmark = pytest.mark.django_db


def send(phone, path, content, kind="application/zip"):
    return phone.client.post(
        f"/api/v1/{path}", content, content_type=kind, headers={"X-CSRFToken": phone.csrf}
    )


def test_a_garden_leaves_as_a_file_with_its_name(phone):
    answer = phone.get(phone.path("export.zip"))
    assert answer.status_code == 200
    assert answer["Content-Type"] == "application/zip"
    assert answer["Content-Disposition"] == 'attachment; filename="knotbed-behind-the-mill.zip"'
    assert b"".join(answer.streaming_content) == taken_away(phone.garden)


def test_a_stranger_and_another_grower_get_nothing(phone, neighbours_phone, stranger):
    assert neighbours_phone.get(phone.path("export.zip")).status_code == 404
    assert stranger.get(phone.path("export.zip")).status_code == 401
    assert send(stranger, "arrivals", b"x").status_code == 401
    path = phone.path("saved-files")
    assert send(neighbours_phone, path, b"{}", "application/json").status_code == 404
    assert send(stranger, path, b"{}", "application/json").status_code == 401


def test_an_arrival_is_first_told_and_then_brought(phone, tablet, neighbour):
    lived_in(phone, tablet)
    content = taken_away(phone.garden)
    another_server()
    other = Phone(neighbour, garden=phone.garden).sign_in()

    told = send(other, "arrivals", content).json()
    assert (told["state"], told["done"], told["name"]) == ("new", False, "Behind the mill")
    assert not Garden.objects.exists()

    assert send(other, "arrivals?apply=1", content).json()["done"] is True
    assert other.get("gardens").json()[0]["id"] == phone.garden
    assert send(other, "arrivals", content).json()["state"] == "same"


def test_the_garden_of_somebody_else_is_answered_like_one_that_is_not_there(
    phone, neighbours_phone
):
    content = taken_away(phone.garden)
    answer = send(neighbours_phone, "arrivals", content)
    assert answer.status_code == 404
    assert answer.json()["code"] == "not_found"


@pytest.mark.parametrize(
    ("content", "kind", "status", "code"),
    [
        (b"beans", "application/zip", 422, "archive_unreadable"),
        (b"{}", "application/json", 415, "not_archive"),
        (b"x" * 22, "application/zip", 422, "archive_unreadable"),
    ],
)
def test_what_is_not_a_gardens_file_is_refused_with_a_sentence(phone, content, kind, status, code):
    answer = send(phone, "arrivals", content, kind)
    assert (answer.status_code, answer.json()["code"]) == (status, code)
    assert "Nothing was brought" in answer.json()["detail"]


def test_a_file_that_is_too_large_is_not_read_to_its_end(phone, monkeypatch):
    monkeypatch.setattr("api.views.carrying.MOST_BYTES", 1000)
    answer = send(phone, "arrivals", b"x" * 1001)
    assert (answer.status_code, answer.json()["code"]) == (413, "archive_too_large")


def test_a_word_the_address_does_not_know_is_refused(phone):
    assert send(phone, "arrivals?apply=yes", b"x").json()["field"] == "apply"


@pytest.fixture
def check(phone):
    """A root check that a neighbour rated for."""
    made, row, check = bed(), new_id(), new_id()
    phone.push(made, planting(made["id"], row), root_check(row, check))
    return check


def saved(garden, changes, photos=(), name="Ana"):
    """Return the file of a phone, in the form its app writes it."""
    told = {
        "about": "…",
        "written_at": "2031-06-20T08:00:00.000Z",
        "account": {"id": new_id(), "username": name},
        "changes": [{"garden": garden, "refused": None, **one} for one in changes],
        "photos": [{"garden": garden, **one} for one in photos],
    }
    return json.dumps(told).encode()


def bring(phone, content):
    answer = send(phone, phone.path("saved-files"), content, "application/json")
    assert answer.status_code == 200, answer.content
    return answer.json()


def test_a_helpers_file_goes_in_under_the_helpers_name(phone, check):
    content = saved(phone.garden, [rating(check), rating(check, grade=7)])

    told = bring(phone, content)

    assert [one["status"] for one in told["results"]] == ["applied", "applied"]
    assert told["author"] == "Ana"
    by = {one["by"] for one in phone.records("gall_rating").values()}
    assert by == {"Ana (brought by grower)"}


def test_a_helpers_file_brought_twice_changes_nothing(phone, check):
    content = saved(phone.garden, [rating(check)])
    bring(phone, content)
    before = JournalEntry.objects.count()

    assert [one["status"] for one in bring(phone, content)["results"]] == ["duplicate"]
    assert JournalEntry.objects.count() == before


def test_what_had_reached_the_server_after_all_is_not_doubled(phone, check):
    sent = rating(check)
    phone.push(sent)
    told = bring(phone, saved(phone.garden, [sent]))
    assert [one["status"] for one in told["results"]] == ["duplicate"]
    assert GallRating.objects.count() == 1


def test_a_phone_that_sends_it_itself_later_doubles_nothing(phone, tablet, check):
    change = rating(check)
    bring(phone, saved(phone.garden, [change]))
    assert tablet.result(change)["status"] == "applied"
    assert GallRating.objects.count() == 1
    assert not phone.records("conflict")


def test_photos_of_the_file_come_too(phone, check):
    picture = draw_root_photo(seed=5, galled_pct=20)
    rated = rating(check)
    named = photo(picture, of={"kind": "gall_rating", "id": rated["id"]})
    held = {"sha256": named["set"]["sha256"], "base64": base64.b64encode(picture).decode()}
    bad = {"sha256": "0" * 64, "base64": "!"}

    told = bring(phone, saved(phone.garden, [rated, named], [held, bad]))

    assert told["photos"] == {"stored": 1, "here": 0, "refused": 1}
    assert phone.get(phone.path(f"blobs/{held['sha256']}")).status_code == 200


def in_file(data, **told):
    """Return bytes as a phone writes them to its file."""
    return {"sha256": hash_of(data), "base64": base64.b64encode(data).decode(), **told}


def test_papers_of_the_file_come_too_byte_for_byte(phone):
    sent = record_of()
    content = saved(phone.garden, [sent], [in_file(PDF, mime="application/pdf")])

    assert bring(phone, content)["photos"] == {"stored": 1, "here": 0, "refused": 0}
    assert bring(phone, content)["photos"] == {"stored": 0, "here": 1, "refused": 0}

    answer = phone.get(phone.path(f"papers/{hash_of(PDF)}"))
    assert b"".join(answer.streaming_content) == PDF
    assert phone.records("paper")[sent["id"]]["doc"]["blob"] == "stored"


@pytest.mark.parametrize(
    ("data", "is_named"), [(PDF, False), (b"GIF89a", True), (PDF + b"\0" * 10_000_000, True)]
)
def test_papers_nobody_names_or_that_are_none_are_refused(phone, data, is_named):
    sent = record_of(data, n_bytes=min(len(data), 10_000_000))
    named = [sent] if is_named else []
    told = bring(phone, saved(phone.garden, named, [in_file(data, mime="application/pdf")]))
    assert told["photos"] == {"stored": 0, "here": 0, "refused": 1}
    assert phone.get(phone.path(f"papers/{hash_of(data)}")).status_code == 404


def test_a_bad_entry_is_told_of_and_the_others_go_in(phone, check):
    good = rating(check)
    bad = {**rating(check), "set": {"grade": 99}}
    odd = {"mid": 5, "kind": ["x"]}
    told = bring(phone, saved(phone.garden, [bad, odd, good]))
    assert [one["status"] for one in told["results"]] == ["rejected", "rejected", "applied"]
    assert told["results"][0]["message"]
    assert GallRating.objects.count() == 1


def test_entries_of_other_gardens_are_counted_and_left_alone(phone, check):
    told = bring(phone, saved(new_id(), [rating(check)]))
    assert (told["results"], told["n_other_gardens"]) == ([], 1)


def test_an_older_value_in_the_file_is_asked_about(phone, check):
    made = Bed.objects.get()
    phone.push(item("patch", "bed", str(made.id), base=99, note="Mine"))
    change = item("patch", "bed", str(made.id), base=1, note="Ana's")
    [told] = bring(phone, saved(phone.garden, [change]))["results"]
    assert told["status"] == "conflict"
    [conflict] = phone.records("conflict").values()
    assert conflict["doc"]["other_by"] == "Ana (brought by grower)"


@pytest.mark.parametrize("content", [b"", b"[]", b"{", b'{"account": {}}', b"\xff"])
def test_what_is_no_phones_file_is_refused(phone, content):
    answer = send(phone, phone.path("saved-files"), content, "application/json")
    assert (answer.status_code, answer.json()["code"]) == (422, "saved_file_unreadable")
