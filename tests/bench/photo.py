"""A camera's picture of 12 megapixels in the darkroom: computing, memory, room on the disk."""

import io
import random

import pillow_heif
from PIL import Image

from gardens.demo.pictures import draw_root_photo
from gardens.services.darkroom.bounds import MOST_COMPUTING_S, MOST_MEMORY_BYTES
from gardens.services.darkroom.picture import Picture
from gardens.services.darkroom.room import Darkroom
from tests.bench import computing
from tests.bench.figures import Figure, within

SIZE = (4032, 3024)
PATIENCE_S = 120  # the clock of a busy machine is not what is measured


def measure() -> list[Figure]:
    """Draw each kind anew in a process that has drawn nothing before."""
    picture, figures = taken(), []
    for kind, data in (("JPEG", in_jpeg(picture)), ("HEIC", in_heic(picture))):
        made, seconds, megabytes = drawn(data)
        name = f"photo of 12 MP, {kind}"
        n_bytes = len(made.full) + len(made.thumb)
        against, ratio = f"sent as {len(data) / 1000:.0f}", n_bytes / len(data)
        if computing.is_told():
            most = MOST_MEMORY_BYTES / 1e6
            figures.append(within(f"{name}, computing", seconds, MOST_COMPUTING_S, "s"))
            figures.append(within(f"{name}, address space", megabytes, most, "MB"))
        kept = f"{n_bytes / 1000:.0f} kB"
        figures.append(Figure(f"{name}, kept", kept, against, ratio, None))
    return figures


def drawn(data: bytes) -> tuple[Picture, float, float]:
    """Return the picture, what it took to compute, and the most address space it took."""
    darkroom = Darkroom(longest_s=PATIENCE_S)
    try:
        made = darkroom.redraw(data)
        process = darkroom._process
        if process is None or not computing.is_told():
            return made, 0.0, 0.0
        return made, computing.seconds_of(process.pid), computing.most_megabytes(process.pid)
    finally:
        darkroom.close()


def taken() -> Image.Image:
    """Return a drawn root as large as a phone's picture, with the grain of a sensor."""
    drawing = Image.open(io.BytesIO(draw_root_photo(seed=5, galled_pct=30))).resize(SIZE)
    grain = Image.frombytes("L", SIZE, random.Random(5).randbytes(SIZE[0] * SIZE[1]))
    return Image.blend(drawing, grain.convert("RGB"), 0.08)


def in_jpeg(picture: Image.Image) -> bytes:
    """Return it as most phones keep it."""
    file = io.BytesIO()
    picture.save(file, "JPEG", quality=88)
    return file.getvalue()


def in_heic(picture: Image.Image) -> bytes:
    """Return it as an iPhone keeps it."""
    file = io.BytesIO()
    pillow_heif.from_pillow(picture).save(file, quality=60)
    return file.getvalue()
