"""How the server and the darkroom's process speak: lengths, then bytes.

The server believes nothing of it: a decoder that was taken over could answer anything.
"""

import struct
from collections.abc import Sequence
from typing import BinaryIO

from gardens.services.darkroom.picture import FULL_PX, BadImage, Picture

HEAD = struct.Struct(">I")
ANSWER = struct.Struct(">IIII")
MOST_ANSWER_BYTES = 8_000_000
JPEG = b"\xff\xd8\xff"


class Ended(Exception):
    """The other side is gone or does not keep to the form."""


def write_hello(stream: BinaryIO, bounds: Sequence[str]) -> None:
    """Say once which bounds hold."""
    stream.write(" ".join(bounds).encode() + b"\n")
    stream.flush()


def read_hello(stream: BinaryIO) -> list[str]:
    """Return the bounds that hold."""
    line = stream.readline(200)
    if not line.endswith(b"\n"):
        raise Ended
    return line.decode("ascii", "replace").split()


def write_request(stream: BinaryIO, data: bytes) -> None:
    """Hand over the bytes of one upload."""
    try:
        stream.write(HEAD.pack(len(data)))
        stream.write(data)
        stream.flush()
    except OSError as error:
        raise Ended from error


def read_request(stream: BinaryIO) -> bytes | None:
    """Return the next upload, or None when there will be none."""
    head = stream.read(HEAD.size)
    return stream.read(HEAD.unpack(head)[0]) if len(head) == HEAD.size else None


def write_answer(stream: BinaryIO, picture: Picture | None) -> None:
    """Hand back a picture, or that there is none."""
    if picture is None:
        stream.write(ANSWER.pack(0, 0, 0, 0))
    else:
        sizes = len(picture.full), len(picture.thumb), picture.width_px, picture.height_px
        stream.write(ANSWER.pack(*sizes) + picture.full + picture.thumb)
    stream.flush()


def read_answer(stream: BinaryIO) -> Picture:
    """Return the picture; raises ``BadImage`` when there is none, ``Ended`` for anything odd."""
    n_full, n_thumb, width_px, height_px = ANSWER.unpack(_exactly(stream, ANSWER.size))
    if n_full == 0:
        raise BadImage
    is_odd = max(n_full, n_thumb) > MOST_ANSWER_BYTES or max(width_px, height_px) > FULL_PX
    if is_odd or not min(n_thumb, width_px, height_px):
        raise Ended
    full, thumb = _exactly(stream, n_full), _exactly(stream, n_thumb)
    if not (full.startswith(JPEG) and thumb.startswith(JPEG)):
        raise Ended
    return Picture(full, thumb, width_px, height_px)


def _exactly(stream: BinaryIO, n_bytes: int) -> bytes:
    data = stream.read(n_bytes)
    if len(data) != n_bytes:
        raise Ended
    return data
