"""A photo as it is kept, and what is said of bytes that are none. Knows no decoder."""

from dataclasses import dataclass

FULL_PX = 1600
THUMB_PX = 160


class BadImage(Exception):
    """The bytes are not a photo that can be opened."""


@dataclass(frozen=True)
class Picture:
    """A photo as it is kept: JPEG bytes in full size and as a thumbnail."""

    full: bytes
    thumb: bytes
    width_px: int
    height_px: int
