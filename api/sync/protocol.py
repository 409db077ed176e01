"""The closed list of what the protocol says about itself, and the envelope of a push.

Not for the items inside: each is judged on its own, so that one cannot spoil the others.
"""

import json
import re
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import Any
from uuid import UUID

from django.conf import settings

from api.errors import Problem
from api.sync.parse import MOST_BYTES
from gardens.domain.fields import Refusal, identifier, moment

PROTO = 1
SCHEMA = 1
MOST_ITEMS = 200
MOST_BLOB_BYTES = 8_000_000
PAGE = 500
ENVELOPE = {"proto", "schema", "device", "sent_at", "high", "mutations"}

ITEM_SENTENCES = {
    "mid_reused": "This change was sent before with other contents. It stays on the phone; "
    "save it again to send it as a new change.",
    "mid_taken": "Another phone already used this change's number. It stays on the phone; "
    "save it again to send it as a new change.",
    "unknown_field": "This server does not know this field. The entry stays on the phone; "
    "update the server and send again.",
    "unknown_kind": "This server does not know this kind of record. It stays on the phone; "
    "update the server and send again.",
    "kind_mismatch": "This record is of another kind on the server. The entry stays on the phone; "
    "make it anew.",
    "forbidden": "Only the server may change this. Nothing was changed.",
    "role_may_not": "Your link to this garden does not allow this. The entry stays on the phone; "
    "ask the grower, or let the entry go.",
    "accepted_is_final": "Somebody has accepted this change already. It stays accepted; "
    "change the record itself, or let this decision go.",
    "not_found": "This garden has no such record. The entry stays on the phone; "
    "make the record anew or let the entry go.",
    "unstorable": "The server could not store this entry. It stays on the phone; "
    "save it to a file and write it again.",
}


def limits() -> dict[str, Any]:
    """Return what GET /meta says about versions and limits."""
    return {
        "proto": {"min": PROTO, "max": PROTO},
        "schema": {"current": SCHEMA, "push_min": 1, "pull_min": 1},
        "limits": {"items": MOST_ITEMS, "bytes": MOST_BYTES, "blob": MOST_BLOB_BYTES},
    }


@dataclass(frozen=True)
class Envelope:
    """A push as it arrived, its items still unread."""

    schema: int
    device: UUID
    sent_at: datetime | None
    high: tuple[int, str] | None
    items: list[Any]


def read_envelope(body: Any) -> Envelope:
    """Read a push; raises ``bad_request`` with the field, or ``batch_too_large``."""
    if not isinstance(body, dict) or not set(body) <= ENVELOPE:
        raise Problem("bad_request")
    if body.get("proto") != PROTO:
        raise Problem("bad_request", field="proto")
    schema, items = body.get("schema"), body.get("mutations")
    if type(schema) is not int or schema < 1:
        raise Problem("bad_request", field="schema")
    if not isinstance(items, list):
        raise Problem("bad_request", field="mutations")
    if len(items) > MOST_ITEMS:
        raise Problem("batch_too_large", max=MOST_ITEMS)
    return Envelope(
        schema,
        UUID(_read(identifier, body.get("device"), "device")),
        _read_sent_at(body.get("sent_at")),
        read_high(body.get("high")),
        items,
    )


def _read_sent_at(sent_at: Any) -> datetime | None:
    return None if sent_at is None else datetime.fromisoformat(_read(moment, sent_at, "sent_at"))


def _read(rule: Any, value: Any, name: str) -> str:
    try:
        return str(rule(value))
    except Refusal:
        raise Problem("bad_request", field=name) from None


def read_high(high: Any) -> tuple[int, str] | None:
    """Read the mark of the newest change a phone has seen, ``"N.tag"`` or nothing."""
    if high in (None, ""):
        return None
    match = re.fullmatch(r"([0-9]{1,18})\.([0-9a-f]{16})", high) if isinstance(high, str) else None
    if match is None:
        raise Problem("bad_request", field="high")
    seq = int(match[1])
    return (seq, match[2]) if seq else None


def read_number(text: str | None, name: str, default: int, least: int, most: int) -> int:
    """Read a whole number of the query string within its bounds."""
    if text is None:
        return default
    if not re.fullmatch(r"[0-9]{1,18}", text) or not least <= int(text) <= most:
        raise Problem("bad_request", field=name, min=least, max=most)
    return int(text)


@cache
def _catalogue() -> dict[str, str]:
    path = Path(settings.BASE_DIR) / "fixtures" / "sentences.json"
    return {**json.loads(path.read_text(encoding="utf-8")), **ITEM_SENTENCES}


def sentence_of(code: str) -> str:
    """Return what an item's code means, for a person."""
    return _catalogue().get(code, _catalogue()["unstorable"])


def with_sentence(result: dict[str, Any]) -> dict[str, Any]:
    """Return an item's result with its reason turned into a sentence."""
    if result["status"] != "rejected":
        return result
    said = {**result}
    sentence = _catalogue().get(said.pop("reason"), _catalogue()["unstorable"])
    said["message"] = sentence.format_map(_Shown(said.pop("params")))
    return {name: value for name, value in said.items() if value is not None}


class _Shown(dict[str, Any]):
    """Parameters of a sentence; one that is missing shows as nothing rather than failing."""

    def __missing__(self, name: str) -> str:
        return ""


def schema_is_newer(items: list[Any]) -> list[dict[str, Any]]:
    """Answer every item of a phone that is newer than this server: keep it, send it later."""
    mids = [item.get("mid") if isinstance(item, dict) else None for item in items]
    return [
        {"mid": mid if _is_id(mid) else None, "status": "retry", "code": "schema_newer"}
        for mid in mids
    ]


def _is_id(value: Any) -> bool:
    try:
        identifier(value)
    except Refusal:
        return False
    return True
