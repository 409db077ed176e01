"""Keeping the bytes of photos: after their record, named by hash, never what was uploaded.

Not for opening pictures (see ``pictures``).
"""

import errno
import hashlib
import os
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from uuid import UUID, uuid4

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from gardens.models import Blob, Garden, Paper, Photo
from gardens.selectors.photos import find_blob, picture_path
from gardens.services.journal import Ledger, locked
from gardens.services.merge import NO_DEVICE
from gardens.services.pictures import BadImage, Picture, redraw

DAY_SECONDS = 24 * 3600


class NoPhotoRecord(Exception):
    """No record of this garden names the photo, so its bytes are not taken."""


class HashMismatch(Exception):
    """The bytes are not the ones their name promises."""


class ServerFull(Exception):
    """There is no room for the photo on the server's disk."""


@dataclass(frozen=True)
class Stored:
    """A stored photo, and whether this call stored it."""

    blob: Blob
    is_new: bool


def check_wanted(*, garden: Garden, sha256: str) -> Blob | None:
    """Return the photo if it is stored already; raises ``NoPhotoRecord``."""
    if not Photo.objects.filter(garden=garden, sha256=sha256).exists():
        raise NoPhotoRecord
    return find_blob(garden, sha256)


def store_photo(*, account: Any, garden_id: UUID, sha256: str, data: bytes) -> Stored:
    """Keep a photo whose record has arrived, and tell every phone through the garden's feed.

    Raises ``NoPhotoRecord``, ``HashMismatch``, ``BadImage`` or ``ServerFull``.
    """
    garden = Garden.objects.get(id=garden_id, owner=account)
    blob = check_wanted(garden=garden, sha256=sha256)
    if blob is not None:
        return Stored(blob, is_new=False)
    if hashlib.sha256(data).hexdigest() != sha256:
        raise HashMismatch
    try:
        picture = redraw(data)
    except BadImage:
        _announce(account, garden_id, sha256, "refused", None)
        raise
    stored_sha256 = hashlib.sha256(picture.full).hexdigest()
    write_file(picture_path(garden_id, stored_sha256, "full"), picture.full)
    write_file(picture_path(garden_id, stored_sha256, "thumb"), picture.thumb)
    made = _announce(account, garden_id, sha256, "stored", (stored_sha256, picture))
    assert made is not None
    return Stored(made, is_new=True)


def _announce(
    account: Any, garden_id: UUID, sha256: str, state: str, kept: tuple[str, Picture] | None
) -> Blob | None:
    """Write the photo's new state into its records through the journal, in the garden's order."""
    with transaction.atomic():
        garden = locked(account, garden_id)
        assert garden is not None
        blob = None if kept is None else _row(garden, sha256, *kept)
        ledger = Ledger(garden, account, timezone.now())
        tell_state(ledger, Photo, sha256, state)
        ledger.write()
    return blob


def tell_state(ledger: Ledger, model: type[Photo] | type[Paper], sha256: str, state: str) -> None:
    """Write whether the bytes are here into every record that names them."""
    changed = list(model.objects.filter(garden=ledger.garden, sha256=sha256).exclude(blob=state))
    for one in changed:
        entry = ledger.enter(
            uuid4(),
            kind=model.KIND,
            record=one.id,
            op="patch",
            body={"blob": state},
            body_hash="",
            prev={"blob": one.blob},
            status="applied",
        )
        one.blob, one.seq = state, entry.seq
        one.fver["blob"] = [entry.seq, NO_DEVICE]
    model.objects.bulk_update(changed, ["blob", "seq", "fver"])


def _row(garden: Garden, sha256: str, stored_sha256: str, picture: Picture) -> Blob:
    blob, _ = Blob.objects.update_or_create(
        garden=garden,
        sha256=sha256,
        defaults={
            "stored_sha256": stored_sha256,
            "n_bytes": len(picture.full),
            "width_px": picture.width_px,
            "height_px": picture.height_px,
        },
    )
    return blob


def write_file(path: Path, data: bytes) -> None:
    """Write the whole file or none of it, and only return when it is on the disk."""
    incoming = Path(settings.PHOTOS_DIR) / "incoming"
    try:
        incoming.mkdir(parents=True, exist_ok=True)
        path.parent.mkdir(parents=True, exist_ok=True)
        _sweep(incoming)
        with tempfile.NamedTemporaryFile(dir=incoming, delete=False) as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(file.name, path)
    except OSError as error:
        if error.errno in (errno.ENOSPC, errno.EDQUOT):
            raise ServerFull from error
        raise


def _sweep(incoming: Path) -> None:
    """Remove what a killed server left behind more than a day ago."""
    for left in incoming.iterdir():
        if left.stat().st_mtime < time.time() - DAY_SECONDS:
            left.unlink(missing_ok=True)
