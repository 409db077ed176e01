"""A consistent copy of our tables in PostgreSQL while they are written to, and putting one back.

Each table is copied as text within one snapshot, so a backup goes into any later PostgreSQL and
needs none of its programs. Not for photos, nor for tables of somebody else in the database.
"""

from pathlib import Path
from typing import Any

from django.core.management import call_command
from django.db import DatabaseError, connection, transaction
from django.db.migrations.executor import MigrationExecutor
from psycopg import Error, sql

from gardens.services.backup.manifest import CHUNK, BadBackup
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

NAMED = """"set" ->> 'sha256'"""
OURS = "^(gardens|auth|django)_"
BOOKKEEPING = "django_migrations"  # written by migrating, not copied
TABLES = """
    select c.table_name, array_agg(c.column_name::text order by c.ordinal_position)
    from information_schema.columns c
    join information_schema.tables t using (table_schema, table_name)
    where c.table_schema = current_schema() and t.table_type = 'BASE TABLE' and c.table_name ~ %s
    group by c.table_name order by c.table_name
"""
COUNTED = """
    select table_name, column_name from information_schema.columns
    where table_schema = current_schema() and is_identity = 'YES' and table_name ~ %s
"""
OTHERS = """
    select count(*) from pg_stat_activity
    where datname = current_database() and pid <> pg_backend_pid()
        and backend_type = 'client backend'
"""


def snapshot(folder: Path) -> Snapshot:
    """Copy our tables as they are at one moment; whoever writes meanwhile is not held up."""
    apart = connection.copy()
    try:
        apart.connect()
        cursor = apart.connection.cursor()
        cursor.execute("begin isolation level repeatable read read only")
        tables = {name: columns for name, columns in _tables(cursor) if name != BOOKKEEPING}
        files = {}
        for name, columns in tables.items():
            files[f"tables/{name}.copy"] = folder / f"{name}.copy"
            _copy_out(cursor, name, columns, folder / f"{name}.copy")
        migrations = [(app, name) for app, name in cursor.execute(MIGRATIONS)]
        blobs = [(hyphenated(garden), stored) for garden, stored in cursor.execute(BLOBS)]
        is_new = PAPERS_TABLE in tables
        asked = (PAPERS, HELD_PAPERS.format(sha256=NAMED)) if is_new else (NONE, NONE)
        papers, held = (
            [(hyphenated(garden), each) for garden, each in cursor.execute(one)] for one in asked
        )
        cursor.execute("rollback")
    finally:
        apart.close()
    return Snapshot(files, tables, migrations, blobs, papers, held)


def _tables(cursor: Any) -> list[tuple[str, list[str]]]:
    cursor.execute(TABLES, [OURS])
    return list(cursor.fetchall())


def _named(words: str, table: str, columns: list[str]) -> sql.Composed:
    listed = sql.SQL(", ").join(map(sql.Identifier, columns))
    return sql.SQL(words).format(table=sql.Identifier(table), columns=listed)


def _copy_out(cursor: Any, name: str, columns: list[str], path: Path) -> None:
    asked = _named("copy {table} ({columns}) to stdout", name, columns)
    with path.open("wb") as file, cursor.copy(asked) as copy:
        for block in copy:
            file.write(block)


def _copy_in(cursor: Any, name: str, columns: list[str], path: Path) -> None:
    asked = _named("copy {table} ({columns}) from stdin", name, columns)
    with path.open("rb") as file, cursor.copy(asked) as copy:
        while block := file.read(CHUNK):
            copy.write(block)


def check_unused() -> None:
    """Raise ``BadBackup`` while anybody else is connected to the database."""
    with connection.cursor() as cursor:
        cursor.execute(OTHERS)
        if cursor.fetchone()[0]:
            raise BadBackup(
                "The server is still running, or somebody else uses its database. Stop it first."
            )


def put_back(
    parts: Path, tables: dict[str, list[str]], aside: Path, migrations: list[tuple[str, str]]
) -> None:
    """Move the present tables into a schema of their own and fill new ones, or change nothing.

    The new tables are first made as they were at the time of the backup, then filled, then
    brought up to this version, all in one transaction.
    """
    schema = aside.name.replace("-", "_")
    try:
        with transaction.atomic():
            cursor = connection.connection.cursor()
            cursor.execute("set local lock_timeout = '5s'")
            _move_present(cursor, schema)
            MigrationExecutor(connection).migrate(_as_of(migrations))
            for name, columns in tables.items():
                cursor.execute(_named("truncate {table} cascade", name, columns))
            # A migration that adds a reference leaves it checked at once for this transaction.
            cursor.execute("set constraints all deferred")
            for name, columns in tables.items():
                _copy_in(cursor, name, columns, parts / "tables" / f"{name}.copy")
            _count_on(cursor)
            cursor.execute("set constraints all immediate")
            call_command("migrate", verbosity=0)
    except (DatabaseError, Error) as error:
        raise BadBackup(f"The database did not take the backup: {error}".strip()) from error


def _move_present(cursor: Any, schema: str) -> None:
    present = [name for name, _ in _tables(cursor)]
    if not present:
        return
    cursor.execute(sql.SQL("create schema {}").format(sql.Identifier(schema)))
    for name in present:
        move = sql.SQL("alter table {} set schema {}")
        cursor.execute(move.format(sql.Identifier(name), sql.Identifier(schema)))


def _as_of(migrations: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """Return the newest migrations of the backup's time: those no other of them builds upon."""
    graph = MigrationExecutor(connection).loader.graph
    known = set(migrations)
    built_upon = {parent.key for each in known for parent in graph.node_map[each].parents}
    return sorted(known - built_upon)


def _count_on(cursor: Any) -> None:
    """Let the tables go on counting behind the rows they were given."""
    cursor.execute(COUNTED, [OURS])
    for table, column in cursor.fetchall():
        count = sql.SQL(
            "select setval(pg_get_serial_sequence({}, {}), coalesce(max({}), 0) + 1, false) from {}"
        )
        cursor.execute(count.format(table, column, sql.Identifier(column), sql.Identifier(table)))
