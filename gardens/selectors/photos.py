"""Where the bytes of a photo are, if the server has them."""

from pathlib import Path
from uuid import UUID

from django.conf import settings

from gardens.models import Blob, Garden


def picture_path(garden_id: UUID, stored_sha256: str, size: str) -> Path:
    """Return the file of a stored photo; every part of its name was made by the server."""
    return Path(settings.PHOTOS_DIR) / str(garden_id) / f"{stored_sha256}.{size}.jpg"


def find_blob(garden: Garden, sha256: str) -> Blob | None:
    """Return the photo that was sent under this hash, if its files are really there."""
    blob = Blob.objects.filter(garden=garden, sha256=sha256).first()
    if blob is None:
        return None
    sizes = (picture_path(garden.id, blob.stored_sha256, size) for size in ("full", "thumb"))
    return blob if all(path.is_file() for path in sizes) else None
