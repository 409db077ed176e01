"""What a backup says of itself: its versions, and name, size and hash of each part.

Not for the parts: ``sqlite_copy`` and ``postgres_copy`` know what is in them.
"""

import hashlib
import json
import shutil
import zipfile
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field
from pathlib import Path, PurePosixPath
from typing import Any, BinaryIO

FORMAT = "knotbed-backup"
VERSION = 1
MANIFEST = "manifest.json"
CHUNK = 1 << 20


class BadBackup(Exception):
    """A sentence about why a backup cannot be made or put back."""


@dataclass(frozen=True)
class Part:
    """One file of a backup."""

    name: str
    n_bytes: int
    sha256: str


@dataclass
class Manifest:
    """The list of a backup's parts and what is needed to put them back."""

    made_at: str
    database: str
    # (app, name) of each migration the database had seen.
    migrations: list[tuple[str, str]]
    # Of each table its columns, in the order of the copy; SQLite's copy needs none.
    tables: dict[str, list[str]]
    parts: list[Part] = field(default_factory=list)

    def add(self, out: zipfile.ZipFile, name: str, path: Path) -> None:
        """Pack a file and note its size and hash as packed."""
        # Photos are packed already; a second packing would only take time.
        how = zipfile.ZIP_STORED if path.suffix in (".jpg", ".pdf") else zipfile.ZIP_DEFLATED
        about = zipfile.ZipInfo.from_file(path, name, strict_timestamps=False)
        about.compress_type = how
        with path.open("rb") as source, out.open(about, "w", force_zip64=True) as target:
            self.parts.append(Part(name, *_copy(source, target)))

    def write(self, out: zipfile.ZipFile) -> None:
        """Write the list itself, last, because only then every hash is known."""
        told = {"format": FORMAT, "version": VERSION, **asdict(self)}
        out.writestr(MANIFEST, json.dumps(told, indent=1), zipfile.ZIP_DEFLATED)


def _copy(source: Any, target: Any) -> tuple[int, str]:
    """Copy a stream; return its size and SHA-256."""
    n_bytes, digest = 0, hashlib.sha256()
    while block := source.read(CHUNK):
        target.write(block)
        digest.update(block)
        n_bytes += len(block)
    return n_bytes, digest.hexdigest()


def read_manifest(packed: zipfile.ZipFile) -> Manifest:
    """Read the list; raises ``BadBackup`` when this is no backup or one of a newer version."""
    try:
        told = json.loads(packed.read(MANIFEST))
        is_ours, version = told.pop("format") == FORMAT, told.pop("version")
        if is_ours and version != VERSION:
            raise BadBackup("This backup was made by a newer version. Update Knotbed first.")
        parts = [Part(**part) for part in told.pop("parts")]
        migrations = [(app, name) for app, name in told.pop("migrations")]
        found = Manifest(**told, migrations=migrations, parts=parts)
    except (KeyError, ValueError, TypeError, AttributeError, zipfile.BadZipFile):
        raise BadBackup("This file is not a backup of Knotbed, or it is damaged.") from None
    if not is_ours:
        raise BadBackup("This file is not a backup of Knotbed.")
    return found


def unpack(packed: zipfile.ZipFile, manifest: Manifest, folder: Path) -> None:
    """Unpack every part and hold it against its size and hash; raises ``BadBackup``."""
    _check_names(manifest.parts)
    room = shutil.disk_usage(folder).free
    if sum(part.n_bytes for part in manifest.parts) > room:
        raise BadBackup("There is not enough room on the disk to unpack the backup.")
    for part in manifest.parts:
        path = folder / part.name
        path.parent.mkdir(parents=True, exist_ok=True)
        try:
            with packed.open(part.name) as source, path.open("wb") as target:
                found = _copy(source, target)
                target.flush()
        except (KeyError, zipfile.BadZipFile, EOFError, OSError):
            raise BadBackup(f"The part {part.name} of the backup cannot be read.") from None
        if found != (part.n_bytes, part.sha256):
            raise BadBackup(f"The part {part.name} of the backup is not what was packed.")


def _check_names(parts: Iterable[Part]) -> None:
    for part in parts:
        path = PurePosixPath(part.name)
        if path.is_absolute() or ".." in path.parts or "\\" in part.name:
            raise BadBackup("The backup names a file outside of itself.")


def is_packed_file(file: BinaryIO | Path) -> bool:
    """Tell whether a file is a zip at all."""
    return zipfile.is_zipfile(file)
