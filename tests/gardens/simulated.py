"""Phones on a bad line, simulated: requests and answers are lost, doubled and late.

The phone here is the smallest that keeps the protocol: an outbox in order, a cursor, the newest
mark, a log of what was acknowledged. It is not the product's phone, which has tests of its own.
"""

from datetime import UTC, datetime
from uuid import UUID

from django.core import serializers

from gardens.models import RECORD_MODELS, Garden, JournalEntry
from gardens.selectors.records import feed_page
from gardens.services.journal import HistoryChanged, check_mark
from gardens.services.push import Sender, push
from tests.phones import bed, item, new_id

NOW = datetime(2031, 6, 14, 12, tzinfo=UTC)
FIELDS = {"name": ("A", "B", "C"), "soil": ("clay", "sand"), "note": ("wet", "dry", "")}
TABLES = (Garden, JournalEntry, *RECORD_MODELS.values())


def mark_of(text):
    """Split a mark into number and tag."""
    number, tag = text.split(".")
    return (int(number), tag) if int(number) else None


def forget_everything():
    """Empty every table a garden is stored in."""
    for table in reversed(TABLES):
        table.objects.all().delete()


class Server:
    """The product's services, a backup of what they store, and a line that loses things."""

    def __init__(self, account, garden):
        self.account, self.garden = account, UUID(garden)
        self.late = []

    def push(self, device, high, items):
        sender = Sender(self.account, UUID(device), high and mark_of(high), NOW)
        return push(sender=sender, garden_id=self.garden, items=items, received_at=NOW)

    def pull(self, cursor, high, limit):
        garden = Garden.objects.get(id=self.garden)
        check_mark(garden, high and mark_of(high))
        if cursor > garden.head:
            raise HistoryChanged
        return feed_page(garden, cursor, limit), garden.mark

    def back_up(self):
        rows = [row for table in TABLES for row in table.objects.all()]
        return serializers.serialize("json", rows)

    def restore(self, backup):
        """Put a backup back and tell nobody."""
        forget_everything()
        for row in serializers.deserialize("json", backup):
            row.save()


class Device:
    """One phone: what it made, what it has seen, what it still has to send."""

    def __init__(self, server, dice):
        self.server, self.dice, self.id = server, dice, new_id()
        self.outbox, self.acknowledged, self.made = [], [], []
        self.records, self.cursor, self.high = {}, 0, None

    def add(self, change):
        self.made.append(change)
        self.outbox.append(change)

    def create(self):
        self.add(bed(name=self.dice.choice(FIELDS["name"])))

    def _known(self):
        mine = [one["id"] for one in self.outbox if one["op"] == "put" and one["kind"] == "bed"]
        return mine + [each for each, (kind, _, _) in self.records.items() if kind == "bed"]

    def edit(self):
        if known := self._known():
            name = self.dice.choice(list(FIELDS))
            values = {name: self.dice.choice(FIELDS[name])}
            change = item("patch", "bed", self.dice.choice(known), base=self.cursor, **values)
            self.add(change)

    def delete(self):
        if known := self._known():
            self.add(item("delete", "bed", self.dice.choice(known), base=self.cursor))

    def send(self, faults=True):
        """Send a piece of the outbox, over a good line or a bad one."""
        self._healing(lambda: self._send(faults))

    def read(self):
        """Read a page of the feed."""
        self._healing(self._read)

    def _healing(self, step):
        try:
            step()
        except HistoryChanged:
            self.outbox = [{**one, "base": 0} for one in self.acknowledged] + self.outbox
            self.acknowledged, self.high, self.cursor, self.records = [], None, 0, {}

    def _send(self, faults):
        items = self.outbox[: self.dice.randint(1, 12)]
        if not items:
            return
        fault = (
            self.dice.choices(
                ["none", "request lost", "answer lost", "doubled", "late"], [6, 1, 1, 1, 1]
            )[0]
            if faults
            else "none"
        )
        if fault == "request lost":
            return
        if fault == "late":
            self.server.late.append((self.id, self.high, items))
            return
        answer = self.server.push(self.id, self.high, items)
        if fault == "doubled":
            answer = self.server.push(self.id, self.high, items)
        if fault == "answer lost":
            return
        self.high = answer.mark
        for change, result in zip(items, answer.results, strict=True):
            self._settle(change, result)

    def _settle(self, change, result):
        self.outbox.remove(change)
        if result["status"] in ("applied", "conflict", "duplicate"):
            self.acknowledged.append(change)
        else:
            # Its record comes back with another phone's healing: behind everything else.
            assert result["code"] == "not_found", result
            self.outbox.append(change)

    def _read(self):
        page, mark = self.server.pull(self.cursor, self.high, self.dice.randint(1, 20))
        for record in page.records:
            doc = {} if record.deleted else record.doc
            self.records[str(record.id)] = (record.KIND, record.deleted, doc)
        self.cursor, self.high = page.cursor, mark
