"""Making a backup, and putting one back.

A backup holds the database and the photos and papers it names. It leaves the secret key out: the
file is meant to lie on other disks, and with the key whoever finds it could sign in as anybody.
"""

import os
import shutil
import tempfile
import zipfile
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType
from uuid import UUID

from django.conf import settings
from django.db import connection
from django.db.migrations.loader import MigrationLoader
from django.utils import timezone

from gardens.photo_store.door import paper_name, photo_store, picture_name
from gardens.photo_store.refusals import StoreAway, StoreFull
from gardens.selectors.papers import HASH
from gardens.services.backup import postgres_copy, sqlite_copy
from gardens.services.backup.manifest import (
    BadBackup,
    Manifest,
    is_packed_file,
    read_manifest,
    unpack,
)
from gardens.services.backup.snapshot import Snapshot

PHOTOS = "photos"
SIZES = ("full", "thumb")


@dataclass(frozen=True)
class Kept:
    """What a backup holds: its photos and papers, and which of those the database names it lacks.

    ``n_missing`` are nowhere, ``n_elsewhere`` lie in a bucket.
    """

    n_photos: int
    n_missing: int
    n_elsewhere: int
    n_bytes: int


@dataclass(frozen=True)
class PutBack:
    """When the backup was made, its photos and papers, and where the present data went."""

    made_at: str
    n_photos: int
    aside: Path


def _database() -> ModuleType:
    return {"sqlite": sqlite_copy, "postgresql": postgres_copy}[connection.vendor]


def make_backup(*, file: Path) -> Kept:
    """Write everything to one file, whole or not at all; the server may go on serving.

    Raises ``BadBackup``.
    """
    if file.exists():
        raise BadBackup(f"There is a file {file} already. Give another name.")
    with tempfile.TemporaryDirectory(prefix="knotbed-backup-") as folder:
        return _pack(_database().snapshot(Path(folder)), file)


def _pack(taken: Snapshot, file: Path) -> Kept:
    manifest = Manifest(
        timezone.now().isoformat(timespec="seconds"),
        connection.vendor,
        taken.migrations,
        taken.tables,
    )
    # A bucket is not packed: it is a store of its own, with copies of its own.
    named = {one: _pictures(*one) for one in taken.blobs}
    named |= {(garden, f"{each}.pdf"): [_paper(garden, each)] for garden, each in taken.papers}
    packed = {} if settings.PHOTOS_BUCKET else named | _held_papers(taken)
    here = {one: paths for one, paths in packed.items() if all(p.is_file() for p in paths)}
    descriptor, part = tempfile.mkstemp(prefix=f".{file.name}.", dir=file.parent)
    try:
        with os.fdopen(descriptor, "wb") as written:
            with zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as out:
                for name, path in taken.files.items():
                    manifest.add(out, name, path)
                for (garden, _), paths in here.items():
                    for path in paths:
                        manifest.add(out, f"{PHOTOS}/{garden}/{path.name}", path)
                manifest.write(out)
            written.flush()
            os.fsync(written.fileno())
        os.replace(part, file)
        _settle(file.parent)
    finally:
        Path(part).unlink(missing_ok=True)
    n_missing, n_elsewhere = len(packed) - len(here), len(named.keys() - packed.keys())
    return Kept(len(here), n_missing, n_elsewhere, file.stat().st_size)


def _pictures(garden: str, stored_sha256: str) -> list[Path]:
    names = (picture_name(UUID(garden), stored_sha256, size) for size in SIZES)
    return [Path(settings.PHOTOS_DIR) / name for name in names]


def _paper(garden: str, sha256: str) -> Path:
    return Path(settings.PHOTOS_DIR) / paper_name(UUID(garden), sha256)


def _held_papers(taken: Snapshot) -> dict[tuple[str, str], list[Path]]:
    """Return those that are here: one that never came is missed by nobody."""
    known = [one for one in taken.held_papers if HASH.fullmatch(str(one[1]))]
    found = {(garden, f"{each}.pdf"): [_paper(garden, each)] for garden, each in known}
    return {one: paths for one, paths in found.items() if paths[0].is_file()}


def _settle(folder: Path) -> None:
    """Wait until the new name is on the disk too, where a folder can be asked for that."""
    if os.name != "nt":
        descriptor = os.open(folder, os.O_RDONLY)
        os.fsync(descriptor)
        os.close(descriptor)


def restore_backup(*, file: Path) -> PutBack:
    """Put a backup in the place of the present data, which is moved aside, never deleted.

    Everything is unpacked and checked before anything is touched. Raises ``BadBackup``.
    """
    data = Path(settings.DATA_DIR)
    if not file.is_file() or not is_packed_file(file):
        raise BadBackup(f"{file} is not a backup of Knotbed, or it is damaged.")
    with tempfile.TemporaryDirectory(prefix="restoring-", dir=data) as folder:
        parts = Path(folder)
        with zipfile.ZipFile(file) as packed:
            manifest = read_manifest(packed)
            _check_fit(manifest)
            unpack(packed, manifest, parts)
        database = _database()
        database.check_unused()
        # First, since it is the part that may fail: what it adds harms nothing.
        n_photos = _fill_bucket(parts / PHOTOS) if settings.PHOTOS_BUCKET else 0
        aside = _place_aside(data)
        try:
            database.put_back(parts, manifest.tables, aside, manifest.migrations)
        except BaseException:
            if not any(aside.iterdir()):
                aside.rmdir()
            raise
        if not settings.PHOTOS_BUCKET:
            n_photos = _swap_photos(parts / PHOTOS, aside / PHOTOS)
    return PutBack(manifest.made_at, n_photos, aside)


def _check_fit(manifest: Manifest) -> None:
    if manifest.database != connection.vendor:
        raise BadBackup(
            f"This backup is of a {manifest.database} database and this server uses "
            f"{connection.vendor}."
        )
    known = MigrationLoader(None, ignore_no_migrations=True).disk_migrations
    if not set(manifest.migrations) <= set(known):
        raise BadBackup("This backup was made by a newer version. Update Knotbed first.")


def _place_aside(data: Path) -> Path:
    aside = data / f"before-restore-{timezone.now():%Y%m%d-%H%M%S-%f}"
    aside.mkdir()
    return aside


def _swap_photos(new: Path, aside: Path) -> int:
    present = Path(settings.PHOTOS_DIR)
    if present.is_dir():
        shutil.move(present, aside)
    new.mkdir(exist_ok=True)
    shutil.move(new, present)
    return sum(1 for path in present.glob("*/*") if _is_whole(path))


def _fill_bucket(new: Path) -> int:
    """Add the photos to those in the bucket; named by hash, they replace nothing but themselves."""
    files = [path for path in new.glob("*/*") if path.suffix in (".jpg", ".pdf")]
    try:
        for path in files:
            photo_store().write(f"{path.parent.name}/{path.name}", path.read_bytes())
    except StoreAway:
        raise BadBackup("The bucket for photos does not answer or does not let us in.") from None
    except StoreFull:
        raise BadBackup("The bucket for photos is full.") from None
    return sum(1 for path in files if _is_whole(path))


def _is_whole(path: Path) -> bool:
    """Whether a file is a paper or a photo, and not a photo's small copy."""
    return path.name.endswith((".full.jpg", ".pdf"))
