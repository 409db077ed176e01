"""What must hold when all is quiet, whatever happened before.

I1 each change is journalled once. I2 an acknowledged one is. I3 the numbers are dense. I4 no value
is lost. I5 all phones hold what the server holds. I6 sending everything again changes nothing. I8
no conflict between changes of one phone or between equal values. I14 the tags follow from the
journal. I7, I9 and I10 are checked while the phones work, in ``simulated``.
"""

import hashlib
import json
from collections import Counter, defaultdict

from gardens.models import RECORD_MODELS, Conflict, Garden, JournalEntry
from gardens.services.push import NOTICEABLE_SKEW_SECONDS
from tests.faults import clocks


def check_everything(server, devices):
    """Raise AssertionError when anything that must hold does not."""
    entries = list(JournalEntry.objects.order_by("seq"))
    check_order(entries)
    check_each_once(entries, devices)
    check_clocks(entries, devices)
    check_no_value_lost(entries)
    check_conflicts(entries)
    held = stored()
    for device in devices:
        assert device.records == held, "I5: a phone holds something else than the server"
    check_replay(server, devices)


def stored():
    """Return every record as a phone keeps it."""
    return {
        str(record.id): (kind, record.seq, record.deleted, {} if record.deleted else record.doc)
        for kind, model in RECORD_MODELS.items()
        for record in model.objects.all()
    }


def check_order(entries):
    assert [entry.seq for entry in entries] == list(range(1, len(entries) + 1)), "I3"
    tag = "0" * 16
    for entry in entries:
        tag = hashlib.sha256(f"{tag}{entry.mid}".encode()).hexdigest()[:16]
        assert entry.tag == tag, "I14"
    assert Garden.objects.get().mark == f"{len(entries)}.{tag}"


def check_each_once(entries, devices):
    journalled = Counter(str(entry.mid) for entry in entries)
    for device in devices:
        for change in device.made:
            assert journalled[change["mid"]] == 1, f"I1, I2: {change}"


def check_clocks(entries, devices):
    """A wrong clock is kept as it was told, and how wrong it was beside it."""
    told = {change["mid"]: change["at"] for device in devices for change in device.made}
    sent = {mid: moments for device in devices for mid, moments in device.skews.items()}
    for entry in entries:
        mid = str(entry.mid)
        if mid in told:
            assert clocks.text(entry.claimed_at) == told[mid]
            wrong = [int((clocks.NOW - moment).total_seconds()) for moment in sent[mid]]
            noticed = [s if abs(s) > NOTICEABLE_SKEW_SECONDS else None for s in wrong]
            assert entry.skew_seconds in noticed


def check_no_value_lost(entries):
    """Each value ever sent stands, was replaced by a later change, or waits in a conflict."""
    kept = defaultdict(set)
    for entry in entries:
        for name, value in entry.prev.items():
            kept[entry.record, name].add(json.dumps(value))
    for conflict in Conflict.objects.all():
        kept[conflict.of_id, conflict.field].add(json.dumps(conflict.other))
    now = {record.id: record.doc for record in RECORD_MODELS["bed"].objects.all()}
    for entry in entries:
        if entry.kind == "bed" and entry.op != "delete":
            for name, value in entry.body.items():
                stands = now[entry.record][name] == value
                assert stands or json.dumps(value) in kept[entry.record, name], f"I4: {name}"


def check_conflicts(entries):
    """A conflict has two differing values, and they come from two devices."""
    makers = {each: entry for entry in entries for each in entry.answer.get("conflicts", ())}
    setters = defaultdict(list)
    for entry in entries:
        for name in set(entry.body) - set(entry.answer.get("fields", ())):
            setters[entry.record, name].append(entry)
    for conflict in Conflict.objects.exclude(field="deleted"):
        assert conflict.kept != conflict.other, "I8: a conflict of equal values"
        late = makers[str(conflict.id)]
        earlier = [e for e in setters[conflict.of_id, conflict.field] if e.seq < late.seq]
        assert earlier[-1].device != late.device, "I8: a device conflicts with itself"


def check_replay(server, devices):
    before, head = stored(), Garden.objects.get().mark
    for device in devices:
        for start in range(0, len(device.made), 200):
            items = device.made[start : start + 200]
            answer = server.push(device.id, None, items, clocks.NOW)
            assert {result["status"] for result in answer.results} == {"duplicate"}, "I6"
    assert (stored(), Garden.objects.get().mark) == (before, head), "I6"
