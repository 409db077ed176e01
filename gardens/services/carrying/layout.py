"""What lies where in a garden's file, how large it may be, and what is wrong with a bad one."""

import re

FORMAT = "knotbed-garden"
VERSION = 1

GARDEN = "garden.json"
JOURNAL = "journal.jsonl"
README = "README.txt"
TABLES = ("beds", "plantings", "checks", "ratings", "samples", "photos")
PHOTO_NAME = re.compile(r"blobs/([0-9a-f]{64})\.jpg")
PAPER_NAME = re.compile(r"papers/([0-9a-f]{64})\.pdf")

MOST_BYTES = 200_000_000
MOST_ENTRIES = 20_000
# Unpacked. The two large ones hold some hundred thousand changes.
MOST_OF = {GARDEN: 100_000_000, JOURNAL: 300_000_000, README: 1_000_000}
MOST_OF_TABLE = 100_000_000
MOST_OF_PHOTO = 8_000_000
MOST_OF_PAPER = 10_000_000
MOST_OF_ALL = 1_000_000_000
DEEPEST = 20


class BadArchive(Exception):
    """A garden's file that is not taken: why, as a code, and which part of it is at fault."""

    def __init__(self, code: str, part: str = "") -> None:
        super().__init__(f"{code} {part}".strip())
        self.code = code
        self.part = part


def table_name(table: str) -> str:
    """Return where a table lies."""
    return f"tables/{table}.csv"


def photo_name(sha256: str) -> str:
    """Return where a photo lies, by the hash its record names it with."""
    return f"blobs/{sha256}.jpg"


def paper_name(sha256: str) -> str:
    """Return where a paper lies, by its hash."""
    return f"papers/{sha256}.pdf"


def most_of(name: str) -> int | None:
    """Return how large a part may be unpacked [bytes]; None when it has no business there."""
    if name in MOST_OF:
        return MOST_OF[name]
    if name in map(table_name, TABLES):
        return MOST_OF_TABLE
    if PAPER_NAME.fullmatch(name):
        return MOST_OF_PAPER
    return MOST_OF_PHOTO if PHOTO_NAME.fullmatch(name) else None
