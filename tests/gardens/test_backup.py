import json
import sqlite3
import threading
import zipfile
from pathlib import Path
from shutil import copy2
from uuid import UUID

import pytest
from django.core.management import CommandError, call_command
from django.db import connection, connections

from gardens.demo.pictures import draw_root_photo
from gardens.models import Bed, Blob, Garden, JournalEntry, Paper
from gardens.selectors.papers import find_papers
from gardens.services.backup.keep import make_backup, restore_backup
from gardens.services.backup.manifest import MANIFEST, BadBackup
from gardens.services.journal import next_tag
from gardens.services.papers import store_paper
from gardens.services.photos import store_photo
from tests.api import test_papers as papers
from tests.api.test_ended_links import end
from tests.gardens.carried import PDF, paper
from tests.phones import Phone, bed, new_id, photo

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture(autouse=True)
def data_dir(settings, tmp_path):
    settings.DATA_DIR = tmp_path
    return tmp_path


@pytest.fixture
def backup(phone, tmp_path):
    """A backup of a garden with a bed, a photo and a paper, made before anything else came."""
    picture = draw_root_photo(seed=3, galled_pct=40)
    made = bed(name="Before")
    named = photo(picture, of={"kind": "bed", "id": made["id"]})
    phone.push(made, named)
    sha256 = named["set"]["sha256"]
    store_photo(account=phone.account, garden_id=UUID(phone.garden), sha256=sha256, data=picture)
    form = paper(new_id())
    phone.push(form)
    sha256 = form["set"]["sha256"]
    store_paper(account=phone.account, garden_id=UUID(phone.garden), sha256=sha256, data=PDF)
    make_backup(file=tmp_path / "kept.zip")
    phone.push(bed(name="After"))
    return tmp_path / "kept.zip"


def restore(file):
    connections.close_all()  # as a command of its own would find it: nobody else is connected
    return restore_backup(file=file)


def names():
    return sorted(Bed.objects.values_list("name", flat=True))


def chain_is_whole(garden):
    entries = list(garden.journal.order_by("seq"))
    assert [entry.seq for entry in entries] == list(range(1, garden.head + 1))
    tag = "0" * 16
    for entry in entries:
        tag = next_tag(tag, entry.mid)
        assert entry.tag == tag
    assert garden.tag == tag


def test_what_came_after_the_backup_is_gone_and_what_was_before_is_there(backup):
    done = restore(backup)

    assert names() == ["Before"]
    assert done.n_photos == Blob.objects.count() + 1 == 2
    (kept,) = Paper.objects.all()
    assert find_papers(kept.garden_id, [kept.sha256]) == {kept.sha256}
    chain_is_whole(Garden.objects.get())


def test_the_data_of_before_the_restore_is_moved_aside_and_not_deleted(backup, data_dir):
    done = restore(backup)

    assert done.aside.parent == data_dir
    assert list(done.aside.glob("photos/*/*.full.jpg"))
    if connection.vendor == "sqlite":
        with sqlite3.connect(done.aside / "db.sqlite3") as old:
            found = old.execute("select name from gardens_bed order by name").fetchall()
    else:
        with connection.cursor() as cursor:
            schema = done.aside.name.replace("-", "_")
            cursor.execute(f'select name from "{schema}".gardens_bed order by name')
            found = cursor.fetchall()
            cursor.execute(f'drop schema "{schema}" cascade')
    assert found == [("After",), ("Before",)]


def test_the_server_goes_on_after_a_restore_with_rows_of_its_own(backup, phone):
    restore(backup)
    again = Phone(phone.account, garden=phone.garden).sign_in()

    assert again.result(bed(name="Later"))["status"] == "applied"
    assert names() == ["Before", "Later"]


def push_until(phone, stop):
    while not stop.is_set():
        phone.push(*[bed() for _ in range(20)])
    connections.close_all()


def test_a_backup_made_while_a_phone_sends_holds_one_moment(phone, tmp_path):
    stop = threading.Event()
    sending = threading.Thread(target=push_until, args=(phone, stop))
    sending.start()
    try:
        for n in range(3):
            make_backup(file=tmp_path / f"{n}.zip")
    finally:
        stop.set()
        sending.join()
    after = Bed.objects.count()

    for n in range(3):
        restore(tmp_path / f"{n}.zip")
        garden = Garden.objects.get()
        chain_is_whole(garden)
        assert 0 <= Bed.objects.count() == garden.head - 1 <= after
        assert JournalEntry.objects.count() == garden.head


