"""Bringing what a helper's phone saved to a file, when the phone itself can no longer send it.

The changes go in as ordinary ones, under numbers made of their own, marked with the name in the
file and with who brings them. Should the phone send them itself later, nothing is doubled.
"""

import base64
import binascii
import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import islice
from typing import Any
from uuid import UUID, uuid5

from django.utils import timezone

from gardens.domain.lab_kinds import MOST_PAPER_BYTES
from gardens.domain.records import KINDS
from gardens.domain.strict_json import can_be_stored, strict_json
from gardens.models import Garden
from gardens.services import papers, photos
from gardens.services.carrying.catching_up import BATCH, brought_by, number_of
from gardens.services.carrying.layout import DEEPEST
from gardens.services.darkroom.picture import BadImage
from gardens.services.push import Sender, push

MOST_SAVED_BYTES = 100_000_000
PARTS = ("mid", "op", "kind", "id", "base", "at", "set")
LONGEST_NAME = 150
PDF = "application/pdf"
NOT_TAKEN = (photos.NoPhotoRecord, papers.NoPaperRecord, papers.NotPdf, BadImage)


class SavedFileUnreadable(Exception):
    """The file is not one a phone saved."""


@dataclass(frozen=True)
class Saved:
    """What a phone saved: whose it was, its changes in order, its photos and papers as text."""

    author: str
    account: str
    changes: list[dict[str, Any]]
    photos: list[dict[str, Any]]


@dataclass
class Brought:
    """Kind and result of each change, and what became of the photos and papers."""

    n_other_gardens: int
    results: list[tuple[str, dict[str, Any]]] = field(default_factory=list)
    photos: dict[str, int] = field(default_factory=lambda: {"stored": 0, "here": 0, "refused": 0})


def read_saved_file(text: bytes) -> Saved:
    """Read the file; raises ``SavedFileUnreadable``."""
    try:
        told = strict_json(text.removeprefix(b"\xef\xbb\xbf"), DEEPEST)
        account = told["account"]
        author, account_id = account["username"], account["id"]
        saved = Saved(author[:LONGEST_NAME], str(account_id), told["changes"], told["photos"])
        lists = [saved.changes, saved.photos]
        fits = all(isinstance(one, dict) for each in lists for one in each)
    except (ValueError, KeyError, TypeError, AttributeError):
        raise SavedFileUnreadable from None
    if not fits or not can_be_stored([saved.author, saved.account]):
        raise SavedFileUnreadable
    return saved


def bring_saved_file(*, account: Any, garden: Garden, saved: Saved) -> Brought:
    """Bring what the file has of this garden; what it has of others is left alone."""
    mine = [one for one in saved.changes if one.get("garden") == str(garden.id)]
    brought = Brought(n_other_gardens=len(saved.changes) - len(mine))
    device = uuid5(garden.id, f"file of {saved.account}")
    sender = Sender(account, device, None, None, brought_by(saved.author, account))
    known = _known(garden, mine)
    waiting = iter(mine)
    while batch := list(islice(waiting, BATCH)):
        brought.results += _push(sender, garden, batch, known)
    for photo in saved.photos:
        if photo.get("garden") == str(garden.id):
            brought.photos[_keep(account, garden, photo)] += 1
    return brought


def _known(garden: Garden, changes: list[dict[str, Any]]) -> set[str]:
    """Return the changes that had reached the server after all: the phone only did not hear."""
    mids = [mid for mid in map(_mid, changes) if mid]
    found: set[str] = set()
    waiting = iter(mids)
    while page := list(islice(waiting, BATCH)):
        rows = garden.journal.filter(mid__in=page).values_list("mid", flat=True)
        found.update(map(str, rows))
    return found


def _mid(change: dict[str, Any]) -> UUID | None:
    try:
        return UUID(str(change.get("mid")))
    except ValueError:
        return None


def _push(
    sender: Sender, garden: Garden, changes: list[dict[str, Any]], known: set[str]
) -> Iterator[tuple[str, dict[str, Any]]]:
    new = [one for one in changes if one.get("mid") not in known]
    items = [_item(garden.id, one) for one in new]
    done = push(sender=sender, garden_id=garden.id, items=items, received_at=timezone.now())
    results = iter(done.results)
    for one in changes:
        here = {"status": "duplicate"} if one.get("mid") in known else next(results)
        mid = one.get("mid") if _mid(one) else None
        kind = one.get("kind")
        yield kind if isinstance(kind, str) and kind in KINDS else "", {**here, "mid": mid}


def _item(garden: UUID, change: dict[str, Any]) -> dict[str, Any]:
    """Return a change of the file as an item of a push."""
    item = {name: change[name] for name in PARTS if name in change}
    if item.get("op") == "delete":
        item.pop("set", None)
    mid = _mid(change)
    return {**item, "mid": str(number_of(garden, mid))} if mid else item


def _keep(account: Any, garden: Garden, photo: dict[str, Any]) -> str:
    """Keep one photo or paper; say whether it was stored, here already or refused."""
    shelf = _keep_paper if photo.get("mime") == PDF else _keep_photo
    try:
        data = base64.b64decode(photo["base64"], validate=True)
        is_new = shelf(account, garden, hashlib.sha256(data).hexdigest(), data)
    except (KeyError, TypeError, binascii.Error, ValueError, *NOT_TAKEN):
        return "refused"
    return "stored" if is_new else "here"


def _keep_photo(account: Any, garden: Garden, sha256: str, data: bytes) -> bool:
    done = photos.store_photo(account=account, garden_id=garden.id, sha256=sha256, data=data)
    return done.is_new


def _keep_paper(account: Any, garden: Garden, sha256: str, data: bytes) -> bool:
    if len(data) > MOST_PAPER_BYTES:
        raise papers.NotPdf
    return papers.store_paper(account=account, garden_id=garden.id, sha256=sha256, data=data)
