import shutil
import zipfile
from dataclasses import replace
from pathlib import Path
from uuid import UUID

import pytest
from django.core.management import CommandError, call_command
from django.db import DatabaseError, connections

from gardens.models import Bed, Garden
from gardens.photo_store.door import photo_store
from gardens.selectors.photos import find_blobs
from gardens.services import photos
from gardens.services.backup.keep import make_backup, restore_backup
from gardens.services.carrying.layout import BadArchive
from tests.gardens.carried import another_server, bring, lived_in, taken_away

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture(autouse=True)
def data_dir(settings, tmp_path):
    settings.DATA_DIR = tmp_path
    return tmp_path


@pytest.fixture
def garden(phone, tablet):
    """A garden with one photo, on the disk."""
    lived_in(phone, tablet)
    return UUID(phone.garden)


@pytest.fixture
def move_to_bucket(settings, address, objects, photos_dir):
    """Call it to move the photos into the bucket, as whoever runs the server would."""

    def move():
        settings.PHOTOS_BUCKET = address
        for path in photos_dir.glob("*/*.*"):
            photo_store().write(f"{path.parent.name}/{path.name}", path.read_bytes())
        shutil.rmtree(photos_dir)

    return move


def keys(objects):
    return sorted(one.key for one in objects.all())


def restore(file):
    connections.close_all()  # as a command of its own would find it: nobody else is connected
    return restore_backup(file=file)


def test_a_backup_leaves_the_photos_of_a_bucket_out_and_says_so(
    garden, move_to_bucket, tmp_path, capsys
):
    move_to_bucket()
    call_command("make_backup", tmp_path / "kept.zip")
    said = capsys.readouterr()
    assert "0 photos and papers" in said.out
    assert "2 photos or papers lie in the bucket" in said.err and "missing" not in said.err
    with zipfile.ZipFile(tmp_path / "kept.zip") as packed:
        assert not [name for name in packed.namelist() if name.endswith((".jpg", ".pdf"))]


def test_a_backup_of_a_disk_fills_the_bucket_and_removes_nothing_from_it(
    garden, settings, address, objects, tmp_path
):
    make_backup(file=tmp_path / "kept.zip")
    shutil.rmtree(settings.PHOTOS_DIR)
    settings.PHOTOS_BUCKET = address
    photo_store().write(f"{garden}/newer.full.jpg", b"newer")

    done = restore(tmp_path / "kept.zip")

    assert done.n_photos == 2
    names = [Path(key).name for key in keys(objects)]
    assert len(names) == 4 and "newer.full.jpg" in names
    [blob] = Garden.objects.get().blobs.all()
    assert find_blobs(garden, [blob.sha256]) == {blob.sha256: blob}


def test_a_bucket_that_is_away_stops_a_restore_before_anything_is_touched(
    garden, settings, address, tmp_path
):
    make_backup(file=tmp_path / "kept.zip")
    Bed.objects.update(name="After")
    settings.PHOTOS_BUCKET = replace(address, endpoint="http://127.0.0.1:9")
    connections.close_all()
    with pytest.raises(CommandError, match="bucket.*does not answer.*as it was"):
        call_command("restore_backup", tmp_path / "kept.zip")
    assert {*Bed.objects.values_list("name", flat=True)} == {"After"}
    assert not list(tmp_path.glob("before-restore-*"))


def test_a_garden_is_the_same_file_wherever_its_photos_lie(phone, garden, move_to_bucket):
    from_disk = taken_away(garden)
    move_to_bucket()
    assert taken_away(garden) == from_disk


def test_a_garden_whose_bucket_is_away_is_not_taken_away_in_part(phone, settings, garden, address):
    settings.PHOTOS_BUCKET = replace(address, endpoint="http://127.0.0.1:9")
    answer = phone.get(phone.path("export.zip"))
    assert (answer.status_code, answer.json()["code"]) == (503, "photos_away")


def test_a_garden_that_arrives_puts_its_photos_into_the_bucket(
    phone, garden, settings, address, objects, photos_dir
):
    taken = taken_away(garden)
    another_server()
    settings.PHOTOS_BUCKET = address

    told = bring(phone.account, taken)

    assert (told.state, told.done, told.n_photos) == ("new", True, 1)
    assert len(keys(objects)) == 3 and not photos_dir.exists()
    assert taken_away(garden) == taken


@pytest.fixture(params=["disk", "bucket"])
def either_store(request, settings, address, objects, photos_dir):
    """Call it to turn to that store; return the names of the files it holds."""

    def turn():
        settings.PHOTOS_BUCKET = address if request.param == "bucket" else None

    def held():
        if request.param == "bucket":
            return [key.removeprefix("bed/one/") for key in keys(objects)]
        return sorted(str(path.relative_to(photos_dir)) for path in photos_dir.glob("*/*.*"))

    turn.held = held
    return turn


def test_a_garden_that_could_not_be_brought_leaves_no_photo_behind(
    phone, garden, either_store, monkeypatch
):
    taken = taken_away(garden)
    another_server()
    either_store()
    others = "0190a0a0-0000-7000-8000-000000000001/theirs.full.jpg"
    photo_store().write(others, b"theirs")
    written = []

    def fails(garden, sha256, files):
        written.extend(either_store.held())
        raise DatabaseError

    monkeypatch.setattr(photos, "note_picture", fails)
    with pytest.raises(BadArchive):
        bring(phone.account, taken)

    assert len(written) == 4
    assert either_store.held() == [others]
    assert not Garden.objects.filter(id=garden).exists()
