"""Opens what claims to be a photo and draws it anew: upright, of bounded size, nothing else in it.

Not for storing. What was uploaded is never kept; only the pixels are.
"""

import io
from dataclasses import dataclass

import pillow_heif
from PIL import Image, ImageOps

pillow_heif.register_heif_opener()

# By the first bytes, before Pillow sees anything; other formats stay out of its reach.
FORMATS = ("JPEG", "PNG", "WEBP", "HEIF")
HEIF_BRANDS = (b"heic", b"heix", b"heim", b"heis", b"mif1", b"heif")
MOST_PIXELS = 64_000_000
FULL_PX = 1600
THUMB_PX = 160
QUALITY = 82


class BadImage(Exception):
    """The bytes are not a photo that can be opened."""


@dataclass(frozen=True)
class Picture:
    """A photo as it is kept: JPEG bytes in full size and as a thumbnail."""

    full: bytes
    thumb: bytes
    width_px: int
    height_px: int


def redraw(data: bytes) -> Picture:
    """Return the photo drawn anew without any metadata; raises ``BadImage``."""
    if not _looks_like_photo(data):
        raise BadImage
    try:
        image = _open_upright(data)
        thumb = image.copy()
        thumb.thumbnail((THUMB_PX, THUMB_PX))
        return Picture(_as_jpeg(image), _as_jpeg(thumb), image.width, image.height)
    except BadImage:
        raise
    except Exception as error:
        # Decoders fail in many ways on broken bytes; each of them means the same to the sender.
        raise BadImage from error


def _looks_like_photo(data: bytes) -> bool:
    return (
        data.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n"))
        or (data[:4] == b"RIFF" and data[8:12] == b"WEBP")
        or (data[4:8] == b"ftyp" and data[8:12] in HEIF_BRANDS)
    )


def _open_upright(data: bytes) -> Image.Image:
    with Image.open(io.BytesIO(data), formats=FORMATS) as opened:
        if opened.width * opened.height > MOST_PIXELS:
            raise BadImage
        if opened.format in ("PNG", "WEBP") and getattr(opened, "n_frames", 1) > 1:
            raise BadImage
        # A JPEG can be decoded at a fraction of its size, which saves most of the memory.
        opened.draft("RGB", (FULL_PX, FULL_PX))
        opened.thumbnail((FULL_PX, FULL_PX))
        upright = ImageOps.exif_transpose(opened)
        paper = Image.new("RGB", upright.size, "white")
        if upright.mode in ("RGBA", "LA", "PA", "P"):
            drawn = upright.convert("RGBA")
            paper.paste(drawn, mask=drawn)
        else:
            paper.paste(upright.convert("RGB"))
        return paper


def _as_jpeg(image: Image.Image) -> bytes:
    buffer = io.BytesIO()
    image.save(buffer, "JPEG", quality=QUALITY, optimize=True)
    return buffer.getvalue()
