"""What both kinds of database hand over for a backup."""

from dataclasses import dataclass
from pathlib import Path
from uuid import UUID

MIGRATIONS = "select app, name from django_migrations order by id"
BLOBS = "select garden_id, stored_sha256 from gardens_blob order by garden_id, stored_sha256"

PAPERS_TABLE = "gardens_paper"
PAPERS = (
    f"select distinct garden_id, sha256 from {PAPERS_TABLE} where blob = 'stored' "
    "order by garden_id, sha256"
)
# Those that came after a link's end; each database has its own words for a part of a document.
HELD_PAPERS = (
    "select distinct garden_id, {sha256} from gardens_held "
    "where kind = 'paper' and {sha256} is not null order by 1, 2"
)
NONE = "select 1, 2 where 1 = 2"  # of a version that kept none


@dataclass(frozen=True)
class Snapshot:
    """Files of one moment's database, and the photos and papers that database names."""

    files: dict[str, Path]
    tables: dict[str, list[str]]
    migrations: list[tuple[str, str]]
    # Garden and stored hash.
    blobs: list[tuple[str, str]]
    # Garden and hash.
    papers: list[tuple[str, str]]
    # The same of held records, of which some may never have got their bytes.
    held_papers: list[tuple[str, str]]


def hyphenated(each: object) -> str:
    """Write an id as folders are named, whichever way the database keeps it."""
    return str(UUID(str(each)))
