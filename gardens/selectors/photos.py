"""Which photos the server really has."""

from collections.abc import Collection
from uuid import UUID

from gardens.models import Blob, Garden
from gardens.photo_store.door import photo_store, picture_name

SIZES = ("full", "thumb")


def find_blob(garden: Garden, sha256: str) -> Blob | None:
    """Return the photo that was sent under this hash, if its files are really there."""
    return find_blobs(garden, [sha256]).get(sha256)


def find_blobs(garden: Garden | UUID, hashes: Collection[str]) -> dict[str, Blob]:
    """Return those photos of some hashes whose files are really there; raises ``StoreAway``.

    A backup may have been put back without its photos: the row alone proves nothing.
    """
    blobs = Blob.objects.filter(garden=garden, sha256__in=hashes)
    files = {
        blob: {picture_name(blob.garden_id, blob.stored_sha256, size) for size in SIZES}
        for blob in blobs
    }
    wanted = set().union(*files.values())
    there = photo_store().present(wanted) if wanted else set()
    return {blob.sha256: blob for blob, names in files.items() if names <= there}
