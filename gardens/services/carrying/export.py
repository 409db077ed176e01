"""Taking a garden away: everything of it in one file, the same bytes whenever nothing changed.

Not for whose garden it is: the caller has asked.
"""

import json
import tempfile
import zipfile
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from typing import Any, BinaryIO
from uuid import UUID

from gardens.models import RECORD_MODELS, Blob, Garden, Held, JournalEntry, Paper, Photo, Record
from gardens.photo_store.door import paper_name, photo_store, picture_name
from gardens.selectors.names import names_in, shown_name
from gardens.selectors.papers import find_papers
from gardens.selectors.photos import find_blobs
from gardens.services.carrying import layout
from gardens.services.carrying.about import about
from gardens.services.carrying.tables import Tables
from gardens.services.carrying.veil import veiled_text, veiled_versions
from gardens.services.moments import at_one_moment

DAY_ZERO = (1980, 1, 1, 0, 0, 0)  # the first a zip can hold: when it was packed is nobody's concern
LEVEL = 6
PAGE = 500


def export_garden(*, garden_id: UUID) -> BinaryIO:
    """Return the garden as an open file, at its beginning; closing it deletes it."""
    file = tempfile.TemporaryFile()  # noqa: SIM115  (the caller sends it and closes it)
    try:
        _pack(file, garden_id)
    except BaseException:
        file.close()
        raise
    file.seek(0)
    return file


def _pack(file: BinaryIO, garden_id: UUID) -> None:
    with zipfile.ZipFile(file, "w") as out:
        # Records and journal are of one moment; phones push meanwhile, however long it takes.
        with at_one_moment():
            garden = Garden.objects.get(id=garden_id)
            blobs, papers = _blobs(garden), _papers(garden)
            records = _write_records(out, garden, blobs, papers)
            _write_lines(out, layout.JOURNAL, map(_packed, _entries(garden)))
        name = next((doc["name"] for kind, _, _, doc in records if kind == "garden"), "")
        for place, content in Tables(records, {blob.sha256 for blob in blobs}).files().items():
            _write(out, place, [content])
        _write(out, layout.README, [about(name=name, head=str(garden.head))])
        for blob in blobs:
            name = picture_name(garden_id, blob.stored_sha256, "full")
            _write(out, layout.photo_name(blob.sha256), _blocks(name), zipfile.ZIP_STORED)
        for sha256 in papers:
            name = paper_name(garden_id, sha256)
            _write(out, layout.paper_name(sha256), _blocks(name), zipfile.ZIP_STORED)


def _write(
    out: zipfile.ZipFile, name: str, content: Iterable[bytes], how: int = zipfile.ZIP_DEFLATED
) -> None:
    about_it = zipfile.ZipInfo(name, DAY_ZERO)
    about_it.compress_type, about_it.create_system = how, 3
    about_it._compresslevel = LEVEL
    about_it.external_attr = 0o644 << 16
    with out.open(about_it, "w") as part:
        for block in content:
            part.write(block)


def _write_lines(out: zipfile.ZipFile, name: str, lines: Iterable[str]) -> None:
    _write(out, name, (f"{line}\n".encode() for line in lines))


def _blocks(name: str) -> Iterator[bytes]:
    with photo_store().open(name) as file:
        while block := file.read(1 << 20):
            yield block


