"""Where the bytes of a photo are, if the server has them."""

from collections.abc import Collection
from pathlib import Path
from uuid import UUID

from django.conf import settings

from gardens.models import Blob, Garden


def picture_path(garden_id: UUID | str, stored_sha256: str, size: str) -> Path:
    """Return the file of a stored photo; every part of its name was made by the server."""
    return Path(settings.PHOTOS_DIR) / str(garden_id) / f"{stored_sha256}.{size}.jpg"


def find_blob(garden: Garden, sha256: str) -> Blob | None:
    """Return the photo that was sent under this hash, if its files are really there."""
    return find_blobs(garden, [sha256]).get(sha256)


def find_blobs(garden: Garden, hashes: Collection[str]) -> dict[str, Blob]:
    """Return those photos of some hashes whose files are really there.

    A backup may have been put back without its photos: the row alone proves nothing.
    """
    blobs = Blob.objects.filter(garden=garden, sha256__in=hashes)
    return {blob.sha256: blob for blob in blobs if _is_here(garden, blob)}


def _is_here(garden: Garden, blob: Blob) -> bool:
    sizes = (picture_path(garden.id, blob.stored_sha256, size) for size in ("full", "thumb"))
    return all(path.is_file() for path in sizes)