def test_a_backup_is_readable_by_its_maker_alone_and_holds_no_secret_key(backup, settings):
    assert backup.stat().st_mode & 0o077 == 0
    with zipfile.ZipFile(backup) as packed:
        held = b"".join(packed.read(name) for name in packed.namelist())
    assert settings.SECRET_KEY.encode() not in held


def test_a_file_that_is_there_is_not_written_over(backup):
    before = backup.read_bytes()
    with pytest.raises(CommandError, match="already"):
        call_command("make_backup", backup)
    assert backup.read_bytes() == before


def changed(backup, change):
    """Write the backup again with a change to its parts."""
    with zipfile.ZipFile(backup) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    change(parts)
    file = backup.with_name("changed.zip")
    with zipfile.ZipFile(file, "w") as out:
        for name, content in parts.items():
            out.writestr(name, content)
    return file


def told(held, **changes):
    held[MANIFEST] = json.dumps({**json.loads(held[MANIFEST]), **changes}).encode()


def a_picture(parts):
    return next(name for name in parts if name.endswith(".full.jpg"))


BROKEN = {
    "a part is not what was packed": lambda parts: parts.update({a_picture(parts): b"other"}),
    "a part is missing": lambda parts: parts.pop(a_picture(parts)),
    "the list is missing": lambda parts: parts.pop(MANIFEST),
    "it is of a newer version": lambda parts: told(parts, version=2),
    "it is of another database": lambda parts: told(parts, database="other"),
    "the list has other lines": lambda parts: told(parts, more=1),
    "a migration is not known": lambda parts: told(parts, migrations=[["gardens", "0999_x"]]),
    "a part lies elsewhere": lambda parts: told(
        parts, parts=[{"name": "../x", "n_bytes": 1, "sha256": "0"}]
    ),
}


@pytest.mark.parametrize("change", BROKEN.values(), ids=BROKEN.keys())
def test_a_backup_that_will_not_do_changes_nothing(backup, change, data_dir):
    file = changed(backup, change)
    with pytest.raises(BadBackup):
        restore(file)
    assert names() == ["After", "Before"]
    assert not list(data_dir.glob("before-restore-*"))


def test_a_file_that_is_no_backup_is_refused_with_a_sentence(phone, tmp_path):
    (tmp_path / "note.txt").write_text("beans")
    with pytest.raises(CommandError, match="not a backup of Knotbed.*as it was"):
        call_command("restore_backup", tmp_path / "note.txt")


def test_a_running_server_is_noticed_and_left_alone(backup):
    apart = connection.copy()
    apart.connect()
    try:
        with apart.cursor() as cursor:
            cursor.execute("select count(*) from gardens_bed")
        with pytest.raises(BadBackup, match="still running"):
            restore(backup)
    finally:
        apart.close()
    assert names() == ["After", "Before"]


def test_a_backup_of_an_older_version_is_brought_up_to_this_one(backup, tmp_path):
    call_command("migrate", "gardens", "0003", verbosity=0)
    make_backup(file=tmp_path / "older.zip")
    call_command("migrate", verbosity=0)
    restore(tmp_path / "older.zip")

    assert names() == ["After", "Before"]
    assert Blob.objects.count() == 1


def test_a_photo_that_is_missing_on_the_disk_is_told_of(backup, settings, tmp_path, capsys):
    for path in Path(settings.PHOTOS_DIR).glob("*/*.jpg"):
        copy2(path, tmp_path)
        path.unlink()
    call_command("make_backup", tmp_path / "other.zip")
    assert "1 photos or papers the file is missing" in capsys.readouterr().err


@pytest.mark.parametrize("bytes_came", [True, False])
def test_a_backup_has_the_paper_of_a_held_record_and_misses_none_that_never_came(
    phone, settings, tmp_path, bytes_came
):
    ed = phone.lend("editor")
    end(phone)
    sent = papers.record_of()
    assert ed.result(sent)["status"] == "held"
    if bytes_came:
        assert papers.put(ed).status_code == 201
    kept = make_backup(file=tmp_path / "held.zip")
    assert (kept.n_photos, kept.n_missing, kept.n_elsewhere) == (int(bytes_came), 0, 0)
    restore(tmp_path / "held.zip")
    found = find_papers(UUID(phone.garden), [sent["set"]["sha256"]])
    assert found == ({sent["set"]["sha256"]} if bytes_came else set())