def _packed(told: dict[str, Any]) -> str:
    return json.dumps(told, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def moment(at: datetime | None) -> str | None:
    """Write a moment with all its decimals, UTC."""
    return None if at is None else at.astimezone(UTC).isoformat(timespec="microseconds")


def _blobs(garden: Garden) -> list[Blob]:
    """Return the photos that are here and that a record names, also one that was declined."""
    named = set(Photo.objects.filter(garden=garden).values_list("sha256", flat=True))
    here = find_blobs(garden, named | _named_by_held(garden, "photo"))
    return [here[sha256] for sha256 in sorted(here)]


def _papers(garden: Garden) -> list[str]:
    stored = Paper.objects.filter(garden=garden, blob="stored")
    named = set(stored.values_list("sha256", flat=True))
    return sorted(find_papers(garden.id, named | _named_by_held(garden, "paper")))


def _named_by_held(garden: Garden, kind: str) -> set[str]:
    held = Held.objects.filter(garden=garden, kind=kind)
    return {one for one in held.values_list("set__sha256", flat=True) if isinstance(one, str)}


def _write_records(
    out: zipfile.ZipFile, garden: Garden, blobs: list[Blob], papers: list[str]
) -> list[tuple[str, str, str, dict[str, Any]]]:
    """Write ``garden.json``, a record on each line; return the records not deleted."""
    standing, names = [], names_in(garden)

    def lines() -> Iterator[str]:
        photos = [_photo(blob) for blob in blobs]
        head = {
            "format": layout.FORMAT,
            "version": layout.VERSION,
            "garden": str(garden.id),
            "head": garden.mark,
            "purged_below": garden.purged_below,
            "photos": photos,
            "papers": papers,
        }
        yield f'{_packed(head)[:-1]},"records":['
        before = ""
        for record in _records(garden):
            if not record.deleted:
                standing.append((record.KIND, str(record.id), _by(record, names), record.doc))
            yield before + _packed(_record(garden.id, record, names))
            before = ","
        yield "]}"

    _write_lines(out, layout.GARDEN, lines())
    return standing


def _photo(blob: Blob) -> dict[str, Any]:
    return {
        "sha256": blob.sha256,
        "stored_sha256": blob.stored_sha256,
        "n_bytes": blob.n_bytes,
        "width_px": blob.width_px,
        "height_px": blob.height_px,
    }


def _records(garden: Garden) -> Iterator[Record]:
    """Every record in the order of the ids, some hundreds in memory at a time."""
    known = sorted(
        (each, kind)
        for kind, model in RECORD_MODELS.items()
        for each in model.objects.filter(garden=garden).values_list("id", flat=True)
    )
    for start in range(0, len(known), PAGE):
        found: list[Record] = []
        for kind in RECORD_MODELS:
            ids = [each for each, its_kind in known[start : start + PAGE] if its_kind == kind]
            if ids:
                rows = RECORD_MODELS[kind].objects.filter(id__in=ids)
                found += rows.select_related("created_by")
        yield from sorted(found, key=lambda record: record.id)


def _by(record: Record, names: dict[Any, str]) -> str:
    return shown_name(record.created_by, names, record.author)


def _record(garden: UUID, record: Record, names: dict[Any, str]) -> dict[str, Any]:
    return {
        "id": str(record.id),
        "kind": record.KIND,
        "seq": record.seq,
        "deleted": record.deleted,
        "by": _by(record, names),
        "device": veiled_text(garden, record.device),
        "versions": veiled_versions(garden, record.fver),
        "doc": record.doc,
    }


def _entries(garden: Garden) -> Iterator[dict[str, Any]]:
    rows = garden.journal.select_related("actor").order_by("seq")
    names = names_in(garden)
    return (_entry(garden.id, entry, names) for entry in rows.iterator(PAGE))


def _entry(garden: UUID, entry: JournalEntry, names: dict[Any, str]) -> dict[str, Any]:
    return {
        "seq": entry.seq,
        "tag": entry.tag,
        "mid": str(entry.mid),
        "op": entry.op,
        "kind": entry.kind,
        "record": str(entry.record),
        "by": shown_name(entry.actor, names, entry.author),
        "device": veiled_text(garden, entry.device),
        "set": entry.body,
        "hash": entry.body_hash,
        "prev": entry.prev,
        "status": entry.status,
        "answer": entry.answer,
        "claimed_at": moment(entry.claimed_at),
        "received_at": moment(entry.received_at),
        "skew_seconds": entry.skew_seconds,
    }
