"""One measured figure and what it is held against."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Figure:
    """A value, what it is compared with in the same run, and whether that is enough."""

    name: str
    measured: str
    against: str
    ratio: float
    kept: bool | None  # None: told for comparison, held to no budget


def within(name: str, value: float, budget: float, unit: str) -> Figure:
    """Return a figure that has to stay at or under a budget."""
    ratio = value / budget
    return Figure(name, f"{value:.1f} {unit}", f"budget {budget:g} {unit}", ratio, value <= budget)


def faster(name: str, value_s: float, baseline_s: float, baseline: str, least: float) -> Figure:
    """Return a figure that has to be so many times faster than a baseline of the same run."""
    ratio = baseline_s / value_s
    measured = f"{value_s * 1000:.0f} ms"
    against = f"{baseline} {baseline_s * 1000:.0f} ms, at least {least:g}x faster"
    return Figure(name, measured, against, ratio, ratio >= least)


def beside(name: str, value_s: float, baseline_s: float, baseline: str) -> Figure:
    """Return a figure that is only told next to a baseline of the same run."""
    measured = f"{value_s * 1000:.0f} ms"
    return Figure(
        name, measured, f"{baseline} {baseline_s * 1000:.0f} ms", value_s / baseline_s, None
    )


def percentile(values: Sequence[float], share: float) -> float:
    """Return the smallest value that at least this share of the values does not exceed."""
    ordered = sorted(values)
    place = max(0, -(-len(ordered) * share // 1) - 1)
    return ordered[int(place)]


def table(figures: Sequence[Figure]) -> str:
    """Return the figures as lines of text."""
    words = {True: "kept", False: "MISSED", None: ""}
    rows = [(f.name, f.measured, f.against, f"{f.ratio:.2f}x", words[f.kept]) for f in figures]
    rows.insert(0, ("figure", "measured", "against", "ratio", ""))
    widths = [max(len(row[i]) for row in rows) for i in range(5)]
    lines = ["  ".join(c.ljust(w) for c, w in zip(row, widths, strict=True)) for row in rows]
    return "\n".join(line.rstrip() for line in lines)
