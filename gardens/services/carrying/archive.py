"""Reads a zip from anybody: nothing of it is believed before it has been read.

Nothing is unpacked to a name from the file. Not for what the parts say: see ``contents``.
"""

import re
import stat
import struct
import zipfile
import zlib
from collections.abc import Iterator
from typing import Any, BinaryIO

from gardens.services.carrying.layout import (
    MOST_BYTES,
    MOST_ENTRIES,
    MOST_OF_ALL,
    PAPER_NAME,
    PHOTO_NAME,
    BadArchive,
    most_of,
)

CHUNK = 1 << 16
# Text packs to a tenth at best; what swells more than this was made to.
MOST_RATIO = 100
RATIO_COUNTS_FROM = 1_000_000

# The last record of a zip (APPNOTE.TXT 4.3.16) and the one that says there is a larger one before.
END, END_BYTES = b"PK\x05\x06", 22
END64, END64_BYTES = b"PK\x06\x07", 20
MOST_LIST_BYTES = MOST_ENTRIES * 250
IS_LOCKED = 0x1
UNREADABLE = (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, OSError)


class Archive:
    """A garden's file, opened; raises ``BadArchive`` for one that is not taken."""

    def __init__(self, file: BinaryIO):
        _check_end(file)
        try:
            self._packed = zipfile.ZipFile(file)
        except (*UNREADABLE, ValueError, struct.error):
            raise BadArchive("archive_unreadable") from None
        listed = self._packed.infolist()
        if len(listed) > MOST_ENTRIES:
            raise BadArchive("archive_too_large")
        for about in listed:
            _check_entry(about)
        self.names = {about.filename for about in listed}
        if len(self.names) != len(listed):
            raise BadArchive("archive_foreign", "one name twice")
        self._n_unpacked: dict[str, int] = {}

    def photos(self) -> list[str]:
        """Return the hashes the photos are named by."""
        return self._hashes(PHOTO_NAME)

    def papers(self) -> list[str]:
        """Return the hashes the papers are named by."""
        return self._hashes(PAPER_NAME)

    def _hashes(self, pattern: re.Pattern[str]) -> list[str]:
        found = (pattern.fullmatch(name) for name in self.names)
        return sorted(match[1] for match in found if match)

    def read(self, name: str) -> bytes:
        """Return a part as a whole."""
        return b"".join(self._blocks(name))

    def lines(self, name: str, most: int) -> Iterator[bytes]:
        """Give a part line by line, each of at most so many bytes."""
        rest = b""
        for block in self._blocks(name):
            *whole, rest = (rest + block).split(b"\n")
            if any(len(line) > most for line in (*whole, rest)):
                raise BadArchive("archive_too_large", name)
            yield from whole
        if rest:
            yield rest

    def _blocks(self, name: str) -> Iterator[bytes]:
        if name not in self.names:
            raise BadArchive("archive_unreadable", name)
        about = self._packed.getinfo(name)
        n_bytes = 0
        try:
            with self._packed.open(about) as part:
                while block := part.read(CHUNK):
                    n_bytes += len(block)
                    self._count(about, n_bytes)
                    yield block
        except UNREADABLE:
            raise BadArchive("archive_unreadable", name) from None

    def _count(self, about: zipfile.ZipInfo, n_bytes: int) -> None:
        """Stop at a part that is larger than it may be, whatever its header says."""
        name = about.filename
        self._n_unpacked[name] = n_bytes
        swells = n_bytes > max(RATIO_COUNTS_FROM, MOST_RATIO * about.compress_size)
        if n_bytes > (most_of(name) or 0) or swells:
            raise BadArchive("archive_too_large", name)
        if sum(self._n_unpacked.values()) > MOST_OF_ALL:
            raise BadArchive("archive_too_large")


def _check_end(file: BinaryIO) -> None:
    """Refuse a list of contents that would fill the memory before it could be counted."""
    n_bytes = file.seek(0, 2)
    if n_bytes > MOST_BYTES:
        raise BadArchive("archive_too_large")
    if n_bytes < END_BYTES:
        raise BadArchive("archive_unreadable")
    file.seek(max(0, n_bytes - END_BYTES - END64_BYTES))
    tail = file.read()
    end = tail[-END_BYTES:]
    if end[:4] != END or tail[:-END_BYTES][-END64_BYTES:][:4] == END64:
        raise BadArchive("archive_unreadable")
    n_entries, n_list_bytes = struct.unpack("<HL", end[10:16])
    if n_entries > MOST_ENTRIES or n_list_bytes > MOST_LIST_BYTES:
        raise BadArchive("archive_too_large")


def _check_entry(about: Any) -> None:
    """Refuse a part that has no business in a garden's file, by its name or its nature."""
    mode = about.external_attr >> 16
    plain = stat.S_IFMT(mode) in (0, stat.S_IFREG) and not about.flag_bits & IS_LOCKED
    known = about.orig_filename == about.filename and most_of(about.filename) is not None
    if not plain or not known:
        raise BadArchive("archive_foreign", ascii(about.orig_filename)[1:61])
    if about.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        raise BadArchive("archive_unreadable", about.filename)
