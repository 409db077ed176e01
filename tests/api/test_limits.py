from concurrent.futures import ThreadPoolExecutor
from datetime import datetime, timedelta
from uuid import UUID, uuid4

import pytest
from django.conf import settings
from django.db import connection, connections
from django.test.utils import CaptureQueriesContext

from gardens.services.limits import SlowDown, spend
from tests.api import test_papers as papers
from tests.api.test_blobs import announce, encoded, put
from tests.api.test_carrying import send
from tests.phones import bed, new_id, rating

NOON = datetime.fromisoformat("2031-06-14T12:00:05+00:00")


@pytest.fixture
def allow(monkeypatch):
    def allow(deed, **changed):
        narrow = {**settings.ALLOWANCES[deed], **changed}
        monkeypatch.setitem(settings.ALLOWANCES, deed, narrow)

    return allow


def spent(n, subject, amount=1, now=NOON, deed="push"):
    for _ in range(n):
        spend(deed=deed, subject=subject, amount=amount, now=now)


def test_the_61st_push_of_a_minute_waits_for_the_next_minute(db):
    phone = uuid4()
    spent(60, phone)
    with pytest.raises(SlowDown) as slow:
        spent(1, phone)
    assert slow.value.wait_s == 55
    spent(60, phone, now=NOON + timedelta(minutes=1))
    spent(1, uuid4())


def test_more_than_20000_items_a_day_wait_for_the_next_day(db):
    phone = uuid4()
    spent(1, phone, amount=20_000)
    with pytest.raises(SlowDown) as slow:
        spent(1, phone, now=NOON + timedelta(hours=1))
    assert slow.value.wait_s == 11 * 3600 - 5
    spent(1, phone, now=NOON + timedelta(days=1))


def test_two_exports_and_ten_arrivals_an_hour_and_120_photos_a_minute(db):
    garden = uuid4()
    spent(2, garden, deed="export")
    with pytest.raises(SlowDown) as slow:
        spent(1, garden, deed="export")
    assert slow.value.wait_s == 3595
    spent(10, garden, deed="arrival")
    with pytest.raises(SlowDown):
        spent(1, garden, deed="arrival")
    spent(120, garden, deed="photo")
    with pytest.raises(SlowDown):
        spent(1, garden, deed="photo")


def test_a_push_too_many_is_told_when_to_come_again_and_stores_nothing(phone, allow):
    allow("push", most_times=1)  # the garden's own was the first of this minute, or is long past
    answers = [phone.send(bed()) for _ in range(3)]
    assert (answers[-1].status_code, answers[-1].json()["code"]) == (429, "slow_down")
    assert 1 <= int(answers[-1].headers["Retry-After"]) <= 60


def test_a_photo_too_many_waits_and_one_that_is_here_costs_nothing(phone, allow):
    data, other = encoded("JPEG"), encoded("PNG")
    (_, first), (_, second) = announce(phone, data), announce(phone, other)
    allow("photo", most_a_day=len(data))
    assert put(phone, first, data).status_code == 201
    assert put(phone, first, data).status_code == 200
    assert put(phone, second, other).json()["code"] == "slow_down"


def test_bytes_spoiled_on_their_way_use_up_nothing_of_the_gardens_day(phone, allow):
    data, pdf = encoded("JPEG"), papers.PDF
    _, sha256 = announce(phone, data)
    papers.announce(phone)
    allow("photo", most_a_day=len(data) + len(pdf), most_times=2)
    for _ in range(3):
        assert put(phone, sha256, data[:-1]).json()["code"] == "hash_mismatch"
        spoiled = papers.put(phone, pdf[:-1], papers.hash_of(pdf))
        assert spoiled.json()["code"] == "hash_mismatch"
    assert put(phone, sha256, data).status_code == 201
    assert papers.put(phone).status_code == 201


def test_an_eleventh_file_of_an_hour_is_not_read(phone, allow):
    allow("arrival", most_a_day=10)  # the hour may end meanwhile
    answers = [send(phone, "arrivals", b"beans") for _ in range(11)]
    assert {one.json()["code"] for one in answers[:10]} == {"archive_unreadable"}
    assert (answers[10].status_code, answers[10].json()["code"]) == (429, "slow_down")


@pytest.mark.django_db(transaction=True)
def test_eight_at_once_count_as_eight():
    phone = uuid4()

    def one(_):
        try:
            spent(1, phone)
        finally:
            connections.close_all()

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(one, range(56)))
    spent(4, phone)
    with pytest.raises(SlowDown):
        spent(1, phone)


def n_queries(phone, *items):
    with CaptureQueriesContext(connection) as asked:
        phone.push(*items)
    return len(asked)


def test_a_push_costs_as_many_queries_for_twenty_ratings_as_for_one(phone):
    one = n_queries(phone, rating(new_id()))
    assert n_queries(phone, *[rating(new_id()) for _ in range(20)]) == one
    # 13 and the count of pushes; whoever came by a link is asked about with one more.
    assert one == 14
    ana = phone.lend("rater")
    ana.high = phone.high
    assert n_queries(ana, rating(new_id())) == one + 1


def test_a_subject_is_counted_under_its_own_id(db):
    spent(1, UUID(int=1))
    with connection.cursor() as cursor:
        cursor.execute("SELECT COUNT(*) FROM gardens_allowance")
        assert cursor.fetchone() == (1,)
