"""Where the bytes of a paper are, if the server has them: a file named by its hash, no row."""

from collections.abc import Iterable
from pathlib import Path
from uuid import UUID

from django.conf import settings


def paper_path(garden_id: UUID, sha256: str) -> Path:
    """Return the file of a paper; its hash was checked to be one."""
    return Path(settings.PHOTOS_DIR) / str(garden_id) / f"{sha256}.pdf"


def find_papers(garden_id: UUID, hashes: Iterable[str]) -> set[str]:
    """Return those papers of some hashes whose files are really there."""
    return {sha256 for sha256 in hashes if paper_path(garden_id, sha256).is_file()}
