"""What the parts of a garden's file say, each value judged before it is believed.

Not for the zip around them (see ``archive``) nor for the database.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from uuid import UUID

from gardens.domain.fields import Refusal, identifier
from gardens.domain.records import KINDS, FieldSpec, with_defaults
from gardens.domain.strict_json import can_be_stored, strict_json
from gardens.models import RECORD_MODELS, Held, JournalEntry, Record
from gardens.models.garden import FIRST_TAG
from gardens.services.carrying import layout
from gardens.services.carrying.archive import Archive
from gardens.services.carrying.layout import BadArchive
from gardens.services.journal import next_tag
from gardens.services.merge import DELETED, NO_DEVICE
from gardens.services.mutation import Rejected, read_values

MOST_LINE_BYTES = 1_000_000
LONGEST_NAME = 240
HIGHEST = 2**53
HASH = re.compile(r"[0-9a-f]{64}")
TAG = re.compile(r"[0-9a-f]{16}")
WORD = re.compile(r"[a-z_]{1,16}")
OPS = ("put", "patch", "delete")
BLOB_STATES = ("pending", "stored", "refused")

WRONG = (KeyError, TypeError, ValueError, AttributeError, IndexError, Refusal, Rejected)


@dataclass(frozen=True)
class PhotoHeld:
    """A photo of the file: the hash its record names it by, and that of its bytes here."""

    sha256: str
    stored_sha256: str


@dataclass
class Contents:
    """A garden's file: where its history stands, its records, its photos, hashes of its papers."""

    archive: Archive
    garden: UUID
    head: int
    tag: str
    purged_below: int
    records: list[Record]
    photos: list[PhotoHeld]
    papers: list[str]
    # Number and tag of each change, once ``entries`` has been read to its end.
    tags: dict[int, str] = field(default_factory=dict)

    @property
    def name(self) -> str:
        """The garden's name."""
        own = next((one for one in self.records if one.KIND == "garden"), None)
        return str(own.doc["name"]) if own else ""

    def entries(self) -> Iterator[JournalEntry]:
        """Give each change in order; raises ``BadArchive`` unless every one is there."""
        tag, mids = FIRST_TAG, set()
        lines = self.archive.lines(layout.JOURNAL, MOST_LINE_BYTES)
        for seq, line in enumerate(lines, start=1):
            entry = _read(layout.JOURNAL, lambda line=line: _entry(strict(line)))
            tag = next_tag(tag, entry.mid)
            if (entry.seq, entry.tag) != (seq, tag) or entry.mid in mids:
                raise BadArchive("archive_unreadable", layout.JOURNAL)
            mids.add(entry.mid)
            self.tags[seq] = tag
            yield entry
        if (len(mids), tag) != (self.head, self.tag):
            raise BadArchive("archive_unreadable", layout.JOURNAL)


def strict(text: bytes) -> Any:
    """Return what JSON says, every text in it fit to be stored; raises ``ValueError``."""
    found = strict_json(text, layout.DEEPEST)
    if not can_be_stored(found):
        raise ValueError("text that cannot be stored")
    return found


def _read(part: str, read: Callable[[], Any]) -> Any:
    try:
        return read()
    except WRONG:
        raise BadArchive("archive_unreadable", part) from None


def read_contents(archive: Archive) -> Contents:
    """Read ``garden.json``; the journal is read later, line by line."""
    told = _read(layout.GARDEN, lambda: strict(archive.read(layout.GARDEN)))
    if not isinstance(told, dict) or told.get("format") != layout.FORMAT:
        raise BadArchive("archive_unreadable", layout.GARDEN)
    if told.get("version") != layout.VERSION:
        raise BadArchive("archive_newer")
    found: Contents = _read(layout.GARDEN, lambda: _contents(archive, told))
    named = {_named(one, "photo") for one in found.records}
    listed = [one.sha256 for one in found.photos]
    if sorted(listed) != archive.photos() or not set(listed) <= named:
        raise BadArchive("archive_foreign", "blobs/")
    papers = {_named(one, "paper") for one in found.records}
    if found.papers != archive.papers() or not set(found.papers) <= papers:
        raise BadArchive("archive_foreign", "papers/")
    return found


def _named(record: Record, kind: str) -> str | None:
    """Return the hash of the bytes a record names; a held one names it in what it would set."""
    if kind == record.KIND:
        return str(record.sha256)
    is_held = record.KIND == "held" and record.kind == kind and isinstance(record.set, dict)
    return str(record.set.get("sha256")) if is_held else None


