"""The one door to the bytes of photos, whether they lie on this disk or in a bucket elsewhere.

Not for deciding which photos there should be. Names are made by the server from hashes.
"""

from collections.abc import Collection
from typing import BinaryIO, Protocol
from uuid import UUID

from django.conf import settings

from gardens.photo_store.disk import Disk


class PhotoStore(Protocol):
    """Keeps files by name; a file is whole or not there, and there means durably there."""

    def present(self, names: Collection[str]) -> set[str]:
        """Return those of some names whose files are really there; raises ``StoreAway``."""

    def open(self, name: str) -> BinaryIO:
        """Open a file; raises ``FileNotFoundError`` or ``StoreAway``."""

    def discard(self, garden_id: UUID) -> None:
        """Remove every file of a garden, as far as that can be done now."""

    def write(self, name: str, data: bytes) -> None:
        """Keep a file; raises ``StoreFull`` or ``StoreAway``, and then nothing is kept."""


def photo_store() -> PhotoStore:
    """Return where this server keeps its photos."""
    if settings.PHOTOS_BUCKET is None:
        return Disk(settings.PHOTOS_DIR)
    from gardens.photo_store.bucket import bucket_at  # only who has a bucket waits for its library

    return bucket_at(settings.PHOTOS_BUCKET)


def picture_name(garden_id: UUID, stored_sha256: str, size: str) -> str:
    """Return the name of a stored photo; every part of it was made by the server."""
    return f"{garden_id}/{stored_sha256}.{size}.jpg"


def paper_name(garden_id: UUID, sha256: str) -> str:
    """Return the name of a stored paper; its hash was checked to be one."""
    return f"{garden_id}/{sha256}.pdf"
