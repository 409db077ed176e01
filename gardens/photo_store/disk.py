"""Photos as files of the data folder."""

import errno
import os
import shutil
import tempfile
import time
from collections.abc import Collection
from contextlib import suppress
from pathlib import Path
from typing import BinaryIO
from uuid import UUID

from gardens.photo_store.refusals import StoreFull

DAY_SECONDS = 24 * 3600


class Disk:
    """A folder; a file appears in it whole, after it has reached the disk."""

    def __init__(self, folder: Path) -> None:
        self.folder = Path(folder)

    def present(self, names: Collection[str]) -> set[str]:
        """Return those of some names whose files are there."""
        return {name for name in names if (self.folder / name).is_file()}

    def open(self, name: str) -> BinaryIO:
        """Open a file; raises ``FileNotFoundError``."""
        return (self.folder / name).open("rb")

    def write(self, name: str, data: bytes) -> None:
        """Write the whole file or none of it, and only return when it is on the disk."""
        incoming, path = self.folder / "incoming", self.folder / name
        try:
            incoming.mkdir(parents=True, exist_ok=True)
            path.parent.mkdir(parents=True, exist_ok=True)
            _sweep(incoming)
            _put(data, incoming, path)
            _settle(path.parent)
        except OSError as error:
            if error.errno in (errno.ENOSPC, errno.EDQUOT):
                raise StoreFull from error
            raise

    def discard(self, garden_id: UUID) -> None:
        """Remove the garden's folder."""
        shutil.rmtree(self.folder / str(garden_id), ignore_errors=True)


def _put(data: bytes, incoming: Path, path: Path) -> None:
    """Write beside its place, then move; what could not be finished leaves no room taken."""
    file = tempfile.NamedTemporaryFile(dir=incoming, delete=False)  # noqa: SIM115 (moved, not shut)
    try:
        with file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(file.name, path)
    except BaseException:
        Path(file.name).unlink(missing_ok=True)
        raise


def _settle(folder: Path) -> None:
    """Wait until a new name in the folder is on the disk too, where the system can do that."""
    if os.name == "nt":
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def _sweep(incoming: Path) -> None:
    """Remove what a killed server left behind more than a day ago.

    What others are writing at this moment takes its own name, and leaves, while we look.
    """
    for left in incoming.iterdir():
        with suppress(FileNotFoundError):
            if left.stat().st_mtime < time.time() - DAY_SECONDS:
                left.unlink()
