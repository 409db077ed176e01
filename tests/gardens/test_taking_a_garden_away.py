import csv
import hashlib
import io
import json
from pathlib import Path
from uuid import UUID

import pytest
from django.conf import settings
from hypothesis import HealthCheck, given
from hypothesis import settings as how
from hypothesis import strategies as st

from gardens.models import Bed, Blob, Conflict, Garden, Held, JournalEntry
from gardens.services.carrying.tables import MARK, RUNS, as_csv
from tests.api import test_papers as papers
from tests.api.test_blobs import put
from tests.api.test_ended_links import decide, end
from tests.gardens.carried import another_server, bring, lived_in, look, parts_of, taken_away
from tests.phones import Phone, bed, item, new_id, photo
from tests.photographs import encoded

pytestmark = pytest.mark.django_db


@pytest.fixture
def taken(phone, tablet):
    """The file of a lived-in garden, and the server that made it is no more."""
    lived_in(phone, tablet)
    content = taken_away(phone.garden)
    another_server()
    return content


def test_a_garden_brought_to_another_server_and_taken_away_again_is_the_same_file(taken, neighbour):
    told = bring(neighbour, taken)

    assert (told.state, told.done, told.n_photos) == ("new", True, 1)
    assert taken_away(told.garden) == taken
    another_server()
    bring(neighbour, taken)
    assert taken_away(told.garden) == taken


def test_the_same_garden_gives_the_same_file(phone, tablet):
    lived_in(phone, tablet)
    assert taken_away(phone.garden) == taken_away(phone.garden)


def test_who_brings_a_garden_owns_it_and_the_names_in_it_stay(taken, neighbour):
    told = bring(neighbour, taken)

    garden = Garden.objects.get()
    assert garden.owner == neighbour
    assert {entry.author for entry in JournalEntry.objects.all()} == {"grower"}
    theirs = Phone(neighbour, garden=told.garden).sign_in()
    assert {one["by"] for one in theirs.records("bed").values()} == {"grower"}
    assert Conflict.objects.get(state="open").other_by == "grower, tablet"


def test_a_garden_that_was_brought_goes_on(taken, neighbour):
    told = bring(neighbour, taken)
    phone = Phone(neighbour, garden=told.garden).sign_in()
    name = next(one for one, record in phone.records("bed").items() if not record["deleted"])

    changed = phone.result(item("patch", "bed", name, base=Garden.objects.get().head, name="New"))

    assert changed["status"] == "applied"
    assert phone.result(bed())["status"] == "applied"
    stored = Blob.objects.get()
    answer = phone.get(phone.path(f"blobs/{stored.sha256}"))
    content = b"".join(answer.streaming_content)
    assert hashlib.sha256(content).hexdigest() == stored.stored_sha256


def test_bringing_a_garden_twice_changes_nothing(taken, neighbour):
    bring(neighbour, taken)
    before = taken_away(Garden.objects.get().id)

    again = bring(neighbour, taken)

    assert (again.state, again.n_changes, again.n_photos) == ("same", 0, 0)
    assert taken_away(Garden.objects.get().id) == before


def test_looking_at_a_file_changes_nothing(taken, neighbour):
    told = look(neighbour, taken)
    assert (told.name, told.state, told.done) == ("Behind the mill", "new", False)
    assert told.n_records["bed"] == 1
    assert not Garden.objects.exists()
    assert not Path(settings.PHOTOS_DIR).exists()


def test_no_number_of_a_phone_leaves_the_house(phone, tablet):
    lived_in(phone, tablet)
    held = b"".join(parts_of(taken_away(phone.garden)).values())
    assert phone.device.encode() not in held
    assert tablet.device.encode() not in held


def test_the_journal_in_the_file_proves_its_order(taken):
    tag = "0" * 16
    for seq, line in enumerate(parts_of(taken)["journal.jsonl"].splitlines(), start=1):
        entry = json.loads(line)
        tag = hashlib.sha256(f"{tag}{entry['mid']}".encode()).hexdigest()[:16]
        assert (entry["seq"], entry["tag"]) == (seq, tag)


def test_the_file_says_what_is_in_it_and_how_to_bring_it_back(taken):
    said = parts_of(taken)["README.txt"].decode()
    assert said.startswith("Behind the mill: a garden kept with Knotbed\r\n")
    assert "Bring a garden here" in said


