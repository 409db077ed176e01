"""The process that opens pictures: bytes of a stranger in, bytes of a new JPEG out, nothing else.

It knows no database, no secret and no setting, and ends when the server does.
"""

import sys
from typing import BinaryIO

from gardens.services.darkroom import bounds, wire
from gardens.services.darkroom.drawing import redraw
from gardens.services.darkroom.picture import BadImage, Picture


def main(asked: BinaryIO, answered: BinaryIO) -> int:
    """Draw pictures until nobody asks any more; return 1 when one took all the memory."""
    wire.write_hello(answered, bounds.bind())
    while (data := wire.read_request(asked)) is not None:
        bounds.allow_one_picture()
        try:
            picture = _drawn(data)
        except MemoryError:
            return 1
        wire.write_answer(answered, picture)
    return 0


def _drawn(data: bytes) -> Picture | None:
    try:
        return redraw(data)
    except BadImage:
        return None


if __name__ == "__main__":
    sys.exit(main(sys.stdin.buffer, sys.stdout.buffer))
