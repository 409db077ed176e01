import http.server
import threading
from dataclasses import replace
from urllib.parse import urlsplit

import pytest
from django.core.management import CommandError

from gardens.management.photo_place import check_photo_store
from gardens.photo_store.bucket import Bucket, bucket_at
from gardens.photo_store.refusals import StoreAway
from tests.api.test_blobs import announce, fetched, put, store
from tests.phones import item
from tests.photographs import HEIC, encoded


@pytest.fixture
def nobody():
    """An address at which nothing answers."""
    probe = http.server.HTTPServer(("127.0.0.1", 0), http.server.BaseHTTPRequestHandler)
    probe.server_close()
    return f"http://127.0.0.1:{probe.server_port}"


@pytest.fixture
def away(settings, address, nobody):
    """Call it to take the bucket away."""
    bucket_at.cache_clear()

    def take():
        settings.PHOTOS_BUCKET = replace(address, endpoint=nobody)

    return take


def test_a_photo_lies_in_the_bucket_and_nowhere_else(phone, bucket, objects, photos_dir):
    _, sha256 = store(phone, HEIC)
    keys = [one.key for one in objects.all()]
    assert len(keys) == 2
    assert all(key.startswith(f"bed/one/{phone.garden}/") for key in keys)
    assert {one.Object().content_type for one in objects.all()} == {"image/jpeg"}
    assert not photos_dir.exists()
    assert fetched(phone, sha256)[1].size == (200, 400)
    assert fetched(phone, sha256, "thumb")[1].size == (80, 160)


def test_a_photo_counts_as_stored_only_while_the_bucket_has_both_files(phone, bucket, objects):
    data = encoded("JPEG")
    _, sha256 = store(phone, data)
    next(iter(objects.filter(Prefix="bed/one"))).delete()
    path = phone.path(f"blobs/{sha256}")
    assert phone.client.head(f"/api/v1/{path}").status_code == 404
    again, _ = announce(phone, data)
    assert phone.records()[again]["doc"]["blob"] == "pending"
    assert put(phone, sha256, data).status_code == 201
    assert phone.records()[again]["doc"]["blob"] == "stored"


def test_a_second_record_of_a_photo_in_the_bucket_is_stored_at_once(phone, bucket):
    data = encoded("JPEG")
    store(phone, data)
    again, _ = announce(phone, data)
    assert phone.records()[again]["doc"]["blob"] == "stored"


def test_a_bucket_that_is_away_stops_photos_and_no_record(phone, bucket, settings, address, away):
    data = encoded("JPEG")
    _, sha256 = store(phone, data)
    away()
    again, _ = announce(phone, data)
    assert phone.records()[again]["doc"]["blob"] == "pending"
    for answer in (put(phone, sha256, data), phone.get(phone.path(f"blobs/{sha256}"))):
        assert (answer.status_code, answer.json()["code"]) == (503, "photos_away")
    settings.PHOTOS_BUCKET = address
    assert phone.client.head(f"/api/v1/{phone.path(f'blobs/{sha256}')}").status_code == 404
    assert put(phone, sha256, data).status_code == 200
    assert phone.records()[again]["doc"]["blob"] == "stored"


def test_a_deleted_record_does_not_ask_for_its_photo_for_ever(phone, bucket):
    data = encoded("JPEG")
    record, sha256 = store(phone, data)
    phone.push(item("delete", "photo", record, base=9))
    assert phone.client.head(f"/api/v1/{phone.path(f'blobs/{sha256}')}").status_code == 200


def test_a_file_that_vanished_meanwhile_is_not_found(phone, bucket, address, objects):
    with pytest.raises(FileNotFoundError):
        Bucket(address).open("nothing.jpg")


class Doorkeeper(http.server.BaseHTTPRequestHandler):
    """Answers every request with the status in its first path part."""

    def do_HEAD(self):
        self.send_response(int(urlsplit(self.path).path.split("/")[1].removeprefix("status-")))
        self.end_headers()

    def log_message(self, *args):
        pass


@pytest.fixture
def doorkeeper():
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Doorkeeper)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()


@pytest.mark.parametrize(
    ("status", "words"),
    [(401, "does not know the key"), (403, "does not let this key in"), (404, "has no bucket")],
)
def test_the_start_stops_at_a_bucket_that_will_never_let_it_in(
    settings, address, doorkeeper, status, words
):
    settings.PHOTOS_BUCKET = replace(address, bucket=f"status-{status}", endpoint=doorkeeper)
    with pytest.raises(CommandError) as stopped:
        check_photo_store(None)
    assert words in str(stopped.value)
    assert "marked-secret" not in str(stopped.value)
    assert "No data was touched" in str(stopped.value)


class Said(list):
    def write(self, line):
        self.append(line)


def test_the_start_goes_on_when_the_bucket_does_not_answer(settings, address, away):
    said = Said()
    away()
    check_photo_store(said)
    assert "does not answer" in said[0]


def test_the_start_says_nothing_of_a_bucket_that_answers_or_a_folder(settings, bucket):
    check_photo_store(None)
    settings.PHOTOS_BUCKET = None
    check_photo_store(None)


def test_trouble_inside_the_store_is_not_mistaken_for_a_missing_photo(address, doorkeeper):
    troubled = Bucket(replace(address, bucket="status-500", endpoint=doorkeeper))
    with pytest.raises(StoreAway):
        troubled.present({"a.jpg"})


def test_the_secret_is_not_in_what_is_printed_of_an_address(address):
    assert "marked-secret" not in repr(address)
