import hashlib
import io
import json
import secrets
import stat
import struct
import zipfile

import pytest
from django.conf import settings

from gardens.models import Garden, JournalEntry
from gardens.services.carrying import layout
from gardens.services.carrying.layout import BadArchive
from gardens.services.push import NoSuchGarden
from tests.gardens.carried import (
    PDF,
    another_server,
    bring,
    lived_in,
    look,
    packed,
    parts_of,
    retold,
    taken_away,
)
from tests.phones import bed, new_id

pytestmark = pytest.mark.django_db


@pytest.fixture
def taken(phone, tablet):
    lived_in(phone, tablet)
    content = taken_away(phone.garden)
    another_server()
    return content


def refused(neighbour, content):
    """Bring a file that must not be taken; return the code."""
    for work in (look, bring):
        with pytest.raises(BadArchive) as caught:
            work(neighbour, content)
    assert not Garden.objects.exists()
    assert not list(settings.PHOTOS_DIR.glob("*/*.jpg"))
    return caught.value.code


NAMES = {
    "traversal": "../garden.json",
    "traversal inside": "blobs/../../x.jpg",
    "absolute": "/etc/passwd",
    "drive": "C:/x",
    "backslash": "blobs\\..\\x.jpg",
    "folder": "blobs/",
    "other file": "run.sh",
    "other case": "Garden.json",
    "nested zip": "more.zip",
    "long": "x" * 60_000,
    "NUL": "garden.json\x00.exe",
    "not ASCII": "blöbs/x.jpg",
}


@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES.keys())
def test_a_name_that_does_not_belong_is_refused(taken, neighbour, name):
    # Without the name's length check of the standard library: NUL cuts a name when it is read.
    parts = parts_of(taken)
    about = zipfile.ZipInfo("x")
    about.filename = name
    assert refused(neighbour, packed([*parts.items(), (about, b"x")])) == "archive_foreign"


def test_a_zip_within_the_zip_is_no_photo(taken, neighbour):
    parts = parts_of(taken)
    name = next(one for one in parts if one.startswith("blobs/"))
    parts[name] = taken
    with pytest.raises(BadArchive):
        bring(neighbour, packed(parts))
    assert not Garden.objects.exists()
    assert not settings.PHOTOS_DIR.exists() or not list(settings.PHOTOS_DIR.glob("*/*.jpg"))


def test_a_link_in_the_file_is_refused(taken, neighbour):
    about = zipfile.ZipInfo("README.txt")
    about.create_system, about.external_attr = 3, (stat.S_IFLNK | 0o777) << 16
    parts = parts_of(taken)
    del parts["README.txt"]
    assert (
        refused(neighbour, packed([*parts.items(), (about, b"/etc/passwd")])) == "archive_foreign"
    )


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_one_name_twice_is_refused(taken, neighbour):
    parts = parts_of(taken)
    twice = [*parts.items(), ("garden.json", b"{}")]
    assert refused(neighbour, packed(twice)) == "archive_foreign"


def test_a_part_that_swells_is_stopped_while_it_is_read(taken, neighbour):
    parts = parts_of(taken)
    parts["garden.json"] = b" " * 50_000_000
    assert refused(neighbour, packed(parts)) == "archive_too_large"


def test_a_part_larger_than_it_may_be_is_stopped(taken, neighbour, monkeypatch):
    monkeypatch.setitem(layout.MOST_OF, "garden.json", 1000)
    assert refused(neighbour, taken) == "archive_too_large"


def test_a_header_that_lies_about_the_size_is_not_believed(taken, neighbour):
    # Sizes in the list of contents (APPNOTE.TXT 4.3.12): 24 bytes into each entry, unpacked.
    content = bytearray(taken)
    entry = content.rindex(b"PK\x01\x02", 0, content.rindex(b"garden.json"))
    content[entry + 24 : entry + 28] = struct.pack("<L", 10)
    assert refused(neighbour, bytes(content)) == "archive_unreadable"


def test_too_many_parts_are_refused_before_they_are_listed(neighbour):
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as out:
        for n in range(layout.MOST_ENTRIES + 1):
            out.writestr(f"blobs/{n:064x}.jpg", b"")
    assert refused(neighbour, file.getvalue()) == "archive_too_large"


