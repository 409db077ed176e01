"""A consistent copy of a SQLite database while it is written to, and putting one back.

Not for photos.
"""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

from django.core.management import call_command
from django.db import connection

from gardens.services.backup.manifest import BadBackup
from gardens.services.backup.snapshot import (
    BLOBS,
    HELD_PAPERS,
    MIGRATIONS,
    NONE,
    PAPERS,
    PAPERS_TABLE,
    Snapshot,
    hyphenated,
)

COPY = "db.sqlite3"
NAMED = """json_extract("set", '$.sha256')"""


def database_file() -> Path:
    """Return the file the server's database is in."""
    return Path(connection.settings_dict["NAME"])


def snapshot(folder: Path) -> Snapshot:
    """Copy the database as it is at one moment; whoever writes meanwhile is not held up."""
    here, there = sqlite3.connect(database_file(), timeout=20), sqlite3.connect(folder / COPY)
    with closing(here) as live, closing(there) as copy:
        live.backup(copy)
        copy.execute("pragma journal_mode = delete")  # one file, without a -wal beside it
        _check(copy)
        migrations = [(app, name) for app, name in copy.execute(MIGRATIONS)]
        blobs = [(hyphenated(garden), stored) for garden, stored in copy.execute(BLOBS)]
        asked = (PAPERS, HELD_PAPERS.format(sha256=NAMED)) if _has_papers(copy) else (NONE, NONE)
        papers, held = (
            [(hyphenated(garden), each) for garden, each in copy.execute(one)] for one in asked
        )
    return Snapshot({COPY: folder / COPY}, {}, migrations, blobs, papers, held)


def _has_papers(copy: sqlite3.Connection) -> bool:
    """Whether the database is of a version that keeps papers."""
    named = "select 1 from sqlite_master where type = 'table' and name = ?"
    return copy.execute(named, [PAPERS_TABLE]).fetchone() is not None


def _check(copy: sqlite3.Connection) -> None:
    found = copy.execute("pragma integrity_check").fetchall()
    if found != [("ok",)] or copy.execute("pragma foreign_key_check").fetchone():
        raise BadBackup("The copy of the database is damaged.")


def check_unused() -> None:
    """Raise ``BadBackup`` while another program has the database open."""
    connection.close()
    path = database_file()
    if not path.is_file():
        return
    with closing(sqlite3.connect(path, timeout=1)) as live:
        try:
            # Only who is alone with the file may leave WAL mode; this also folds the -wal in.
            live.execute("pragma journal_mode = delete").fetchone()
        except sqlite3.OperationalError:
            raise BadBackup(
                "The server is still running, or another program has its database open. "
                "Stop it first."
            ) from None


def put_back(parts: Path, _tables: Any, aside: Path, _migrations: Any) -> None:
    """Bring the copy up to this version, then change places with the present database."""
    staged = parts / COPY
    with closing(sqlite3.connect(staged)) as copy:
        _check(copy)
    _migrate(staged)
    path = database_file()
    if path.is_file():
        shutil.move(path, aside / COPY)
    path.parent.mkdir(parents=True, exist_ok=True)
    shutil.move(staged, path)


def _migrate(staged: Path) -> None:
    """Bring the copy up to this version first: what fails here has harmed nothing yet."""
    present = connection.settings_dict["NAME"]
    connection.close()
    connection.settings_dict["NAME"] = str(staged)
    try:
        call_command("migrate", verbosity=0)
        with connection.cursor() as cursor:
            cursor.execute("pragma journal_mode = delete")
    finally:
        connection.close()
        connection.settings_dict["NAME"] = present
