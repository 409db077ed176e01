"""Reads a JSON body strictly and with bounds, gzipped or not.

Not for judging what the values mean. What cannot be stored is stopped here or per item, so that
no body whatever makes the server fail.
"""

import json
import zlib
from typing import Any, BinaryIO

from rest_framework.parsers import BaseParser

from api.errors import Problem

MOST_BYTES = 524_288
DEEPEST = 20


class StrictJSONParser(BaseParser):
    """JSON with bounded size and depth; no NaN, no repeated keys, numbers within 64 bits."""

    media_type = "application/json"

    def parse(
        self, stream: BinaryIO, media_type: str | None = None, parser_context: Any = None
    ) -> Any:
        encoding = (parser_context or {})["request"].headers.get("Content-Encoding", "identity")
        return parse_json(read_body(stream, encoding))


def read_body(stream: BinaryIO, encoding: str) -> bytes:
    """Return the body, inflated when gzipped, never more than ``MOST_BYTES`` of it."""
    raw = stream.read(MOST_BYTES + 1)
    if len(raw) > MOST_BYTES:
        raise Problem("batch_too_large", max=MOST_BYTES)
    if encoding == "identity":
        return raw
    if encoding != "gzip":
        raise Problem("bad_request", field="Content-Encoding")
    inflater = zlib.decompressobj(wbits=31)
    try:
        body = inflater.decompress(raw, MOST_BYTES + 1)
    except zlib.error:
        raise Problem("bad_json") from None
    if len(body) > MOST_BYTES:
        raise Problem("batch_too_large", max=MOST_BYTES)
    if not inflater.eof or inflater.unused_data:
        # Cut off, or followed by more that would be dropped without a word.
        raise Problem("bad_json")
    return body


def parse_json(body: bytes) -> Any:
    """Return what the JSON text says, or raise ``bad_json``."""
    try:
        found = json.loads(
            body.decode("utf-8"),
            parse_constant=_refuse,
            parse_int=_whole,
            parse_float=_number,
            object_pairs_hook=_object,
        )
    except (ValueError, RecursionError):
        raise Problem("bad_json") from None
    if _depth(found) > DEEPEST:
        raise Problem("bad_json")
    return found


def _refuse(text: str) -> Any:
    raise ValueError(text)


def _whole(text: str) -> int:
    if len(text) > 20 or not -(2**63) <= int(text) < 2**63:
        raise ValueError("beyond 64 bits")
    return int(text)


def _number(text: str) -> float:
    value = float(text)
    if value in (float("inf"), float("-inf")):
        raise ValueError("beyond a double")
    return value


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError("a key is repeated")
    return found


def _depth(value: Any) -> int:
    depth, level = 0, [value]
    while level:
        depth += 1
        level = [
            inner
            for outer in level
            if isinstance(outer, dict | list)
            for inner in (outer.values() if isinstance(outer, dict) else outer)
        ]
    return depth
