"""The product's services behind a line that loses things, and a phone of the smallest kind.

The phone here is the smallest that keeps the protocol: an outbox in order, a cursor, the newest
mark, a log of what was acknowledged. It is not the product's phone, which has tests of its own.
"""

from contextlib import contextmanager, nullcontext, suppress
from random import Random
from unittest import mock
from uuid import UUID

from django.db import transaction

from gardens.models import RECORD_MODELS, Garden, JournalEntry
from gardens.selectors.records import feed_page
from gardens.services import batch, journal
from gardens.services.journal import HistoryChanged
from gardens.services.push import Sender, push
from tests.faults import clocks
from tests.phones import bed, item, new_id

FIELDS = {"name": ("A", "B", "C"), "soil": ("clay", "sand"), "note": ("wet", "dry", "")}
TABLES = (Garden, JournalEntry, *RECORD_MODELS.values())
# The weights of sync faults: of a hundred pushes, ten lose their request, and so on.
PUSH_FAULTS = {
    "none": 53,
    "request lost": 10,
    "answer lost": 10,
    "doubled": 10,
    "late": 10,
    "server died before writing": 2,
    "server died before commit": 2,
    "server died after commit": 1,
    "phone died before storing": 2,
}
PULL_FAULTS = {"none": 88, "request lost": 5, "answer lost": 5, "phone died before storing": 2}


class Crash(Exception):
    """The process is gone; nobody hears an answer."""


def mark_of(text):
    """Split a mark into number and tag."""
    number, tag = text.split(".")
    return (int(number), tag) if int(number) else None


def forget_everything():
    """Empty every table a garden is stored in."""
    for table in reversed(TABLES):
        table.objects.all().delete()


@contextmanager
def dying(fault):
    """Let the server's process end at one place of its work."""
    before_writing = mock.patch.object(batch.Batch, "write", side_effect=Crash)
    with before_writing if fault == "server died before writing" else nullcontext():
        with transaction.atomic():
            yield
            if fault == "server died before commit":
                raise Crash
        if fault == "server died after commit":
            raise Crash


class Server:
    """The services, a copy of what they store, and requests that are still on their way."""

    def __init__(self, account, counts):
        self.account, self.garden, self.counts = account, new_id(), counts
        self.late = []

    def push(self, device, high, items, sent_at, fault="none"):
        sender = Sender(self.account, UUID(device), high and mark_of(high), sent_at)
        self.counts["pushes"] += 1
        with dying(fault):
            return push(
                sender=sender, garden_id=UUID(self.garden), items=items, received_at=clocks.NOW
            )

    def pull(self, cursor, high, limit):
        self.counts["pulls"] += 1
        garden = Garden.objects.get(id=self.garden)
        journal.check_mark(garden, high and mark_of(high))
        if cursor > garden.head:
            raise HistoryChanged
        return feed_page(garden, cursor, limit), garden.mark

    def deliver_late(self, at):
        """Let one request arrive that everybody took for lost."""
        # A late request of another history changes nothing either.
        with suppress(HistoryChanged):
            self.push(*self.late.pop(at))

    @staticmethod
    def back_up():
        return [(table, list(table.objects.all())) for table in TABLES]

    def restore(self, backup):
        """Put a backup back and tell nobody."""
        forget_everything()
        for table, rows in backup:
            table.objects.bulk_create(rows)
        self.counts["restores"] += 1


