"""A PostgreSQL server of the tests' own, and databases in it: one way for all who need one."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from urllib.parse import urlsplit
from uuid import uuid4

import psycopg
import pytest

from api.bootstrap import postgres

DATABASES = ("SQLite", "PostgreSQL")


def on_both_databases(fixture: str) -> pytest.MarkDecorator:
    """Run a test twice; the fixture finds the kind of its database in ``request.param``."""
    return pytest.mark.parametrize(fixture, DATABASES, indirect=True)


@pytest.fixture(scope="session")
def cluster():
    """The address of a PostgreSQL server, started for the first test that asks for it."""
    programs = postgres.programs()
    if programs is None:
        leave_out()
    with postgres.running(programs) as address:
        yield address


def leave_out() -> None:
    """Leave the test out, and say so; a machine that checks for everybody must not do that."""
    told = "PostgreSQL is not installed here"
    if os.environ.get("CI"):
        pytest.fail(f"{told}, and this run has to try both databases")
    pytest.skip(f"{told}: tried on SQLite only")


@contextmanager
def database(cluster: str, *, like: str = "template1") -> Iterator[str]:
    """Yield the address of a new database, a copy of another one; dropped afterwards."""
    name = f"garden_{uuid4().hex[:12]}"
    with psycopg.connect(cluster, autocommit=True) as maker:
        maker.execute(f'create database "{name}" template "{name_of(like)}"')
    try:
        yield urlsplit(cluster)._replace(path=f"/{name}").geturl()
    finally:
        with psycopg.connect(cluster, autocommit=True) as maker:
            maker.execute(f'drop database "{name}" with (force)')


def name_of(address: str) -> str:
    """Return the name of the database at an address."""
    return address.rsplit("/", 1)[-1]
