"""The merge rule: what a change does to a record, field by field.

A field that another device has set since the sender last saw it keeps its value; the incoming
one is set aside for a person to choose. No clock decides anything. Not for storing.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

DELETED = "deleted"
NO_DEVICE = ""


@dataclass
class State:
    """A record as it stands: its document, and who set each field last, with which change.

    ``field_versions`` maps a field to ``[number of the change, device]``.
    """

    doc: dict[str, Any]
    field_versions: dict[str, list[Any]] = field(default_factory=dict)
    deleted: bool = False
    seq: int = 0


@dataclass(frozen=True)
class Edit:
    """One change as its sender meant it; ``base`` is the newest change the sender had seen."""

    seq: int
    device: str
    base: int


@dataclass
class Merged:
    """What a change did: old values it replaced, and values it left aside."""

    previous: dict[str, Any] = field(default_factory=dict)
    aside: dict[str, Any] = field(default_factory=dict)


def is_foreign(state: State, name: str, edit: Edit) -> bool:
    """Tell whether another device set the field after the sender last looked.

    What the server itself set has no device: it is news, never somebody's competing wish.
    """
    seq, device = state.field_versions.get(name, [0, NO_DEVICE])
    return bool(seq > edit.base and device not in (NO_DEVICE, edit.device))


def merge_values(
    state: State, values: Mapping[str, Any], edit: Edit, *, last_wins: bool = False
) -> Merged:
    """Set each field that nobody else has changed meanwhile; a deleted record comes back.

    ``last_wins`` is for closing a conflict, where setting aside would make a conflict about a
    conflict; the journal keeps the value that was replaced.
    """
    merged = Merged()
    for name, value in values.items():
        current = state.doc[name]
        if current != value and is_foreign(state, name, edit) and not last_wins:
            merged.aside[name] = value
        else:
            if current != value:
                merged.previous[name] = current
            state.doc[name] = value
            state.field_versions[name] = [edit.seq, edit.device]
            state.seq = edit.seq
    if state.deleted:
        _mark(state, merged, edit, deleted=False)
    return merged


def merge_deletion(state: State, edit: Edit) -> Merged:
    """Delete the record unless another device has changed any of it meanwhile."""
    merged = Merged()
    if state.deleted:
        return merged
    if any(is_foreign(state, name, edit) for name in state.field_versions):
        merged.aside[DELETED] = True
    else:
        _mark(state, merged, edit, deleted=True)
    return merged


def _mark(state: State, merged: Merged, edit: Edit, *, deleted: bool) -> None:
    merged.previous[DELETED] = state.deleted
    state.deleted = deleted
    state.field_versions[DELETED] = [edit.seq, edit.device]
    state.seq = edit.seq
