import json
from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import DatabaseError, connection, connections, transaction

from gardens.models import Garden
from gardens.services.carrying import export
from gardens.services.moments import at_one_moment
from tests.gardens.carried import lived_in, look, parts_of, taken_away
from tests.phones import bed

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def meanwhile():
    """Do something as another request would, which must not have to wait for this one."""

    def apart(task):
        try:
            return task()
        finally:
            connections.close_all()

    with ThreadPoolExecutor(1) as pool:
        yield lambda task: pool.submit(apart, task).result(timeout=10)


def test_phones_push_while_a_garden_is_taken_away_and_the_file_is_of_one_moment(
    phone, tablet, meanwhile, monkeypatch
):
    lived_in(phone, tablet)
    before = taken_away(phone.garden)
    asked = export.find_blobs

    def slow(garden, hashes):
        assert meanwhile(lambda: phone.result(bed(name="Late")))["status"] == "applied"
        return asked(garden, hashes)

    monkeypatch.setattr(export, "find_blobs", slow)
    assert taken_away(phone.garden) == before

    monkeypatch.setattr(export, "find_blobs", asked)
    after = taken_away(phone.garden)
    told = json.loads(parts_of(after)["garden.json"])
    assert told["head"] == Garden.objects.get().mark
    assert "Late" in [one["doc"].get("name") for one in told["records"]]
    assert look(phone.account, after).state == "same"


def test_what_is_read_stands_still_and_nothing_is_written(phone, meanwhile):
    with pytest.raises(ValueError), at_one_moment():
        before = Garden.objects.get().head
        meanwhile(lambda: phone.push(bed()))
        assert Garden.objects.get().head == before
        raise ValueError
    assert Garden.objects.get().head == before + 1


def test_after_it_the_right_to_write_is_asked_for_at_once_again(phone):
    usual = getattr(connection, "transaction_mode", None)
    with at_one_moment():
        Garden.objects.get()
    assert getattr(connection, "transaction_mode", None) == usual
    Garden.objects.update(head=0)


@pytest.mark.skipif(connection.vendor != "postgresql", reason="SQLite has no such promise")
def test_postgresql_refuses_to_write_in_it(phone):
    with pytest.raises(DatabaseError), at_one_moment():
        Garden.objects.update(head=0)


def test_inside_another_transaction_it_promises_nothing_and_says_so(phone):
    with pytest.raises(RuntimeError), transaction.atomic(), at_one_moment():
        pass
