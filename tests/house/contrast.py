"""Contrast of the colours in the token file, by WCAG 2.2 (relative luminance, contrast ratio)."""

import re

COLOUR = re.compile(r"(--[\w-]+):\s*(#[0-9a-fA-F]{6})\s*;")


def themes(css: str) -> dict[str, dict[str, str]]:
    """Return the colours of the light and of the dark theme; dark starts from light."""
    before, _, after = css.partition("@media (prefers-color-scheme: dark)")
    light = dict(COLOUR.findall(before))
    return {"light": light, "dark": light | dict(COLOUR.findall(after))}


def luminance(colour: str) -> float:
    """Return the relative luminance of an sRGB colour written #rrggbb."""
    parts = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    red, green, blue = linear
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def ratio(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, 1 to 21."""
    bright, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)
