"""One item of a push, read and judged on its own, before the database is asked anything.

Not for merging, nor for whether its record or its references exist.
"""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from uuid import UUID

from gardens.domain import records
from gardens.domain.errors import RecordError
from gardens.domain.fields import Refusal, identifier, moment

PARTS = {"mid", "op", "kind", "id", "base", "at", "set"}
HIGHEST_NUMBER = 2**63 - 1
CLOSINGS = {"conflict": ("kept", "taken"), "held": ("accepted", "declined")}


class Rejected(Exception):
    """An item that is not taken; nothing of it is stored, so it can be sent again."""

    def __init__(
        self, code: str, field: str | None = None, reason: str = "", **params: object
    ) -> None:
        super().__init__(code)
        self.code = code
        self.field = field
        self.reason = reason or code
        self.params = params


@dataclass(frozen=True)
class Mutation:
    """A change a device asks for, with values already checked."""

    mid: UUID
    op: str
    kind: str
    id: UUID
    base: int
    at: datetime | None
    values: dict[str, Any]
    body_hash: str
    # Field to the (kind, id) it names.
    references: dict[str, tuple[str, UUID]] = field(default_factory=dict)
    bytes_are_here: bool = False


def read_mutation(item: object) -> Mutation:
    """Read one item of a push; raises ``Rejected`` and nothing else, whatever was sent."""
    if not isinstance(item, Mapping):
        raise Rejected("bad_value", None, "not_an_object")
    unknown = [name for name in item if name not in PARTS]
    if unknown:
        raise Rejected("unknown_field", _shown(unknown[0]))
    op, kind = item.get("op"), item.get("kind")
    if op not in ("put", "patch", "delete"):
        raise Rejected("bad_value", "op", "not_a_choice", choices=["delete", "patch", "put"])
    if not isinstance(kind, str) or kind not in records.KINDS:
        raise Rejected("unknown_kind", "kind")
    values = read_values(op, kind, item.get("set"))
    return Mutation(
        mid=_read_id(item, "mid"),
        op=op,
        kind=kind,
        id=_read_id(item, "id"),
        base=_read_base(item.get("base", 0)),
        at=_read_moment(item.get("at")),
        values=values,
        body_hash=_hash_of(item),
        references=references_of(kind, values),
    )


def read_values(op: str, kind: str, given: object) -> dict[str, Any]:
    """Judge what a change sets; raises ``Rejected``."""
    if records.KINDS[kind].server_made:
        return _read_closing(kind, op, given)
    if op == "delete":
        if given is not None:
            raise Rejected("unknown_field", "set")
        return {}
    try:
        return records.checked_set(kind, given, creating=op == "put")
    except RecordError as error:
        raise Rejected(error.code, error.field, error.reason, **error.params) from None


def _read_closing(kind: str, op: str, given: object) -> dict[str, Any]:
    """The server makes records of this kind; all a device may do is close one."""
    if op != "patch" or not isinstance(given, Mapping) or set(given) != {"state"}:
        raise Rejected("forbidden", None, "server_makes_these")
    if given["state"] not in CLOSINGS[kind]:
        raise Rejected("bad_value", "state", "not_a_choice", choices=list(CLOSINGS[kind]))
    return {"state": given["state"]}


def _read_id(item: Mapping[str, Any], name: str) -> UUID:
    try:
        return UUID(str(identifier(item.get(name))))
    except Refusal as refusal:
        raise Rejected("bad_value", name, refusal.reason) from None


def _read_base(base: object) -> int:
    if type(base) is not int or not 0 <= base <= HIGHEST_NUMBER:
        raise Rejected("bad_value", "base", "not_whole", min=0, max=HIGHEST_NUMBER)
    return base


def _read_moment(at: object) -> datetime | None:
    if at is None:
        return None
    try:
        return datetime.fromisoformat(str(moment(at)))
    except Refusal as refusal:
        raise Rejected("bad_value", "at", refusal.reason) from None


def references_of(kind: str, values: Mapping[str, Any]) -> dict[str, tuple[str, UUID]]:
    """Return which record each field names: field to (kind, id)."""
    found = {}
    for name, value in values.items():
        for other_kind, other_id in records.references(kind, {name: value}):
            found[name] = (other_kind, UUID(other_id))
    return found


def _hash_of(item: Mapping[str, Any]) -> str:
    # Without base: a phone that heals a restored server sends the same change with base 0.
    meant = [item.get("op"), item.get("kind"), item.get("id"), item.get("set")]
    return hashlib.sha256(json.dumps(meant, sort_keys=True).encode()).hexdigest()


def _shown(name: object) -> str:
    return ascii(name)[1:41]
