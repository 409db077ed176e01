import hashlib
import io

import pytest
from PIL import Image

from gardens.models import Blob
from gardens.photo_store import disk, refusals
from gardens.services.darkroom.room import darkroom
from tests.phones import MOMENT, item, new_id
from tests.photographs import FALSE_PHOTOS, HEIC, drawn, encoded, turned_exif


def announce(phone, data, **values):
    """Push the record of a photo with these bytes and return id and hash."""
    sha256 = hashlib.sha256(data).hexdigest()
    record = new_id()
    about = {
        "of": {"kind": "bed", "id": new_id()},
        "sha256": sha256,
        "n_bytes": len(data) or 1,
        "width_px": 400,
        "height_px": 200,
        "taken_at": MOMENT,
    }
    assert phone.result(item("put", "photo", record, **about, **values))["status"] == "applied"
    return record, sha256


def put(phone, sha256, data, kind="image/jpeg"):
    return phone.client.put(
        f"/api/v1/{phone.path(f'blobs/{sha256}')}",
        data,
        content_type=kind,
        headers={"X-CSRFToken": phone.csrf},
    )


def fetched(phone, sha256, size="full"):
    answer = phone.get(phone.path(f"blobs/{sha256}?size={size}"))
    assert answer.status_code == 200
    data = b"".join(answer.streaming_content)
    return data, Image.open(io.BytesIO(data))


def store(phone, data):
    record, sha256 = announce(phone, data)
    assert put(phone, sha256, data).status_code == 201
    return record, sha256


def test_a_photo_goes_from_pending_to_stored_in_the_feed(phone):
    data = encoded("JPEG")
    record, sha256 = announce(phone, data)
    assert phone.records()[record]["doc"]["blob"] == "pending"
    before = phone.pull()["cursor"]
    assert put(phone, sha256, data).status_code == 201
    page = phone.pull(cursor=before)
    assert [(one["id"], one["doc"]["blob"]) for one in page["records"]] == [(record, "stored")]


def test_bytes_without_a_record_are_not_taken(phone):
    data = encoded("JPEG")
    answer = put(phone, hashlib.sha256(data).hexdigest(), data)
    assert (answer.status_code, answer.json()["code"]) == (409, "no_photo_record")


def test_bytes_sent_again_are_already_there(phone):
    data = encoded("JPEG")
    _, sha256 = store(phone, data)
    head = phone.pull()["head"]
    assert put(phone, sha256, data).status_code == 200
    assert phone.pull()["head"] == head


def test_bytes_that_changed_on_their_way_are_refused(phone):
    record, sha256 = announce(phone, encoded("JPEG"))
    answer = put(phone, sha256, encoded("PNG"))
    assert (answer.status_code, answer.json()["code"]) == (422, "hash_mismatch")
    assert phone.records()[record]["doc"]["blob"] == "pending"


def test_a_heic_of_an_iphone_is_turned_and_kept_as_jpeg(phone):
    _, sha256 = announce(phone, HEIC)
    assert put(phone, sha256, HEIC, kind="image/heic").status_code == 201
    _, image = fetched(phone, sha256)
    assert (image.format, image.size) == ("JPEG", (200, 400))
    assert image.getpixel((100, 50))[0] > 200
    assert not image.getexif()


def test_the_photo_comes_back_upright_and_without_place_or_comment(phone):
    data = encoded("JPEG", exif=turned_exif(), comment=b"<script>") + b"PK\x03\x04 a zip behind"
    _, sha256 = store(phone, data)
    kept, image = fetched(phone, sha256)
    assert image.format == "JPEG"
    assert image.size == (200, 400)
    top, bottom = image.getpixel((100, 50)), image.getpixel((100, 350))
    assert top[0] > 200 > 60 > top[2], "the left half of the sensor is the top of the photo"
    assert bottom[2] > 200 > 60 > bottom[0]
    assert not image.getexif()
    assert b"script" not in kept
    assert b"a zip behind" not in kept


@pytest.mark.parametrize(
    ("kind", "mode"),
    [("PNG", "RGBA"), ("PNG", "P"), ("WEBP", "RGB"), ("JPEG", "L"), ("JPEG", "CMYK")],
)
def test_other_honest_photos_are_taken(phone, kind, mode):
    _, sha256 = store(phone, encoded(kind, drawn().convert(mode)))
    _, image = fetched(phone, sha256)
    assert (image.format, image.mode, image.size) == ("JPEG", "RGB", (400, 200))


def test_a_large_photo_is_kept_at_1600_pixels_and_a_thumbnail_at_160(phone):
    _, sha256 = store(phone, encoded("JPEG", drawn(4000, 3000)))
    assert fetched(phone, sha256)[1].size == (1600, 1200)
    assert fetched(phone, sha256, "thumb")[1].size == (160, 120)


@pytest.mark.parametrize("data", FALSE_PHOTOS.values(), ids=FALSE_PHOTOS.keys())
def test_what_is_not_a_photo_is_refused_and_its_record_says_so(phone, data):
    record, sha256 = announce(phone, data)
    answer = put(phone, sha256, data)
    assert (answer.status_code, answer.json()["code"]) == (415, "bad_image")
    assert phone.records()[record]["doc"]["blob"] == "refused"
    assert not Blob.objects.exists()


