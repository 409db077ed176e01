"""Draw the app's icons: one root with beads, as SVG and as PNG in the sizes phones ask for.

Run it after changing the motif: ``python frontend/icons/draw.py``. Not part of the build: the
drawings are committed.
"""

from __future__ import annotations

from pathlib import Path

from PIL import Image, ImageDraw

OUT = Path(__file__).resolve().parent.parent / "public" / "icons"
CLAY, PAPER = "#7f2f10", "#faf5ec"  # --accent and --paper of the tokens

# The motif on a 100 x 100 sheet: strokes (points, width) and beads (x, y, radius).
STROKES = [
    ([(12, 28), (88, 28)], 3.2),
    ([(50, 28), (47, 18), (37, 9)], 4.6),
    ([(50, 28), (54, 16), (66, 10)], 4.6),
    ([(50, 28), (51, 46), (48, 66), (53, 92)], 5.0),
    ([(50, 34), (36, 39), (26, 50), (14, 56)], 3.4),
    ([(51, 40), (66, 44), (76, 56), (88, 61)], 3.4),
    ([(49, 56), (38, 62), (32, 75), (22, 84)], 3.0),
    ([(49, 62), (61, 68), (67, 80), (78, 87)], 3.0),
]
BEADS = [
    (51, 45, 6.4),
    (48.5, 64, 5.0),
    (51, 80, 4.0),
    (35, 40, 5.0),
    (25, 51, 6.2),
    (68, 46, 4.4),
    (77, 57, 5.8),
    (37, 63, 4.2),
    (31, 76, 4.8),
    (62, 69, 5.2),
    (69, 81, 3.8),
]
# A launcher may cut a maskable icon down to a circle of 80 % of its width (W3C Web App Manifest,
# from memory), so the motif is smaller there.
PNGS = [
    ("icon-192.png", 192, 0.92, 20),
    ("icon-512.png", 512, 0.92, 20),
    ("maskable-512.png", 512, 0.66, 0),
    ("apple-touch-180.png", 180, 0.82, 0),
]
OVERSAMPLING = 4


def svg(scale: float, corner: float) -> str:
    """Return the motif as an SVG document, scaled about the middle of a sheet."""
    shift = 50 * (1 - scale)
    lines = [
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">',
        f'<rect width="100" height="100" rx="{corner:g}" fill="{CLAY}"/>',
        f'<g transform="translate({shift:g} {shift:g}) scale({scale:g})" fill="{PAPER}"'
        f' stroke="{PAPER}" stroke-linecap="round" stroke-linejoin="round">',
    ]
    for points, width in STROKES:
        path = " ".join(f"{x:g},{y:g}" for x, y in points)
        lines.append(f'<polyline points="{path}" fill="none" stroke-width="{width:g}"/>')
    lines += [f'<circle cx="{x:g}" cy="{y:g}" r="{r:g}" stroke="none"/>' for x, y, r in BEADS]
    return "\n".join([*lines, "</g>", "</svg>", ""])


def png(side: int, scale: float, corner: float) -> Image.Image:
    """Return the motif as a picture of ``side`` pixels, drawn large and shrunk for smooth edges."""
    big = side * OVERSAMPLING
    unit = big / 100 * scale
    offset = big * (1 - scale) / 2
    picture = Image.new("RGBA", (big, big), (0, 0, 0, 0))
    draw = ImageDraw.Draw(picture)
    draw.rounded_rectangle((0, 0, big - 1, big - 1), radius=big * corner / 100, fill=CLAY)
    for points, width in STROKES:
        path = [(offset + x * unit, offset + y * unit) for x, y in points]
        draw.line(path, fill=PAPER, width=round(width * unit), joint="curve")
        for x, y in path:
            dot(draw, x, y, width * unit / 2)
    for x, y, radius in BEADS:
        dot(draw, offset + x * unit, offset + y * unit, radius * unit)
    return picture.resize((side, side), Image.Resampling.LANCZOS)


def dot(draw: ImageDraw.ImageDraw, x: float, y: float, radius: float) -> None:
    """Draw one filled circle."""
    draw.ellipse((x - radius, y - radius, x + radius, y + radius), fill=PAPER)


def main() -> None:
    """Write every icon into the folder the web app is served from."""
    OUT.mkdir(parents=True, exist_ok=True)
    (OUT / "icon.svg").write_text(svg(0.92, 20), encoding="utf-8")
    for name, side, scale, corner in PNGS:
        picture = png(side, scale, corner)
        if not corner:
            picture = picture.convert("RGB")
        picture.quantize(48).save(OUT / name, optimize=True)


if __name__ == "__main__":
    main()