def test_a_list_that_claims_to_be_elsewhere_is_refused(taken, neighbour):
    locator = layout_of_end64()
    end = taken[-22:]
    assert refused(neighbour, taken[:-22] + locator + end) == "archive_unreadable"


def layout_of_end64():
    """The record that points at a second, larger list (APPNOTE.TXT 4.3.15)."""
    return struct.pack("<4sLQL", b"PK\x06\x07", 0, 0, 1)


CUT = {
    "empty": lambda content: b"",
    "no zip": lambda content: b"beans" * 100,
    "cut off": lambda content: content[: len(content) // 2],
    "with a tail": lambda content: content + b"more",
    "without a journal": lambda content: packed(
        {name: part for name, part in parts_of(content).items() if name != "journal.jsonl"}
    ),
}


@pytest.mark.parametrize("change", CUT.values(), ids=CUT.keys())
def test_a_damaged_file_is_refused(taken, neighbour, change):
    assert refused(neighbour, change(taken)) == "archive_unreadable"


def test_a_flipped_bit_anywhere_is_noticed_or_harmless(taken, neighbour):
    for at in range(40, len(taken), len(taken) // 60):
        content = bytearray(taken)
        content[at] ^= 0x20
        try:
            told = bring(neighbour, bytes(content))
        except BadArchive:
            assert not Garden.objects.exists()
        else:
            # Only in what is for reading: the tables, the text, the zip's own dates.
            same = parts_of(taken_away(told.garden))
            assert same == parts_of(taken)
            another_server()


def entries_of(content):
    return [json.loads(line) for line in parts_of(content)["journal.jsonl"].splitlines()]


def with_journal(content, entries):
    lines = "".join(json.dumps(entry) + "\n" for entry in entries).encode()
    return packed(parts_of(content) | {"journal.jsonl": lines})


LIES = {
    "an entry is missing": lambda entries: entries[:-1],
    "the order is another": lambda entries: [entries[1], entries[0], *entries[2:]],
    "a tag is another": lambda entries: [{**entries[0], "tag": "f" * 16}, *entries[1:]],
    "a moment is none": lambda entries: [{**entries[0], "received_at": "soon"}, *entries[1:]],
    "a value is missing": lambda entries: [{"seq": 1}, *entries[1:]],
    "no object": lambda entries: [7, *entries[1:]],
}


@pytest.mark.parametrize("lie", LIES.values(), ids=LIES.keys())
def test_a_journal_that_is_not_whole_is_refused(taken, neighbour, lie):
    assert refused(neighbour, with_journal(taken, lie(entries_of(taken)))) == "archive_unreadable"


def changed_records(content, **changes):
    """Change the first bed of a file."""
    records = json.loads(parts_of(content)["garden.json"])["records"]
    first = next(one for one in records if one["kind"] == "bed" and not one["deleted"])
    first.update(changes)
    return retold(content, records=records)


BAD_RECORDS = {
    "a number beyond the head": {"seq": 10_000},
    "no such kind": {"kind": "tree"},
    "another kind": {"kind": "photo"},
    "no id": {"id": "../../x"},
    "a field nobody knows": {"versions": {"colour": [1, ""]}},
    "a device that is none": {"device": "x"},
    "NUL in a name": {"by": "a\x00b"},
    "half a sign": {"by": "\ud800"},
    "a long name": {"by": "x" * 300},
    "values a bed cannot have": {"doc": {"name": ""}},
}


@pytest.mark.parametrize("changes", BAD_RECORDS.values(), ids=BAD_RECORDS.keys())
def test_a_record_no_phone_could_have_sent_is_refused(taken, neighbour, changes):
    assert refused(neighbour, changed_records(taken, **changes)) == "archive_unreadable"


def held(**changes):
    """A change that waits for somebody to accept it, as it stands in a file."""
    doc = {"op": "put", "kind": "paper", "base": 0, "mid": new_id(), "by": "Ana", "by_device": ""}
    doc |= {"at": None, "why": "link_ended", "state": "waiting", "closed_by": ""}
    doc |= {"of": {"kind": "paper", "id": new_id()}}
    of = {"kind": "soil_sample", "id": new_id()}
    named = {"of": of, "sha256": "a" * 64, "n_bytes": 9, "name": "receipt.pdf"}
    return doc | {"set": named | changes}


@pytest.mark.parametrize("changes", [{}, {"sha256": "../../../secret"}, {"colour": "red"}])
def test_what_is_held_in_a_file_is_judged_like_what_a_phone_sends(taken, neighbour, changes):
    records = json.loads(parts_of(taken)["garden.json"])["records"]
    first = next(one for one in records if one["kind"] == "bed")
    waits = {**first, "id": new_id(), "kind": "held", "versions": {}, "doc": held(**changes)}
    content = retold(taken, records=[*records, waits])
    if changes:
        assert refused(neighbour, content) == "archive_unreadable"
    else:
        assert look(neighbour, content)


def test_a_file_of_a_newer_version_says_so(taken, neighbour):
    assert refused(neighbour, retold(taken, version=2)) == "archive_newer"


def test_a_photo_nobody_names_is_refused(taken, neighbour):
    parts = parts_of(taken) | {f"blobs/{'0' * 64}.jpg": b"x"}
    assert refused(neighbour, packed(parts)) == "archive_foreign"


def test_a_photo_with_something_behind_its_end_is_drawn_anew(taken, neighbour):
    parts = parts_of(taken)
    name = next(one for one in parts if one.startswith("blobs/"))
    told = json.loads(parts["garden.json"])
    parts[name] += b"<script>alert(1)</script>"
    told["photos"][0]["stored_sha256"] = hashlib.sha256(parts[name]).hexdigest()
    parts["garden.json"] = json.dumps(told).encode()
    bring(neighbour, packed(parts))
    [stored] = settings.PHOTOS_DIR.glob("*/*.full.jpg")
    assert b"script" not in stored.read_bytes()


def test_a_garden_of_somebody_else_is_as_if_it_were_not_there(phone, tablet, neighbour):
    lived_in(phone, tablet)
    content = taken_away(phone.garden)
    before = JournalEntry.objects.count()
    for work in (look, bring):
        with pytest.raises(NoSuchGarden):
            work(neighbour, content)
    assert JournalEntry.objects.count() == before


def renamed(content, garden, other):
    """Return the parts of a file with another garden's number in them."""
    found = parts_of(content).items()
    return {name: part.replace(garden.encode(), other.encode()) for name, part in found}


def test_records_of_another_garden_are_not_taken_over(phone, tablet, neighbour):
    lived_in(phone, tablet)
    other = new_id()
    parts = renamed(taken_away(phone.garden), phone.garden, other)
    for work in (look, bring):
        with pytest.raises(BadArchive, match="archive_clashes"):
            work(neighbour, packed(parts))
    assert Garden.objects.count() == 1


def test_a_bed_of_another_garden_cannot_be_named(taken, phone, neighbour):
    phone.high = None
    phone.open_garden()
    foreign = bed()
    phone.push(foreign)
    records = json.loads(parts_of(taken)["garden.json"])["records"]
    next(one for one in records if one["kind"] == "planting")["doc"]["bed"] = foreign["id"]
    content = retold(taken, records=records)
    other = new_id()
    parts = renamed(content, phone.garden, other)
    with pytest.raises(BadArchive, match="archive_clashes"):
        bring(neighbour, packed(parts))


def test_a_line_longer_than_any_change_is_not_gathered(taken, neighbour):
    parts = parts_of(taken) | {"journal.jsonl": secrets.token_hex(1_100_000).encode()}
    assert refused(neighbour, packed(parts)) == "archive_too_large"


def test_a_paper_that_is_not_what_its_name_says_is_refused(taken, neighbour):
    parts = parts_of(taken)
    (name,) = [one for one in parts if one.startswith("papers/")]
    assert parts[name] == PDF
    with pytest.raises(BadArchive, match="archive_unreadable"):
        bring(neighbour, packed(parts | {name: PDF + b" changed"}))
    assert not Garden.objects.exists()
    assert not list(settings.PHOTOS_DIR.glob("*/*"))
