"""A garden's records as tables for a spreadsheet (RFC 4180, UTF-8 with a byte order mark).

For reading only: when the garden is brought back, its records are read from ``garden.json``.
"""

import csv
import io
from collections.abc import Iterable, Mapping
from typing import Any

from gardens.services.carrying.layout import photo_name, table_name

Doc = Mapping[str, Any]
Row = dict[str, Any]

# A cell that begins so is a formula to spreadsheets; in full width too, to some.
RUNS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
MARK = "'"


def harmless(value: Any) -> Any:
    """Return a cell that no spreadsheet runs: text that it might begins with an apostrophe.

    So does text that had one already, so that taking one away gives back what was written.
    """
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str) and value.startswith((*RUNS, MARK)):
        return MARK + value
    return value


class Tables:
    """The records of a garden by kind and id, and the rows made of them."""

    def __init__(self, records: Iterable[tuple[str, str, str, Doc]], photos: set[str]):
        self.photos = photos
        self.by_kind: dict[str, dict[str, Row]] = {}
        for kind, each, by, doc in records:
            self.by_kind.setdefault(kind, {})[each] = {**doc, "id": each, "by": by}

    def files(self) -> dict[str, bytes]:
        """Return each table as a file, by its place in the garden's file."""
        return {
            table_name(name): as_csv(
                columns.split(), [row_of(self, one) for one in self._all(kind)]
            )
            for name, (kind, columns, row_of) in _TABLES.items()
        }

    def _all(self, kind: str) -> list[Row]:
        found = self.by_kind.get(kind, {})
        return [found[each] for each in sorted(found)]

    def find(self, kind: str, each: Any) -> Row:
        """Return a record, or an empty one when it is not here."""
        return self.by_kind.get(kind, {}).get(each, {})

    def named(self, bed: Any, planting: Any = None) -> Row:
        """Return name of the bed and crop, which a person looks for first."""
        crop = self.find("planting", planting).get("crop", "")
        return {"bed": self.find("bed", bed).get("name", ""), "crop": crop}


def as_csv(columns: list[str], rows: list[Row]) -> bytes:
    """Return rows as the bytes of a table with a line of headings."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows([harmless(row.get(column)) for column in columns] for row in rows)
    return out.getvalue().encode("utf-8-sig")


def _bed(_tables: Tables, one: Row) -> Row:
    return {**one, **one["shape"], "shape": one["shape"]["type"], "put_away": one["archived"]}


def _planting(tables: Tables, one: Row) -> Row:
    return {
        **one,
        **one["grown"],
        **tables.named(one["bed"], one["id"]),
        "n_plants": len(one["plants"]),
    }


def _check(tables: Tables, one: Row) -> Row:
    planting = tables.find("planting", one["planting"])
    named = tables.named(planting.get("bed"), one["planting"])
    return {**one, **named, "chosen": one["chosen"]["how"], "every_k": one["chosen"]["every_k"]}


def _rating(tables: Tables, one: Row) -> Row:
    check = tables.find("root_check", one["root_check"])
    planting = tables.find("planting", check.get("planting"))
    return {
        **one,
        **one["place"],
        **one["reading"],
        **(one["produce_damage"] or {}),
        **tables.named(planting.get("bed"), check.get("planting")),
        "checked_on": check.get("checked_on"),
    }


def _sample(tables: Tables, one: Row) -> Row:
    depth, parcel = one["depth"] or {}, one["parcel"] or {}
    return {
        **one,
        **parcel,
        **tables.named(one["bed"], one["planting"]),
        "depth_from_cm": depth.get("from_cm"),
        "depth_to_cm": depth.get("to_cm"),
    }


def _photo(tables: Tables, one: Row) -> Row:
    is_here = one["sha256"] in tables.photos
    return {
        **one,
        "of_kind": one["of"]["kind"],
        "of_id": one["of"]["id"],
        "file": photo_name(one["sha256"]) if is_here else "",
    }


# Table: kind of its records, its columns, and how a row is made.
_TABLES: dict[str, tuple[str, str, Any]] = {
    "beds": (
        "bed",
        "name shape width_cm length_cm depth_cm soil put_away note by id",
        _bed,
    ),
    "plantings": (
        "planting",
        "bed crop cultivar resistance_code from_on to_on n_plants note by id",
        _planting,
    ),
    "checks": (
        "root_check",
        "bed crop checked_on gall_scale chosen every_k rater n_plants_stood note by id",
        _check,
    ),
    "ratings": (
        "gall_rating",
        "bed crop checked_on plant x_cm y_cm state grade gall_scale trace_only root_rot_pct "
        "look_alike n_examined n_damaged signs rated_at note by id root_check",
        _rating,
    ),
    "samples": (
        "soil_sample",
        "bed crop code purpose lifted_at n_cores depth_from_cm depth_to_cm moisture "
        "soil_temperature_celsius has_roots sent_on arrived_on symptom treatments next_crop "
        "next_crop_on note by id",
        _sample,
    ),
    "photos": ("photo", "of_kind of_id taken_at file by id", _photo),
}