class Device:
    """One phone: what it made, what it has seen, what it still has to send."""

    def __init__(self, server, dice: Random):
        self.server, self.dice, self.id = server, dice, new_id()
        self.clock = dice.choice(clocks.WRONG)
        self.outbox, self.sent, self.made = [], [], []
        self.unseen = []  # acknowledged, but no page has shown it yet: (number, change)
        self.skews = {}
        self.records, self.cursor, self.high = {}, 0, None
        self.round_from = 0

    def add(self, change):
        change["at"] = clocks.text(self.clock(self.dice))
        self.made.append(change)
        self.outbox.append(change)
        self.server.counts["mutations"] += 1

    def open_garden(self):
        self.add(item("put", "garden", self.server.garden, name="Behind the mill"))
        self.send("none")

    def create(self):
        self.add(bed(name=self.dice.choice(FIELDS["name"])))

    def _known(self):
        mine = [one["id"] for one in self.outbox if one["op"] == "put" and one["kind"] == "bed"]
        return mine + [each for each, (kind, *_) in self.records.items() if kind == "bed"]

    def edit(self):
        if known := self._known():
            names = self.dice.sample(list(FIELDS), self.dice.randint(1, 2))
            values = {name: self.dice.choice(FIELDS[name]) for name in names}
            self.add(item("patch", "bed", self.dice.choice(known), base=self.cursor, **values))

    def delete(self):
        if known := self._known():
            self.add(item("delete", "bed", self.dice.choice(known), base=self.cursor))

    def close(self):
        """Close a conflict, as a person does who chose one of the two values."""
        mine = [
            (each, doc) for each, (kind, _, _, doc) in self.records.items() if kind == "conflict"
        ]
        if is_open := [each for each, doc in mine if doc["state"] == "open"]:
            each = self.dice.choice(is_open)
            self.add(item("patch", "conflict", each, base=self.cursor, state="kept"))

    def screen(self, ids):
        """Return what a person sees of these records: the server's copy, own changes on top."""
        shown = {each: dict(self.records.get(each, (0, 0, 0, {}))[3]) for each in ids}
        for change in [change for _, change in self.unseen] + self.outbox:
            if change["id"] in shown:
                shown[change["id"]].update(change.get("set", {"deleted": True}))
        return shown

    def send(self, fault=None):
        """Send a piece of the outbox, over a good line or a bad one."""
        self._healing(lambda: self._send(fault or self._pick(PUSH_FAULTS)))

    def read(self, fault=None):
        """Read a page of the feed."""
        self._healing(lambda: self._read(fault or self._pick(PULL_FAULTS)))

    def _pick(self, faults):
        fault = self.dice.choices(list(faults), list(faults.values()))[0]
        if fault != "none":
            self.server.counts[fault] += 1
        return fault

    def _healing(self, step):
        try:
            step()
        except HistoryChanged:
            self.server.counts["healed"] += 1
            self.outbox = [{**one, "base": 0} for one in self.sent + self.outbox]
            self.sent, self.unseen, self.high = [], [], None
            self.cursor, self.round_from, self.records = 0, 0, {}

    def _send(self, fault):
        items = self.outbox[: self.dice.randint(1, 12)]
        if not items or fault == "request lost":
            return
        sent_at = self.clock(self.dice)
        for change in items:
            self.skews.setdefault(change["mid"], set()).add(sent_at)
        request = (self.id, self.high, items, sent_at)
        if fault == "late":
            self.server.late.append(request)
            return
        answer = self._answered(request, fault)
        if answer is None or fault in ("answer lost", "phone died before storing"):
            return
        before = self.screen({change["id"] for change in items})
        self.high = answer.mark
        for change, result in zip(items, answer.results, strict=True):
            self._settle(change, result)
        assert self.screen(before) == before, "I9: an acknowledgement changed the screen"

    def _answered(self, request, fault):
        stands = Garden.objects.filter(id=self.server.garden).values_list("head", "tag").first()
        try:
            answer = self.server.push(*request, fault)
        except Crash:
            if fault != "server died after commit":
                now = (
                    Garden.objects.filter(id=self.server.garden).values_list("head", "tag").first()
                )
                assert now == stands, "I10: a push was stored by half"
            return None
        return self.server.push(*request) if fault == "doubled" else answer

    def _settle(self, change, result):
        if result["status"] in ("applied", "conflict", "duplicate"):
            self.outbox.remove(change)
            self.sent.append(change)
            self.unseen.append((result["seq"], change))
        else:
            # Its record comes back with another phone's healing: behind everything else.
            assert result["code"] == "not_found", result
            self.outbox.sort(key=lambda waiting: waiting["id"] == change["id"])

    def _read(self, fault):
        if fault == "request lost":
            return
        page, mark = self.server.pull(self.cursor, self.high, self.dice.randint(1, 20))
        if fault != "none":
            return
        for record in page.records:
            doc = {} if record.deleted else record.doc
            self.records[str(record.id)] = (record.KIND, record.seq, record.deleted, doc)
        assert page.cursor >= self.cursor, "I7: the cursor went back"
        self.cursor, self.high = page.cursor, mark
        self.unseen = [one for one in self.unseen if not self._is_shown(*one)]
        if not page.more:
            self.round_from = self.cursor

    def _is_shown(self, seq, change):
        held = self.records.get(change["id"])
        return seq <= self.round_from or (held is not None and held[1] >= seq)
