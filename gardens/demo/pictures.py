"""Draw a photo of a washed root on a white board, for the demo garden.

Not for teaching what a grade looks like: the drawings on the grade keys do that.
"""

from __future__ import annotations

import math
import random
from io import BytesIO

from PIL import Image, ImageDraw, ImageFilter

WIDTH_PX, HEIGHT_PX = 960, 720
BOARD, SHADOW, SOIL = (236, 234, 226), (205, 201, 190), (150, 120, 84)
STEM, ROOT, GALL, GALL_EDGE = (118, 142, 78), (196, 166, 116), (186, 140, 88), (148, 104, 60)


def draw_root_photo(*, seed: int, galled_pct: float) -> bytes:
    """Return a JPEG of an invented root system.

    Parameters
    ----------
    seed : int
        Chooses the root's shape; the same seed gives the same drawing. [-, any]
    galled_pct : float
        Share of the root length that carries galls. [percent, 0 to 100]

    Returns
    -------
    bytes
        A JPEG without EXIF, 960 x 720 pixels.
    """
    rng = random.Random(seed)
    photo = Image.new("RGB", (WIDTH_PX, HEIGHT_PX), BOARD)
    pen = ImageDraw.Draw(photo)
    _draw_ruler(pen)
    top = (WIDTH_PX / 2 + rng.uniform(-30, 30), 130.0)
    pen.line([(top[0] - 14, 0), top], fill=STEM, width=26)
    for n in range(11):
        angle = math.pi / 2 + (n - 5) * 0.24 + rng.uniform(-0.08, 0.08)
        _draw_branch(pen, rng, top, angle, 11.0, galled_pct)
    _draw_crumbs(pen, rng)
    out = BytesIO()
    photo.filter(ImageFilter.GaussianBlur(0.8)).save(out, "JPEG", quality=82)
    return out.getvalue()


def _draw_branch(pen, rng, start, angle, width, galled_pct) -> None:
    """Draw one root and, thinner, those that leave it."""
    x, y = start
    for _ in range(int(width * 2.6)):
        angle += rng.uniform(-0.16, 0.16)
        to = (x + math.cos(angle) * 16, y + math.sin(angle) * 16)
        pen.line([(x + 4, y + 5), (to[0] + 4, to[1] + 5)], fill=SHADOW, width=max(1, round(width)))
        pen.line([(x, y), to], fill=ROOT, width=max(1, round(width)))
        if rng.random() * 100 < galled_pct:
            _draw_gall(pen, rng, to, width)
        if width > 3 and rng.random() < 0.22:
            turn = rng.choice((-1, 1)) * rng.uniform(0.4, 0.9)
            _draw_branch(pen, rng, to, angle + turn, width * 0.5, galled_pct)
        (x, y), width = to, width * 0.965


def _draw_gall(pen, rng, at, width) -> None:
    across, along = width * rng.uniform(0.8, 1.5) + 3, width * rng.uniform(0.8, 1.3) + 3
    box = (at[0] - across, at[1] - along, at[0] + across, at[1] + along)
    pen.ellipse(box, fill=GALL, outline=GALL_EDGE)


def _draw_crumbs(pen, rng) -> None:
    for _ in range(160):
        x, y, r = rng.uniform(0, WIDTH_PX), rng.uniform(0, HEIGHT_PX), rng.uniform(0.5, 2.5)
        pen.ellipse((x - r, y - r, x + r, y + r), fill=SOIL)


def _draw_ruler(pen) -> None:
    """A strip of one-centimetre marks along the board's lower edge."""
    for n, x in enumerate(range(20, WIDTH_PX, 40)):
        tick = 26 if n % 5 == 0 else 14
        pen.line([(x, HEIGHT_PX - tick), (x, HEIGHT_PX)], fill=(90, 90, 86), width=2)
