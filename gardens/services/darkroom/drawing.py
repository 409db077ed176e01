"""Opens what claims to be a photo and draws it anew: upright, of bounded size, nothing else in it.

Only the darkroom's own process imports this: decoders meet bytes of strangers. Not for storing.
"""

import io

import pillow_heif
from PIL import Image, ImageOps

from gardens.services.darkroom.picture import FULL_PX, THUMB_PX, BadImage, Picture

pillow_heif.register_heif_opener()

# By the first bytes, before Pillow sees anything; other formats stay out of its reach.
FORMATS = ("JPEG", "PNG", "WEBP", "HEIF")
HEIF_BRANDS = (b"heic", b"heix", b"heim", b"heis", b"mif1", b"heif")
MOST_PIXELS = 50_000_000  # the largest cameras of phones make 48 to 49 million
QUALITY = 82


def redraw(data: bytes) -> Picture:
    """Return the photo drawn anew without any metadata; raises ``BadImage``."""
    if not _looks_like_photo(data):
        raise BadImage
    try:
        image = _open_upright(data)
        thumb = image.copy()
        thumb.thumbnail((THUMB_PX, THUMB_PX))
        return Picture(_as_jpeg(image), _as_jpeg(thumb), image.width, image.height)
    except (BadImage, MemoryError):
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
        # Behind a JPEG a phone keeps the same picture in more light; only the first is drawn.
        if opened.format not in ("JPEG", "MPO") and getattr(opened, "n_frames", 1) > 1:
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
