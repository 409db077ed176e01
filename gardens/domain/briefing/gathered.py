"""The records of a garden, put together once: beds, their plantings, checks and ratings.

Not for judging them. Whatever cannot be read, or hangs on something that is not here, is
counted and left out; nothing is raised.
"""

import json
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.errors import RecordError
from gardens.domain.records import KINDS, checked_set, with_defaults

Record = Mapping[str, object]
Doc = Mapping[str, object]

KINDS_READ = (
    "garden",
    "bed",
    "planting",
    "root_check",
    "gall_rating",
    "lab_profile",
    "soil_sample",
    "assay_report",
)


@dataclass(frozen=True)
class Entry:
    """One record that could be read."""

    id: str
    doc: Doc


@dataclass(frozen=True)
class Check:
    """A root check with its planting and its ratings, in the order they were made."""

    id: str
    doc: Doc
    planting: Entry
    ratings: tuple[Entry, ...]

    @property
    def on(self) -> str:
        """The day it was made."""
        return str(self.doc["checked_on"])


@dataclass(frozen=True)
class Bed:
    """A bed with its plantings by first day, its checks by day and its samples by id.

    Seedlings in pots stand beside it: ``pots`` are their plantings, ``pot_checks`` the checks
    of them. ``reports`` are those of its samples, by day.
    """

    id: str
    doc: Doc
    plantings: tuple[Entry, ...]
    checks: tuple[Check, ...]
    samples: tuple[Entry, ...]
    pots: tuple[Entry, ...] = ()
    pot_checks: tuple[Check, ...] = ()
    reports: tuple[Entry, ...] = ()


@dataclass(frozen=True)
class Gathered:
    """A garden: its beds in the order they were made, its labs by id, and what was left out.

    ``n_adrift`` counts entries that name something which is not here (yet); ``n_unreadable``
    those that could not be read [entries, >= 0].
    """

    name: str
    time_zone: str
    beds: tuple[Bed, ...]
    labs: Mapping[str, Doc]
    n_adrift: int
    n_unreadable: int


def part(doc: Doc, name: str) -> Mapping[str, object]:
    """A composite field of a document that was read.

    Parameters
    ----------
    doc : Mapping
        Document of an `Entry`, a `Check` or a `Bed`.
    name : str
        Name of a field that is never null.

    Returns
    -------
    Mapping
        Its parts.
    """
    found = doc[name]
    assert isinstance(found, Mapping)
    return found


def gather(records: Sequence[Record]) -> Gathered:
    """Put the records of one garden together.

    Parameters
    ----------
    records : sequence of Mapping
        ``id``, ``kind``, ``deleted`` and ``doc`` of each record, any number, in any order.

    Returns
    -------
    Gathered
        The same for every order of the same records. Beds put away are left out, with all
        that belongs to them; so are children of something deleted.
    """
    read, n_unreadable = _read_each(records)
    hung = _Hung(read, _ids(records, deleted=True))
    beds = [hung.bed(bed) for bed in read["bed"].values() if not bed.doc["archived"]]
    own_record = next(iter(read["garden"].values()), None)
    return Gathered(
        name=str(own_record.doc["name"]) if own_record else "",
        time_zone=str(own_record.doc["time_zone"]) if own_record else "UTC",
        beds=tuple(beds),
        labs={one.id: one.doc for one in read["lab_profile"].values()},
        n_adrift=hung.n_adrift,
        n_unreadable=n_unreadable,
    )


def _read_each(records: Sequence[Record]) -> tuple[dict[str, dict[str, Entry]], int]:
    """Readable records by kind and id, in the order of their ids; and how many were not."""
    found: dict[str, Entry] = {}
    kinds: dict[str, str] = {}
    n_unreadable = 0
    for record in records:
        kind, doc = record.get("kind"), record.get("doc")
        if kind not in KINDS_READ or record.get("deleted"):
            continue
        entry = _entry(str(kind), record.get("id"), doc)
        if entry is None:
            n_unreadable += 1
        elif entry.id not in found or _as_text(found[entry.id]) < _as_text(entry):
            found[entry.id], kinds[entry.id] = entry, str(kind)
    read: dict[str, dict[str, Entry]] = {kind: {} for kind in KINDS_READ}
    for each in sorted(found):
        read[kinds[each]][each] = found[each]
    return read, n_unreadable


def _entry(kind: str, each: object, doc: object) -> Entry | None:
    if not isinstance(each, str) or not isinstance(doc, Mapping):
        return None
    # A newer server may send fields this version does not know.
    known = {name: value for name, value in doc.items() if name in KINDS[kind].fields}
    try:
        return Entry(each, with_defaults(kind, checked_set(kind, known, creating=True)))
    except RecordError:
        return None


def _as_text(entry: Entry) -> str:
    return json.dumps(entry.doc, sort_keys=True)


def _ids(records: Sequence[Record], *, deleted: bool) -> set[str]:
    return {str(one.get("id")) for one in records if bool(one.get("deleted")) is deleted}


class _Hung:
    """Hangs records on what they name, and counts those that hang on nothing."""

    def __init__(self, read: Mapping[str, Mapping[str, Entry]], deleted: set[str]) -> None:
        self._read, self._deleted = read, deleted
        self.n_adrift = 0
        self._plantings = self._children("planting", "bed", "bed")
        self._checks = self._children("root_check", "planting", "planting")
        self._ratings = self._children("gall_rating", "root_check", "root_check")
        self._samples = self._children("soil_sample", "bed", "bed")
        self._reports = self._children("assay_report", "soil_sample", "soil_sample")

    def bed(self, bed: Entry) -> Bed:
        """A bed with all that hangs on it."""
        own = sorted(self._plantings[bed.id], key=_first_day)
        samples = self._samples[bed.id]
        reports = [one for sample in samples for one in self._reports[sample.id]]
        reports.sort(key=lambda one: (str(one.doc["reported_on"]), one.id))
        in_ground = [one for one in own if not one.doc["pots"]]
        in_pots = [one for one in own if one.doc["pots"]]
        return Bed(
            bed.id,
            bed.doc,
            plantings=tuple(in_ground),
            checks=self._dug(in_ground),
            samples=tuple(samples),
            pots=tuple(in_pots),
            pot_checks=self._dug(in_pots),
            reports=tuple(reports),
        )

    def _dug(self, plantings: Sequence[Entry]) -> tuple[Check, ...]:
        """Their checks, by day."""
        found = [
            _check(one, each, self._ratings[one.id])
            for each in plantings
            for one in self._checks[each.id]
        ]
        return tuple(sorted(found, key=lambda check: (check.on, check.id)))

    def _children(self, kind: str, field: str, parent: str) -> dict[str, list[Entry]]:
        found: dict[str, list[Entry]] = defaultdict(list)
        for entry in self._read[kind].values():
            named = str(entry.doc[field])
            if named in self._read[parent]:
                found[named].append(entry)
            elif named not in self._deleted:
                self.n_adrift += 1
        return found


def _first_day(planting: Entry) -> tuple[str, str]:
    return str(part(planting.doc, "grown")["from_on"]), planting.id


def _check(check: Entry, planting: Entry, ratings: Sequence[Entry]) -> Check:
    in_order = sorted(ratings, key=lambda one: (str(one.doc["rated_at"]), one.id))
    return Check(check.id, check.doc, planting, tuple(in_order))
