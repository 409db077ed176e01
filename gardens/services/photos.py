"""Keeping the bytes of photos: after their record, named by hash, never what was uploaded.

Not for opening pictures (see ``darkroom``) nor for where files lie (see ``photo_store``).
"""

import hashlib
from dataclasses import dataclass, replace
from typing import Any
from uuid import UUID, uuid4

from django.db import transaction
from django.utils import timezone

from gardens.models import Blob, Garden, Held, Paper, Photo
from gardens.photo_store.door import photo_store, picture_name
from gardens.photo_store.refusals import StoreAway
from gardens.selectors.papers import find_papers
from gardens.selectors.photos import find_blob, find_blobs
from gardens.services.darkroom.picture import BadImage, Picture
from gardens.services.darkroom.room import darkroom
from gardens.services.journal import Ledger, locked
from gardens.services.merge import NO_DEVICE
from gardens.services.mutation import Mutation
from gardens.services.turns import in_turn


class NoPhotoRecord(Exception):
    """No record of this garden names the photo, so its bytes are not taken."""


class HashMismatch(Exception):
    """The bytes are not the ones their name promises."""


@dataclass(frozen=True)
class Stored:
    """A stored photo, and whether this call stored it."""

    blob: Blob
    is_new: bool


def check_wanted(*, account: Any, garden: Garden, sha256: str) -> Blob | None:
    """Return the photo if it is stored already; raises ``NoPhotoRecord`` or ``StoreAway``.

    A record that is held for the grower names it too, for whoever sent that record.
    """
    held = Held.objects.filter(garden=garden, kind="photo", created_by_id=account.pk)
    if not Photo.objects.filter(garden=garden, sha256=sha256).exists() and not (
        held.filter(set__sha256=sha256).exists()
    ):
        raise NoPhotoRecord
    return find_blob(garden, sha256)


def check_hash(data: bytes, sha256: str) -> None:
    """Raise ``HashMismatch`` unless the bytes are the ones their name promises."""
    if hashlib.sha256(data).hexdigest() != sha256:
        raise HashMismatch


def is_untold(*, garden: Garden, sha256: str) -> bool:
    """Tell whether a record of the photo does not say "stored" yet.

    That happens when the bucket could not be asked while the record came in. The phone then sends
    the photo again, and its record is put right.
    """
    records = Photo.objects.filter(garden=garden, sha256=sha256, deleted=False)
    return records.exclude(blob="stored").exists()


def note_present(garden_id: UUID, read: list[Any]) -> list[Any]:
    """Mark those changes of a push whose photo or paper the server has already.

    Before the garden is locked: a bucket may take its time, and nobody has to wait for it.
    """
    named = {(one.kind, one.values["sha256"]) for one in read if _names_bytes(one)}
    photos, papers = ([each for kind, each in named if kind == of] for of in ("photo", "paper"))
    try:
        here = {("photo", each) for each in (find_blobs(garden_id, photos) if photos else ())}
        here |= {("paper", each) for each in (find_papers(garden_id, papers) if papers else ())}
    except StoreAway:
        return read  # then they wait for their bytes, and the phone asks about them
    return [
        replace(one, bytes_are_here=True)
        if _names_bytes(one) and (one.kind, one.values["sha256"]) in here
        else one
        for one in read
    ]


def _names_bytes(one: Any) -> bool:
    return isinstance(one, Mutation) and "sha256" in one.values


def store_photo(*, account: Any, garden_id: UUID, sha256: str, data: bytes) -> Stored:
    """Keep a photo whose record has arrived, and tell every phone through the garden's feed.

    Raises ``NoPhotoRecord``, ``HashMismatch``, ``BadImage``, ``Busy``, ``StoreFull`` or
    ``StoreAway``.
    """
    garden = Garden.objects.get(id=garden_id)
    blob = check_wanted(account=account, garden=garden, sha256=sha256)
    if blob is not None:
        if is_untold(garden=garden, sha256=sha256):
            _announce(account, garden_id, sha256, "stored", None)
        return Stored(blob, is_new=False)
    check_hash(data, sha256)
    try:
        picture = darkroom.redraw(data)
    except BadImage:
        _announce(account, garden_id, sha256, "refused", None)
        raise
    made = keep_picture(account=account, garden_id=garden_id, sha256=sha256, picture=picture)
    return Stored(made, is_new=True)


def keep_picture(*, account: Any, garden_id: UUID, sha256: str, picture: Picture) -> Blob:
    """Keep a picture already drawn, and tell every phone."""
    kept = write_picture(garden_id=garden_id, picture=picture)
    made = _announce(account, garden_id, sha256, "stored", kept)
    assert made is not None
    return made


def write_picture(*, garden_id: UUID, picture: Picture) -> dict[str, Any]:
    """Write a picture's files; return what its row says of them."""
    stored_sha256 = hashlib.sha256(picture.full).hexdigest()
    store = photo_store()
    store.write(picture_name(garden_id, stored_sha256, "full"), picture.full)
    store.write(picture_name(garden_id, stored_sha256, "thumb"), picture.thumb)
    return {
        "stored_sha256": stored_sha256,
        "n_bytes": len(picture.full),
        "width_px": picture.width_px,
        "height_px": picture.height_px,
    }


def _announce(
    account: Any, garden_id: UUID, sha256: str, state: str, kept: dict[str, Any] | None
) -> Blob | None:
    """Write the photo's new state into its records through the journal, in the garden's order."""
    with in_turn(), transaction.atomic():
        garden = locked(garden_id)
        assert garden is not None
        blob = None if kept is None else note_picture(garden, sha256, kept)
        ledger = Ledger(garden, account, timezone.now())
        tell_state(ledger, Photo, sha256, state)
        ledger.write()
    return blob


def note_picture(garden: Garden, sha256: str, kept: dict[str, Any]) -> Blob:
    """Write down which files hold the photo that was sent under a hash."""
    blob, _ = Blob.objects.update_or_create(garden=garden, sha256=sha256, defaults=kept)
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