def read_table(content):
    # RFC 4180: CRLF ends a line; the mark at the start is how spreadsheets know UTF-8.
    assert content.startswith(b"\xef\xbb\xbf")
    assert content.replace(b"\r\n", b"").count(b"\n") == content.count(b"\n") - content.count(
        b"\r\n"
    )
    return list(csv.DictReader(io.StringIO(content.decode("utf-8-sig"), newline="")))


def test_the_tables_hold_what_the_records_say(taken):
    parts = parts_of(taken)
    [told] = read_table(parts["tables/beds.csv"])
    assert (told["name"], told["width_cm"], told["soil"]) == ("North bed", "120", "'=phone's soil")
    [told] = read_table(parts["tables/ratings.csv"])
    assert (told["bed"], told["crop"], told["grade"]) == ("North bed", "Okra", "3")
    [told] = read_table(parts["tables/photos.csv"])
    assert told["file"] in parts


cells = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"), max_size=30)


@given(st.lists(cells, min_size=1, max_size=5))
def test_no_cell_runs_in_a_spreadsheet_and_none_is_lost(written):
    content = as_csv(["a"], [{"a": cell} for cell in written])
    rows = list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")))[1:]
    # A row of one empty cell is written as such, quoted.
    found = [row[0] for row in rows]
    assert not any(cell.startswith(RUNS) for cell in found)
    assert [cell.removeprefix(MARK) for cell in found] == written


@how(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=25, deadline=None)
@given(name=cells.filter(lambda text: text.strip()), note=cells)
def test_whatever_people_write_comes_back(phone, neighbour, name, note):
    phone.push(bed(name=name, note=note))
    content = taken_away(phone.garden)
    kept = Bed.objects.latest("seq")
    another_server()
    bring(neighbour, content)
    assert (Bed.objects.get(id=kept.id).name, Bed.objects.get(id=kept.id).note) == (name, note)
    assert taken_away(phone.garden) == content
    another_server()
    phone.high = None
    phone.open_garden()


def test_a_deleted_bed_stays_deleted_and_can_come_back(taken, neighbour):
    told = bring(neighbour, taken)
    gone = Bed.objects.get(deleted=True)
    phone = Phone(neighbour, garden=told.garden).sign_in()
    phone.push(item("patch", "bed", str(gone.id), base=99, note="Dug again"))
    back = Bed.objects.get(id=gone.id)
    assert (back.deleted, back.name) == (False, "Gone")
    assert back.garden_id == UUID(told.garden)


@pytest.mark.parametrize("decision", ["", "accepted", "declined"])
def test_a_photo_that_came_after_its_link_had_ended_travels_too(phone, neighbour, decision):
    ana, picture = phone.lend("rater"), encoded("JPEG")
    end(phone)
    shot = photo(picture, of={"kind": "bed", "id": new_id()})
    assert ana.result(shot)["status"] == "held"
    assert put(ana, shot["set"]["sha256"], picture).status_code == 201
    if decision:
        decide(phone, decision)
    content = taken_away(phone.garden)
    another_server()

    told = bring(neighbour, content)

    assert (told.state, told.n_photos) == ("new", 1)
    assert taken_away(told.garden) == content


@pytest.mark.parametrize("decision", ["", "accepted", "declined"])
def test_a_paper_that_came_after_its_link_had_ended_travels_too(phone, neighbour, decision):
    ed = phone.lend("editor")
    end(phone)
    assert ed.result(papers.record_of())["status"] == "held"
    assert papers.put(ed).status_code == 201
    if decision:
        decide(phone, decision)
    content = taken_away(phone.garden)
    assert papers.PDF in parts_of(content).values()
    another_server()

    told = bring(neighbour, content)

    assert told.state == "new"
    assert taken_away(told.garden) == content


@pytest.mark.parametrize("odd", ["../../other", ["a"], 5, None])
def test_a_held_record_that_names_no_hash_hinders_nobody_who_takes_the_garden(phone, odd):
    ed = phone.lend("editor")
    end(phone)
    ed.push(papers.record_of())
    Held.objects.update(set={"sha256": odd})
    assert not [name for name in parts_of(taken_away(phone.garden)) if name.endswith(".pdf")]


def test_a_photo_no_record_names_stays_behind(phone, tablet, neighbour):
    lived_in(phone, tablet)
    Blob.objects.update(sha256="0" * 64)
    content = taken_away(phone.garden)
    assert not [name for name in parts_of(content) if name.startswith("blobs/")]
    another_server()
    assert bring(neighbour, content).n_photos == 0
