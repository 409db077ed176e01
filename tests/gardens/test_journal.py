import hashlib
import sqlite3
import threading
from contextlib import closing

import pytest
from django.core.management import call_command
from django.db import connection, connections

from gardens.models import Bed, Garden, JournalEntry
from tests.phones import Phone, bed, item


def journal(garden):
    return list(JournalEntry.objects.filter(garden_id=garden).order_by("seq"))


def test_the_tag_chain_can_be_recomputed_from_the_journal(phone, tablet):
    made = bed()
    phone.push(made, bed(), item("patch", "bed", made["id"], base=2, name="A"))
    tablet.push(item("patch", "bed", made["id"], base=2, name="B"))
    tag = "0" * 16
    for entry in journal(phone.garden):
        tag = hashlib.sha256(f"{tag}{entry.mid}".encode()).hexdigest()[:16]
        assert entry.tag == tag
    assert Garden.objects.get(id=phone.garden).mark == f"6.{tag}"


def test_every_old_value_is_kept_in_the_journal(phone):
    made = bed(name="first")
    phone.push(made, item("patch", "bed", made["id"], base=2, name="second"))
    assert journal(phone.garden)[-1].prev == {"name": "first"}


def test_a_conflict_record_has_a_journal_entry_of_its_own(phone, tablet):
    made = bed()
    phone.push(made, item("patch", "bed", made["id"], base=2, name="A"))
    tablet.push(item("patch", "bed", made["id"], base=2, name="B"))
    entries = journal(phone.garden)
    assert [entry.seq for entry in entries] == [1, 2, 3, 4, 5]
    assert (entries[3].status, entries[4].kind) == ("conflict", "conflict")
    assert entries[4].device is None


def test_what_is_rejected_takes_no_number(phone):
    phone.push(bed(name=""), bed())
    assert [entry.seq for entry in journal(phone.garden)] == [1, 2]


def test_replaying_every_change_changes_nothing(phone, tablet):
    made = bed()
    sent = [
        made,
        bed(),
        item("patch", "bed", made["id"], base=2, name="A"),
        item("delete", "bed", made["id"], base=4),
    ]
    for one in sent:
        phone.push(one)
    before = phone.pull()
    assert {one["status"] for one in phone.push(*sent)["results"]} == {"duplicate"}
    assert phone.pull() == before


@pytest.mark.django_db(transaction=True)
def test_devices_pushing_at_once_share_out_the_numbers_without_a_gap(grower):
    first = Phone(grower).sign_in().open_garden()
    others = [Phone(grower, garden=first.garden).sign_in() for _ in range(3)]
    start, answers = threading.Barrier(3), []

    def work(phone):
        start.wait()
        for _ in range(8):
            answers.append(phone.send(bed(), bed()).status_code)
        connections.close_all()

    threads = [threading.Thread(target=work, args=(phone,)) for phone in others]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert set(answers) == {200}
    assert [entry.seq for entry in journal(first.garden)] == list(range(1, 50))
    assert Bed.objects.count() == 48


def copy_file(source, target):
    with closing(sqlite3.connect(source)) as old, closing(sqlite3.connect(target)) as new:
        old.backup(new)


def back_up(tmp_path):
    """Take a backup and return how to put it back, unannounced, as somebody at home would."""
    if connection.vendor == "sqlite":
        live, backup = connection.settings_dict["NAME"], tmp_path / "backup.sqlite3"
        copy_file(live, backup)
        return lambda: (connection.close(), copy_file(backup, live))
    content = connection.creation.serialize_db_to_string()
    return lambda: (
        call_command("flush", interactive=False, verbosity=0, inhibit_post_migrate=True),
        connection.creation.deserialize_db_from_string(content),
    )


@pytest.mark.django_db(transaction=True)
def test_a_silently_restored_backup_is_noticed_and_healed_by_the_phones(grower, tmp_path):
    phone = Phone(grower).sign_in().open_garden()
    kept, lost = bed(name="before the backup"), bed(name="after the backup")
    phone.push(kept)
    put_back = back_up(tmp_path)
    phone.push(lost)
    put_back()
    assert lost["id"] not in phone.records()

    for answer in (phone.send(bed()), phone.get_pull(cursor=3, high=phone.high)):
        assert (answer.status_code, answer.json()["code"]) == (409, "history_changed")
    assert Bed.objects.count() == 1, "nothing of a push to another history is applied"

    phone.high = None
    healed = [{**one, "base": 0} for one in (kept, lost)]
    assert [one["status"] for one in phone.push(*healed)["results"]] == ["duplicate", "applied"]
    assert {kept["id"], lost["id"]} <= set(phone.records())
