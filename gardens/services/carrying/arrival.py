"""Bringing a garden: what a file would bring is told first, then it is brought.

A garden that is not here yet is taken as it is, with its numbers. Of one that is here, what is
missing goes in as ordinary changes: see ``catching_up``.
"""

import hashlib
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice
from typing import Any, BinaryIO
from uuid import UUID

from django.db import DatabaseError, transaction

from gardens.domain.records import references
from gardens.models import RECORD_MODELS, Garden, JournalEntry, Record
from gardens.photo_store.door import photo_store
from gardens.selectors import records as records_read
from gardens.selectors.papers import find_papers
from gardens.selectors.photos import find_blobs
from gardens.services import papers, photos
from gardens.services.carrying.archive import Archive
from gardens.services.carrying.catching_up import catch_up, missing_here
from gardens.services.carrying.contents import Contents, PhotoHeld, read_contents
from gardens.services.carrying.layout import BadArchive, paper_name, photo_name
from gardens.services.carrying.plainjpeg import is_plain
from gardens.services.darkroom.picture import BadImage, Picture
from gardens.services.darkroom.room import darkroom
from gardens.services.push import NoSuchGarden

PAGE = 500


@dataclass(frozen=True)
class Arrival:
    """What a file brings, or has brought when ``done``.

    ``state`` is ``new``, ``same`` (nothing to bring) or ``behind`` (some changes are missing
    here); ``n_only_here`` counts the changes this server has and the file lacks.
    """

    garden: str
    name: str
    state: str
    n_records: dict[str, int]
    n_photos: int
    n_changes: int
    n_only_here: int
    done: bool = False
    n_conflicts: int = 0
    # Changes of the file that could not be taken: kind of record, and why as a code.
    refused: tuple[tuple[str, str], ...] = ()


def look_at_arrival(*, account: Any, file: BinaryIO) -> Arrival:
    """Tell what bringing the file would do; raises ``BadArchive`` or ``NoSuchGarden``."""
    contents = read_contents(Archive(file))
    return _told(contents, _garden_here(account, contents))


def bring_arrival(*, account: Any, file: BinaryIO) -> Arrival:
    """Bring the garden of the file; raises ``BadArchive`` or ``NoSuchGarden``."""
    contents = read_contents(Archive(file))
    here = _garden_here(account, contents)
    told = _told(contents, here)
    if here is None:
        _bring_whole(account, contents)
        return replace(told, done=True)
    brought = catch_up(account=account, garden=here, contents=contents)
    pictures = _pictures(contents, here)
    for sha256, data in _papers(contents, here):
        papers.keep_paper(account=account, garden_id=here.id, sha256=sha256, data=data)
    for held, picture in pictures:
        photos.keep_picture(account=account, garden_id=here.id, sha256=held.sha256, picture=picture)
    return replace(told, done=True, n_conflicts=brought.n_conflicts, refused=tuple(brought.refused))


def _garden_here(account: Any, contents: Contents) -> Garden | None:
    found = Garden.objects.filter(owner=account, id=contents.garden).first()
    if found is None and Garden.objects.filter(id=contents.garden).exists():
        raise NoSuchGarden
    return found


def _told(contents: Contents, here: Garden | None) -> Arrival:
    counted = Counter(record.KIND for record in contents.records if not record.deleted)
    if here is None:
        _check_ids(contents)
        n_changes, n_only_here = sum(1 for _ in contents.entries()), 0
        n_photos = len(contents.photos)
    else:
        found = missing_here(here, contents)
        n_changes, n_only_here = found.n_changes, found.n_only_here
        n_photos = len(_photos_missing(contents, here))
    state = "new" if here is None else "behind" if n_changes or n_photos else "same"
    return Arrival(
        str(contents.garden), contents.name, state, dict(counted), n_photos, n_changes, n_only_here
    )


def _check_ids(contents: Contents) -> None:
    """Raise ``BadArchive`` when a record, or what it names, is in another garden here."""
    ids = {record.id for record in contents.records}
    for record in contents.records:
        ids.update(UUID(other) for _, other in references(record.KIND, record.doc))
    waiting = iter(ids)
    while page := list(islice(waiting, PAGE)):
        if records_read.locate(page):
            raise BadArchive("archive_clashes")


def _photos_missing(contents: Contents, here: Garden) -> list[PhotoHeld]:
    stored = find_blobs(here, [held.sha256 for held in contents.photos])
    return [held for held in contents.photos if held.sha256 not in stored]


def _pictures(contents: Contents, here: Garden | None) -> Iterator[tuple[PhotoHeld, Picture]]:
    wanted = contents.photos if here is None else _photos_missing(contents, here)
    for held in wanted:
        data = contents.archive.read(photo_name(held.sha256))
        yield held, _picture(held, data)


def _papers(contents: Contents, here: Garden | None) -> Iterator[tuple[str, bytes]]:
    """Give each paper that is not here; raises ``BadArchive`` for one that is not what it says."""
    stored = find_papers(here.id, contents.papers) if here else set()
    for sha256 in contents.papers:
        if sha256 in stored:
            continue
        data = contents.archive.read(paper_name(sha256))
        if hashlib.sha256(data).hexdigest() != sha256 or not papers.is_pdf(data):
            raise BadArchive("archive_unreadable", paper_name(sha256))
        yield sha256, data


def _picture(held: PhotoHeld, data: bytes) -> Picture:
    """Open the photo; keep its very bytes when they are as this program writes them."""
    if hashlib.sha256(data).hexdigest() not in (held.stored_sha256, held.sha256):
        raise BadArchive("archive_unreadable", photo_name(held.sha256))
    try:
        drawn = darkroom.redraw(data)
    except BadImage:
        raise BadArchive("archive_unreadable", photo_name(held.sha256)) from None
    return replace(drawn, full=data) if is_plain(data) else drawn


def _bring_whole(account: Any, contents: Contents) -> None:
    """Take a garden that is not here yet, with its numbers, all of it or nothing."""
    try:
        # Files first: drawing hundreds of photos would hold the database's lock for too long.
        kept = [
            (held, photos.write_picture(garden_id=contents.garden, picture=picture))
            for held, picture in _pictures(contents, None)
        ]
        for sha256, data in _papers(contents, None):
            papers.write_paper(garden_id=contents.garden, sha256=sha256, data=data)
        with transaction.atomic():
            garden = Garden.objects.create(
                id=contents.garden,
                owner=account,
                head=contents.head,
                tag=contents.tag,
                purged_below=contents.purged_below,
            )
            _write_rows(garden, contents)
            for held, files in kept:
                photos.note_picture(garden, held.sha256, files)
    except BaseException as error:
        if not Garden.objects.filter(id=contents.garden).exists():
            photo_store().discard(contents.garden)
        if isinstance(error, DatabaseError):
            raise BadArchive("archive_unreadable") from error
        raise


def _write_rows(garden: Garden, contents: Contents) -> None:
    by_kind: dict[str, list[Record]] = {}
    for record in contents.records:
        by_kind.setdefault(record.KIND, []).append(record)
    for kind, rows in by_kind.items():
        RECORD_MODELS[kind].objects.bulk_create(rows, batch_size=PAGE)
    entries = contents.entries()
    while page := list(islice(entries, PAGE)):
        for entry in page:
            entry.garden = garden
        JournalEntry.objects.bulk_create(page)
