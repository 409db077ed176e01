import hashlib
import json
import random
from contextlib import suppress

import pytest
from django.conf import settings

from gardens.models import RECORD_MODELS, Conflict, Garden, JournalEntry
from gardens.services import batch, merge, push
from gardens.services.journal import HistoryChanged
from tests.gardens import simulated
from tests.gardens.simulated import Device, Server
from tests.phones import Phone

# The rule is the same code on both; PostgreSQL is asked for its locks and types, not for chance.
IS_SQLITE = settings.DATABASES["default"]["ENGINE"].endswith("sqlite3")
N_SEEDS = 30 if IS_SQLITE else 3
N_DEVICES, N_STEPS, UNTIL_QUIET = 3, 240, 150


def run(grower, seed, *, restoring):
    """Let devices work and fail, then let the line be good until all is quiet."""
    dice = random.Random(seed)
    garden = Phone(grower).sign_in().open_garden().garden
    server = Server(grower, garden)
    devices = [Device(server, dice) for _ in range(N_DEVICES)]
    backup = None
    for step in range(N_STEPS):
        if restoring and step == N_STEPS // 2:
            backup = server.back_up()
        if restoring and step == 2 * N_STEPS // 3:
            server.restore(backup)
        device = dice.choice(devices)
        work = [device.create, device.edit, device.delete, device.send, device.read]
        dice.choices(work, [2, 5, 1, 4, 2])[0]()
        deliver_late(server, dice)
    for _ in range(UNTIL_QUIET):
        if is_quiet(devices):
            return devices
        for device in devices:
            device.send(faults=False)
            device.read()
    raise AssertionError(f"never quiet; left: {[device.outbox for device in devices]}")


def deliver_late(server, dice):
    if server.late and dice.random() < 0.3:
        sender, high, items = server.late.pop(dice.randrange(len(server.late)))
        # A late request of another history changes nothing either.
        with suppress(HistoryChanged):
            server.push(sender, high, items)


def is_quiet(devices):
    head = Garden.objects.get().head
    return all(device.cursor == head and not device.outbox for device in devices)


def stored():
    return {
        str(record.id): (kind, record.deleted, {} if record.deleted else record.doc)
        for kind, model in RECORD_MODELS.items()
        for record in model.objects.all()
    }


def check_journal(devices):
    entries = list(JournalEntry.objects.order_by("seq"))
    assert [entry.seq for entry in entries] == list(range(1, len(entries) + 1))
    tag = "0" * 16
    for entry in entries:
        tag = hashlib.sha256(f"{tag}{entry.mid}".encode()).hexdigest()[:16]
        assert entry.tag == tag
    assert Garden.objects.get().mark == f"{len(entries)}.{tag}"
    journalled = [str(entry.mid) for entry in entries]
    for device in devices:
        for change in device.made:
            assert journalled.count(change["mid"]) == 1, change


def check_no_value_lost():
    """Each value ever sent stands, was replaced by a later change, or waits in a conflict."""
    kept = {}
    for entry in JournalEntry.objects.all():
        for name, value in entry.prev.items():
            kept.setdefault((entry.record, name), set()).add(json.dumps(value))
    for conflict in Conflict.objects.all():
        kept.setdefault((conflict.of_id, conflict.field), set()).add(json.dumps(conflict.other))
    for entry in JournalEntry.objects.filter(kind="bed").exclude(op="delete"):
        now = RECORD_MODELS["bed"].objects.get(id=entry.record).doc
        for name, value in entry.body.items():
            assert now[name] == value or json.dumps(value) in kept.get((entry.record, name), ())


def check_conflicts():
    """A conflict has two differing values, and they come from two devices."""
    entries = list(JournalEntry.objects.order_by("seq"))
    makers = {each: entry for entry in entries for each in entry.answer.get("conflicts", ())}
    for conflict in Conflict.objects.exclude(field="deleted"):
        assert conflict.kept != conflict.other
        late = makers[str(conflict.id)]
        setters = [
            entry
            for entry in entries
            if entry.record == conflict.of_id
            and entry.seq < late.seq
            and conflict.field in entry.body
            and conflict.field not in entry.answer.get("fields", ())
        ]
        assert setters[-1].device != late.device


def check_replay(devices):
    before, head = stored(), Garden.objects.get().mark
    for device in devices:
        for start in range(0, len(device.made), 200):
            answer = device.server.push(device.id, None, device.made[start : start + 200])
            assert {result["status"] for result in answer.results} == {"duplicate"}
    assert (stored(), Garden.objects.get().mark) == (before, head)


def check_everything(devices):
    for device in devices:
        assert device.records == stored()
    check_journal(devices)
    check_no_value_lost()
    check_conflicts()
    check_replay(devices)


@pytest.mark.parametrize("restoring", [False, True], ids=["", "with a restored backup"])
@pytest.mark.parametrize("seed", range(N_SEEDS))
def test_nothing_is_lost_on_a_bad_line(grower, seed, restoring):
    check_everything(run(grower, seed, restoring=restoring))


def test_the_simulation_meets_conflicts_tombstones_and_repeats(grower):
    run(grower, 0, restoring=False)
    assert Conflict.objects.count() > 3
    assert RECORD_MODELS["bed"].objects.filter(deleted=True).exists()
    assert JournalEntry.objects.filter(status="conflict").exists()


def without(part):
    """Return the merge rule with one part of what it found thrown away."""

    def forgetful(state, values, edit, **options):
        merged = merge.merge_values(state, values, edit, **options)
        getattr(merged, part).clear()
        return merged

    return forgetful


def no_device_test(state, name, edit):
    return state.field_versions.get(name, [0, ""])[0] > edit.base


def forgets_repeats(self, mutation):
    self.known.clear()
    return taken(self, mutation)


def any_history(garden, high):
    pass


taken = batch.Batch.take
FAULTS = {
    "old values are not kept": ((batch,), "merge_values", without("previous")),
    "values set aside are dropped": ((batch,), "merge_values", without("aside")),
    "a device conflicts with itself": ((merge,), "is_foreign", no_device_test),
    "another history is not noticed": ((push, simulated), "check_mark", any_history),
    "repeats are not recognised": ((batch.Batch,), "take", forgets_repeats),
}


@pytest.mark.parametrize(("places", "name", "fault"), FAULTS.values(), ids=FAULTS.keys())
def test_the_simulation_sees_a_planted_fault(grower, monkeypatch, places, name, fault):
    for place in places:
        monkeypatch.setattr(place, name, fault)
    with pytest.raises(AssertionError):
        for seed in range(10):
            check_everything(run(grower, seed, restoring=True))
            simulated.forget_everything()
