"""Reads a JSON body strictly and with bounds, gzipped or not.

Not for judging what the values mean. What cannot be stored is stopped here or per item, so that
no body whatever makes the server fail.
"""

import zlib
from typing import Any, BinaryIO

from rest_framework.parsers import BaseParser

from api.errors import Problem
from gardens.domain.strict_json import strict_json

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
        return strict_json(body, DEEPEST)
    except ValueError:
        raise Problem("bad_json") from None
