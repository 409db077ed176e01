import hashlib

import pytest

from gardens.models import Paper
from gardens.photo_store import disk, refusals
from tests.phones import item, new_id

PDF = b"%PDF-1.7\nnot read by anybody here\n%%EOF\n"


def hash_of(data):
    return hashlib.sha256(data).hexdigest()


def record_of(data=PDF, **values):
    about = {
        "of": {"kind": "lab_profile", "id": new_id()},
        "name": "order form.pdf",
        "sha256": hash_of(data),
        "n_bytes": len(data),
    }
    return item("put", "paper", new_id(), **about | values)


def announce(phone, data=PDF, **values):
    sent = record_of(data, **values)
    assert phone.result(sent)["status"] == "applied"
    return sent["id"]


def put(phone, data=PDF, sha256=None):
    return phone.client.put(
        f"/api/v1/{phone.path(f'papers/{sha256 or hash_of(data)}')}",
        data,
        content_type="application/pdf",
        headers={"X-CSRFToken": phone.csrf},
    )


def get(phone, data=PDF):
    return phone.client.get(f"/api/v1/{phone.path(f'papers/{hash_of(data)}')}")


def state(record):
    return Paper.objects.get(id=record).blob


def test_a_paper_comes_back_byte_for_byte(phone):
    record = announce(phone)
    assert get(phone).status_code == 404
    assert put(phone).status_code == 201
    answer = get(phone)
    assert b"".join(answer.streaming_content) == PDF
    assert state(record) == "stored"
    assert put(phone).status_code == 200


def test_a_paper_is_a_download_that_can_run_nothing(phone):
    announce(phone)
    put(phone)
    headers = get(phone).headers
    assert headers["Content-Type"] == "application/pdf"
    assert headers["Content-Disposition"].startswith("attachment")
    assert headers["Content-Security-Policy"] == "default-src 'none'; sandbox"
    assert headers["X-Content-Type-Options"] == "nosniff"


def test_phones_hear_through_the_feed_that_a_paper_is_there(phone):
    record = announce(phone)
    put(phone)
    assert phone.records("paper")[record]["doc"]["blob"] == "stored"


def test_a_paper_without_a_record_waits(phone):
    assert put(phone).json()["code"] == "no_paper_record"


@pytest.mark.parametrize("data", [b"", b"<html>", b"PK\x03\x04", b"x" * 1024 + PDF])
def test_what_is_no_pdf_is_refused_and_its_record_says_so(phone, data):
    record = announce(phone, data, n_bytes=max(1, len(data)))
    answer = put(phone, data)
    assert (answer.status_code, answer.json()["code"]) == (415, "not_pdf")
    assert state(record) == "refused"
    assert get(phone, data).status_code == 404


def test_bytes_that_are_not_the_ones_promised_are_refused(phone):
    record = announce(phone)
    assert put(phone, PDF + b" ", hash_of(PDF)).json()["code"] == "hash_mismatch"
    assert state(record) == "pending"


def test_a_paper_of_more_than_10_mb_is_refused(phone):
    data = PDF + b"\0" * 10_000_000
    announce(phone, data, n_bytes=10_000_000)
    assert put(phone, data).json()["code"] == "paper_too_large"


def test_a_second_record_of_a_stored_paper_is_stored_from_the_start(phone):
    announce(phone)
    put(phone)
    assert state(announce(phone)) == "stored"


def test_a_full_disk_stops_the_paper_and_says_so(phone, monkeypatch):
    def full(store, name, data):
        raise refusals.StoreFull

    record = announce(phone)
    monkeypatch.setattr(disk.Disk, "write", full)
    assert put(phone).status_code == 507
    assert state(record) == "pending"


def test_a_stranger_sees_no_paper(phone, stranger):
    announce(phone)
    put(phone)
    assert get(stranger).status_code == 401