def _contents(archive: Archive, told: dict[str, Any]) -> Contents:
    seq, tag = re.fullmatch(r"(\d{1,15})\.([0-9a-f]{16})", told["head"]).groups()  # type: ignore[union-attr]
    head = int(seq)
    garden = _id(told["garden"])
    records = [_record(one, garden, head) for one in told["records"]]
    own = [one.id for one in records if one.KIND == "garden"]
    if own != [garden] or len({one.id for one in records}) != len(records):
        raise ValueError("not one garden")
    photos = [
        PhotoHeld(_like(HASH, one["sha256"]), _like(HASH, one["stored_sha256"]))
        for one in told["photos"]
    ]
    purged_below = _number(told["purged_below"], 0, head)
    # A file of an older version has none.
    papers = sorted(_like(HASH, one) for one in told.get("papers", []))
    return Contents(archive, garden, head, tag, purged_below, records, photos, papers)


def _record(told: Any, garden: UUID, head: int) -> Record:
    kind = told["kind"]
    model, doc = RECORD_MODELS[kind], _doc(kind, told["doc"])
    record = model(
        id=_id(told["id"]),
        garden_id=garden,
        seq=_number(told["seq"], 1, head),
        deleted=_flag(told["deleted"]),
        author=_text(told["by"]),
        device=_device(told["device"]),
        fver=_versions(kind, told["versions"], head),
    )
    record.take(doc)
    _check_lengths(record)
    if isinstance(record, Held):
        _check_held(record)
    return record


def _check_held(held: Held) -> None:
    """What waits here may be accepted later, unread: it has to be what a phone could have sent."""
    if held.kind not in KINDS:
        raise ValueError(held.kind)
    read_values(held.op, held.kind, (held.set or None) if held.op == "delete" else held.set)


def _doc(kind: str, told: Mapping[str, Any]) -> dict[str, Any]:
    """Judge each field as if a phone had sent it; what only the server writes, by its form."""
    fields = KINDS[kind].fields
    judged = {name: _value(kind, fields[name], value) for name, value in told.items()}
    return with_defaults(kind, judged)


def _value(kind: str, spec: FieldSpec, value: Any) -> Any:
    if KINDS[kind].server_made:
        return value  # its columns judge it
    if spec.rule is not None:
        return spec.rule(value)
    if spec.name == "blob" and value in BLOB_STATES:
        return value
    raise ValueError(spec.name)


def _check_lengths(record: Record) -> None:
    """SQLite takes text of any length, so the columns are held to theirs here."""
    for column in record._meta.concrete_fields:
        value = getattr(record, column.attname)
        most = getattr(column, "max_length", None)
        if most and isinstance(value, str) and len(value) > most:
            raise ValueError(column.name)


def _versions(kind: str, told: Mapping[str, Any], head: int) -> dict[str, list[Any]]:
    known = {*KINDS[kind].fields, DELETED}
    if not set(told) <= known:
        raise ValueError("a field nobody knows")
    return {
        name: [_number(seq, 0, head), NO_DEVICE if device == NO_DEVICE else str(_id(device))]
        for name, (seq, device) in told.items()
    }


def _entry(told: dict[str, Any]) -> JournalEntry:
    return JournalEntry(
        seq=_number(told["seq"], 1, HIGHEST),
        tag=_like(TAG, told["tag"]),
        mid=_id(told["mid"]),
        op=told["op"] if told["op"] in OPS else _like(WORD, None),
        kind=_like(WORD, told["kind"]),
        record=_id(told["record"]),
        author=_text(told["by"]),
        device=_device(told["device"]),
        body=_object(told["set"]),
        body_hash=told["hash"] and _like(HASH, told["hash"]),
        prev=_object(told["prev"]),
        status=_like(WORD, told["status"]),
        answer=_object(told["answer"]),
        claimed_at=told["claimed_at"] and _moment(told["claimed_at"]),
        received_at=_moment(told["received_at"]),
        skew_seconds=told["skew_seconds"]
        if told["skew_seconds"] is None
        else _number(told["skew_seconds"], -HIGHEST, HIGHEST),
    )


def _id(told: Any) -> UUID:
    return UUID(str(identifier(told)))


def _device(told: Any) -> UUID | None:
    return None if told is None else _id(told)


def _like(pattern: re.Pattern[str], told: Any) -> str:
    if not isinstance(told, str) or not pattern.fullmatch(told):
        raise ValueError(pattern.pattern)
    return told


def _text(told: Any) -> str:
    if not isinstance(told, str) or len(told) > LONGEST_NAME:
        raise ValueError("not a name")
    return told


def _flag(told: Any) -> bool:
    if type(told) is not bool:
        raise ValueError("not a flag")
    return told


def _number(told: Any, least: int, most: int) -> int:
    if type(told) is not int or not least <= told <= most:
        raise ValueError("not a number of its range")
    return told


def _object(told: Any) -> dict[str, Any]:
    if not isinstance(told, dict):
        raise ValueError("not an object")
    return told


def _moment(told: Any) -> datetime:
    found = datetime.fromisoformat(told)
    if found.utcoffset() is None or not 1900 <= found.year < 2200:
        raise ValueError("not a moment")
    return found
