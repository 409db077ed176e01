"""Pictures made anew for each run: honest ones, and files that only claim to be one.

The list of attacks follows the upload chapter of OWASP's ASVS 5.0 and Pillow's own release notes.
"""

import io
import struct
import zlib

import pillow_heif
from PIL import Image

ORIENTATION, GPS = 0x0112, 0x8825


def drawn(width=400, height=200, mode="RGB"):
    """A picture whose left half is red and whose right half is blue."""
    image = Image.new(mode, (width, height), "blue")
    image.paste("red", (0, 0, width // 2, height))
    return image


def encoded(kind, image=None, **options):
    buffer = io.BytesIO()
    (image or drawn()).save(buffer, kind, **options)
    return buffer.getvalue()


def turned_exif():
    exif = Image.Exif()
    exif[ORIENTATION] = 6
    exif[GPS] = {1: "N", 2: (48.0, 7.0, 1.0)}
    return exif


def in_heic(image=None, **options):
    """A picture as an iPhone keeps it."""
    buffer = io.BytesIO()
    pillow_heif.from_pillow(image or drawn()).save(buffer, quality=90, **options)
    return buffer.getvalue()


def _chunk(name, data):
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def claiming(width, height):
    """A PNG of one grey row that says in its head that it is as large as this."""
    head = _chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0))
    pixels = _chunk(b"IDAT", zlib.compress(bytes(width + 1)))
    return b"\x89PNG\r\n\x1a\n" + head + pixels + _chunk(b"IEND", b"")


def blank(width, height, mode="1"):
    """A PNG that is small in bytes and large in pixels."""
    return encoded("PNG", Image.new(mode, (width, height)))


GREEN = Image.new("RGB", (400, 200), "green")
HEIC = in_heic(exif=turned_exif().tobytes())
FALSE_PHOTOS = {
    "nothing": b"",
    "SVG": b'<svg xmlns="http://www.w3.org/2000/svg"/>',
    "HTML": b"<html><script>alert(1)</script>",
    "PostScript": b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 10 10\nshowpage\n",
    "GIF": encoded("GIF"),
    "TIFF": encoded("TIFF"),
    "BMP": encoded("BMP"),
    "a zip": b"PK\x03\x04" + bytes(100),
    "a cut-off JPEG": encoded("JPEG")[:700],
    "a cut-off HEIC": HEIC[: len(HEIC) // 2],
    "only the first bytes of a JPEG": b"\xff\xd8\xff" + b"\xff" * 5000,
    "eight million bytes of 255": b"\xff" * 7_999_999,
    "a moving WebP": encoded("WEBP", save_all=True, append_images=[GREEN]),
    "a moving PNG": encoded("PNG", save_all=True, append_images=[GREEN]),
    "60,000 by 60,000 in its head": claiming(60_000, 60_000),
    "12,000 by 12,000 in 20 kB": blank(12_000, 12_000),
    "one pixel row too many": blank(8_000, 6_251),
    "no pixel": claiming(0, 10),
    "nothing but a claim to be HEIC": b"\x00\x00\x00\x18ftypheic" + b"\x00" * 500,
}
