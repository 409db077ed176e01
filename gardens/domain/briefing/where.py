"""Where in a bed the galls are: the map of the newest check and whether neighbours are alike.

Not for a check of the worst-looking plants: their places were chosen for what stood there.
"""

import math
import statistics
from collections.abc import Mapping
from dataclasses import dataclass

from gardens.domain import geometry
from gardens.domain.briefing import remembered
from gardens.domain.briefing.gathered import Bed, part
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.briefing.roots import Seen
from gardens.domain.check_lines import pattern_line, surface_line
from gardens.domain.geometry import Point
from gardens.domain.pattern import Pattern

SQUARES = 150
LEAST_CELL_CM = 10
SPACING_CM = 40.0


@dataclass(frozen=True)
class Where:
    """Map and pattern of one check."""

    seen: Seen
    outline: tuple[Point, ...]
    cell_cm: int
    squares: remembered.Squares
    pattern: Pattern


def where(bed: Bed, seen: Seen, teller: Teller) -> Where | None:
    """Find out where the galls are.

    Parameters
    ----------
    bed : Bed
        The bed.
    seen : Seen
        Its newest check.
    teller : Teller
        Has the judged values.

    Returns
    -------
    Where or None
        None for a check of the worst-looking plants, or when nothing was rated.
    """
    if seen.how == "worst_looking" or not seen.plants:
        return None
    outline = tuple(geometry.corners(part(bed.doc, "shape")))
    cell_cm = max(LEAST_CELL_CM, math.ceil(math.sqrt(geometry.area_cm2(outline) / SQUARES)))
    spacing_cm = _spacing(seen.check.planting.doc)
    plants = tuple(sorted(seen.plants, key=lambda one: (one.place, one.grade)))
    found = remembered.found_pattern(
        tuple(one.place for one in plants), tuple(one.grade for one in plants), teller.rules
    )
    squares = remembered.squares(outline, plants, spacing_cm, cell_cm, teller.rules)
    return Where(seen, outline, cell_cm, squares, found)


def surface_values(found: Where) -> dict[str, object] | None:
    """The map as it travels.

    Parameters
    ----------
    found : Where
        Map and pattern.

    Returns
    -------
    dict or None
        Plain values; without squares where the gate is closed. None while plants are too few
        for anything to be said about where.
    """
    if found.pattern.code == "too_few":
        return None
    is_drawn = found.squares.surface.code == "drawn"
    size = remembered.grid_size(found.outline, found.cell_cm) if is_drawn else (0, 0)
    return {
        "root_check": found.seen.check.id,
        "cell_cm": found.cell_cm,
        "origin_cm": list(geometry.box(found.outline)[:2]),
        "n_columns": size[0],
        "n_rows": size[1],
        "values": list(found.squares.values),
        "ground": list(found.squares.ground),
        "gate": "open" if is_drawn else "closed",
        "pattern": {"code": found.pattern.code, "p_band": _band(found.pattern.chance)},
    }


def where_lines(found: Where, teller: Teller) -> list[Line]:
    """What is said about where the galls are.

    Parameters
    ----------
    found : Where
        Map and pattern.
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        The pattern, then the map.
    """
    lines = [teller.say(pattern_line(found.pattern))]
    if found.pattern.code in ("too_few", "all_equal"):
        return lines
    lines.append(teller.say(surface_line(found.squares.surface)))
    if found.squares.values and found.pattern.code in ("hint", "patchy"):
        lines.append(_worst_spot(found, teller))
    return lines


def _worst_spot(found: Where, teller: Teller) -> Line:
    values = found.squares.values
    n_columns, _ = remembered.grid_size(found.outline, found.cell_cm)
    worst = max((value, -at) for at, value in enumerate(values) if value is not None)
    row, column = divmod(-worst[1], n_columns)
    left, top, _, _ = geometry.box(found.outline)
    return teller.line(
        "map_worst_spot",
        grade=worst[0],
        across=_to_ten(left + (column + 0.5) * found.cell_cm),
        down=_to_ten(top + (row + 0.5) * found.cell_cm),
    )


def _to_ten(cm: float) -> int:
    return 10 * round(cm / 10)


def _band(chance: float | None) -> str:
    if chance is None:
        return "not worked out"
    for line, words in ((0.01, "at most 1 in 100"), (0.05, "at most 1 in 20")):
        if chance <= line:
            return words
    return "more than 1 in 20"


def _spacing(planting: Mapping[str, object]) -> float:
    """Distance between neighbouring plants [cm], as noted or as drawn."""
    rows, plants = planting["rows"], planting["plants"]
    if isinstance(rows, Mapping):
        return float(rows["plant_spacing_cm"])
    assert isinstance(plants, list)
    nearest = [
        min(math.dist(one, other) for other in plants[:at] + plants[at + 1 :])
        for at, one in enumerate(plants[:40])
        if len(plants) > 1
    ]
    return statistics.median(nearest) if nearest and min(nearest) > 0 else SPACING_CM
