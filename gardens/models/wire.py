"""How a value travels (one JSON field) and how it is stored (one or several typed columns).

Not for judging values: ``gardens.domain.records`` has done that before anything gets here.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from functools import cache
from typing import Any
from uuid import UUID

from django.db import models

Convert = Callable[[Any], Any]


@dataclass(frozen=True)
class Plain:
    """A wire field that is one column of the same name."""

    name: str

    @property
    def columns(self) -> tuple[str, ...]:
        return (self.name,)

    def split(self, value: Any) -> dict[str, Any]:
        return {self.name: value}

    def join(self, row: Mapping[str, Any]) -> Any:
        return row[self.name]


@dataclass(frozen=True)
class Whole:
    """A wire field made of parts, each in its own column: ``parts`` maps part to column.

    The value is null when every column is; ``sparse`` leaves out the parts that are null, for
    values whose type decides which parts they have.
    """

    name: str
    parts: dict[str, str] = field(hash=False)
    sparse: bool = False

    @property
    def columns(self) -> tuple[str, ...]:
        return tuple(self.parts.values())

    def split(self, value: Mapping[str, Any] | None) -> dict[str, Any]:
        given = value or {}
        return {column: given.get(part) for part, column in self.parts.items()}

    def join(self, row: Mapping[str, Any]) -> dict[str, Any] | None:
        value = {part: row[column] for part, column in self.parts.items()}
        if all(each is None for each in value.values()):
            return None
        if self.sparse:
            return {part: each for part, each in value.items() if each is not None}
        return value


def moment_text(moment: datetime) -> str:
    """Write a moment as phones do: UTC, three decimals, Z."""
    return moment.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


_READ: dict[type[models.Field], Convert] = {
    models.UUIDField: UUID,
    models.DateField: date.fromisoformat,
    models.DateTimeField: datetime.fromisoformat,
}
_WRITE: dict[type[models.Field], Convert] = {
    models.UUIDField: str,
    models.DateField: date.isoformat,
    models.DateTimeField: moment_text,
}


Wire = tuple[Plain | Whole, ...]


def to_columns(model: type[models.Model], wire: Wire, doc: Mapping[str, Any]) -> dict[str, Any]:
    """Return column values for the wire fields that ``doc`` holds."""
    converts = _converts(model)
    row: dict[str, Any] = {}
    for each in wire:
        if each.name in doc:
            for column, value in each.split(doc[each.name]).items():
                read = converts[column][0]
                row[column] = value if read is None or value is None else read(value)
    return row


def to_doc(record: models.Model, wire: Wire) -> dict[str, Any]:
    """Return the record's wire fields from its columns."""
    converts = _converts(type(record))
    row: dict[str, Any] = {}
    for each in wire:
        for column in each.columns:
            value = getattr(record, column)
            write = converts[column][1]
            row[column] = value if write is None or value is None else write(value)
    return {each.name: each.join(row) for each in wire}


@cache
def _converts(model: type[models.Model]) -> dict[str, tuple[Convert | None, Convert | None]]:
    kinds = {column.name: type(column) for column in model._meta.concrete_fields}
    return {name: (_READ.get(kind), _WRITE.get(kind)) for name, kind in kinds.items()}