def test_a_photo_the_clock_ended_is_asked_for_again_and_refused_for_nobody(phone, monkeypatch):
    def ended(process, data):
        raise darkroom._too_slow(data)

    data = encoded("JPEG", drawn(320, 160))
    record, sha256 = announce(phone, data)
    monkeypatch.setattr(darkroom, "_develop", ended)
    answer = put(phone, sha256, data)
    assert (answer.status_code, answer.json()["code"]) == (503, "photos_busy")
    assert phone.records()[record]["doc"]["blob"] == "pending"
    monkeypatch.undo()
    assert put(phone, sha256, data).status_code == 201
    assert phone.records()[record]["doc"]["blob"] == "stored"


def test_more_than_8_megabytes_are_refused(phone):
    data = b"\xff\xd8\xff" + b"\x00" * 8_000_000
    record, sha256 = announce(phone, data[:8_000_000])
    answer = put(phone, sha256, data)
    assert (answer.status_code, answer.json()["code"]) == (413, "blob_too_large")
    assert phone.records()[record]["doc"]["blob"] == "pending"


def test_a_full_disk_is_said_and_loses_nothing(phone, monkeypatch):
    def full(store, name, data):
        raise refusals.StoreFull

    monkeypatch.setattr(disk.Disk, "write", full)
    data = encoded("JPEG")
    record, sha256 = announce(phone, data)
    answer = put(phone, sha256, data)
    assert (answer.status_code, answer.json()["code"]) == (507, "server_full")
    assert phone.records()[record]["doc"]["blob"] == "pending"


def test_the_photo_is_served_as_a_picture_and_nothing_else(phone):
    _, sha256 = store(phone, encoded("JPEG"))
    headers = phone.get(phone.path(f"blobs/{sha256}")).headers
    assert headers["Content-Type"] == "image/jpeg"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Content-Disposition"] == 'inline; filename="photo.jpg"'
    assert headers["Content-Security-Policy"] == "default-src 'none'; sandbox"
    assert "private" in headers["Cache-Control"]
    assert "immutable" in headers["Cache-Control"]


def test_asking_whether_a_photo_is_here(phone):
    data = encoded("JPEG")
    _, sha256 = announce(phone, data)
    path = f"/api/v1/{phone.path(f'blobs/{sha256}')}"
    assert phone.client.head(path).status_code == 404
    put(phone, sha256, data)
    assert phone.client.head(path).status_code == 200


def test_a_browser_that_only_wants_images_still_gets_a_readable_refusal(phone):
    answer = phone.get(phone.path(f"blobs/{'a' * 64}"), Accept="image/webp")
    assert (answer.status_code, answer.json()["code"]) == (404, "not_found")


def test_a_second_record_of_a_stored_photo_is_stored_at_once(phone):
    data = encoded("JPEG")
    store(phone, data)
    again, _ = announce(phone, data)
    assert phone.records()[again]["doc"]["blob"] == "stored"


def test_a_photo_whose_file_was_lost_can_be_sent_again(phone, photos_dir):
    data = encoded("JPEG")
    _, sha256 = store(phone, data)
    for file in photos_dir.rglob("*.jpg"):
        file.unlink()
    assert phone.get(phone.path(f"blobs/{sha256}")).status_code == 404
    assert put(phone, sha256, data).status_code == 201
    assert fetched(phone, sha256)[1].size == (400, 200)


def test_a_record_sent_again_after_the_file_was_lost_asks_for_the_bytes(phone, photos_dir):
    data = encoded("JPEG")
    store(phone, data)
    for file in photos_dir.rglob("*.thumb.jpg"):
        file.unlink()
    again, sha256 = announce(phone, data)
    assert phone.records()[again]["doc"]["blob"] == "pending"
    assert put(phone, sha256, data).status_code == 201
    assert phone.records()[again]["doc"]["blob"] == "stored"


def test_deleting_a_photo_is_no_conflict_with_its_arrival(phone):
    record, _ = store(phone, encoded("JPEG"))
    assert phone.result(item("delete", "photo", record, base=2))["status"] == "applied"


def test_nobody_else_sees_or_sends_a_photo(phone, neighbours_phone, stranger):
    data = encoded("JPEG")
    _, sha256 = store(phone, data)
    assert neighbours_phone.get(phone.path(f"blobs/{sha256}")).status_code == 404
    assert put(neighbours_phone, sha256, data).status_code == 404
    assert put(stranger, sha256, data).status_code == 401
    phone.csrf = "wrong"
    assert put(phone, sha256, data).json()["code"] == "csrf"


def test_what_a_killed_server_left_behind_is_swept(phone, photos_dir):
    import os

    store(phone, encoded("JPEG"))
    left = photos_dir / "incoming" / "tmpabc"
    left.write_bytes(b"half a photo")
    os.utime(left, (0, 0))
    store(phone, encoded("PNG"))
    assert not left.exists()
