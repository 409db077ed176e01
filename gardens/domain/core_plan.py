"""Where to push in the tool: cores to and fro across a bed, beside its plants.

Not for how many cores; the same bed and the same seed always give the same places.
"""

import math
import random
from collections.abc import Container, Sequence
from dataclasses import dataclass

from gardens.domain.errors import DomainError
from gardens.domain.geometry import Point, area_within_cm2, box, is_inside

Bounds = tuple[float, float, float, float]
Place = tuple[int, int]

LEAST_GROUND_CM2 = 40.0
# Share of the way across at which core after core is lifted: one side, middle, other side.
_TO_AND_FRO = (0.2, 0.5, 0.8, 0.5)
# A core stays this far from the ends of its strip, as a share of the strip.
_WITHIN_STRIP = (0.25, 0.75)
PROBE_CM = 5  # half the ground a probe and the soil it pushes aside take up, judged
_HALVINGS = 40
_FARTHEST_CM = 60


def core_plan(
    outline: Sequence[Point],
    n_cores: int,
    seed: str,
    *,
    plants: Sequence[Point] = (),
    root_zone_cm: float = 10.0,
    part: Bounds | None = None,
) -> tuple[Place, ...]:
    """Places for the cores of one composite sample, in walking order.

    Parameters
    ----------
    outline : sequence of (float, float)
        3 or more corners of the bed [cm].
    n_cores : int
        [cores, 1..200]
    seed : str
        Any text, e.g. the id of the sample; another one shifts the places.
    plants : sequence of (float, float)
        Where plants stand, any number [cm]; none for a bare bed.
    root_zone_cm : float
        How far from a stem a core is lifted [cm, 3..40].
    part : (float, float, float, float) or None
        Left, top, right, bottom of the part that is sampled [cm]; None for the whole bed.

    Returns
    -------
    tuple of (int, int)
        One place for each core, inside the bed and the part [cm].

    Raises
    ------
    DomainError
        ``too_many_cores`` when there is no ground for so many; ``part_outside_bed``;
        ``no_room_for_core`` in a sliver no core fits in.

    Notes
    -----
    The ground is cut across its longer side into strips of equal area, one core in each, to
    and fro. Where plants stand, each core moves to the nearest plant, no plant taking more
    than its share of cores, and is lifted beside the stem, towards where it was. Only rows, or
    only the patch that looks worst, would mislead; most juveniles lie near the row, in the
    upper 15 to 30 cm.

    References
    ----------
    our_core_plan, sampling_guides, windham_barker_1993_depth

    Examples
    --------
    >>> bed = [(0, 0), (120, 0), (120, 300), (0, 300)]
    >>> core_plan(bed, 4, "K7M2H") == core_plan(bed, 4, "K7M2H")
    True
    """
    ground = _ground(outline, part)
    if n_cores < 1 or n_cores * LEAST_GROUND_CM2 > ground.area:
        most = int(ground.area / LEAST_GROUND_CM2)
        raise DomainError("too_many_cores", n_cores=n_cores, most=most)
    spots = _to_and_fro(ground, n_cores, random.Random(seed))
    rooted = [plant for plant in plants if ground.holds(plant)]
    if rooted:
        spots = sorted(
            _beside(spots, rooted, root_zone_cm, ground), key=lambda spot: spot[ground.along]
        )
    places: dict[Place, None] = {}
    for spot in spots:
        places[_whole_place(spot, ground, places)] = None
    return tuple(places)


@dataclass(frozen=True)
class _Ground:
    """What is sampled: the bed within bounds; ``along`` is the axis of its longer side."""

    outline: Sequence[Point]
    bounds: Bounds
    area: float
    along: int

    def holds(self, spot: Point) -> bool:
        left, top, right, bottom = self.bounds
        within = left <= spot[0] <= right and top <= spot[1] <= bottom
        return within and is_inside(self.outline, spot)

    def holds_probe(self, spot: Point) -> bool:
        """Whether a probe goes in there without breaking out at the edge."""
        x, y = spot
        around = ((-PROBE_CM, 0), (PROBE_CM, 0), (0, -PROBE_CM), (0, PROBE_CM))
        return all(self.holds((x + dx, y + dy)) for dx, dy in around)

    def area_up_to(self, at: float) -> float:
        """Area on the near side of a line across the ground [cm2]."""
        left, top, right, bottom = self.bounds
        near = (left, top, at, bottom) if self.along == 0 else (left, top, right, at)
        return area_within_cm2(self.outline, near)

    def across(self, at: float) -> list[tuple[float, float]]:
        """From where to where the ground reaches, along a line across it [cm]."""
        a, b = self.along, 1 - self.along
        met = []
        for one, other in zip(self.outline, [*self.outline[1:], self.outline[0]], strict=True):
            if (one[a] > at) != (other[a] > at):
                met.append(one[b] + (other[b] - one[b]) * (at - one[a]) / (other[a] - one[a]))
        met.sort()
        low, high = self.bounds[b], self.bounds[b + 2]
        pairs = zip(met[::2], met[1::2], strict=True)
        cut = [(max(low, start), min(high, end)) for start, end in pairs]
        return [(start, end) for start, end in cut if end > start]


def _ground(outline: Sequence[Point], part: Bounds | None) -> _Ground:
    left, top, right, bottom = box(outline)
    if part is not None:
        left, top = max(left, part[0]), max(top, part[1])
        right, bottom = min(right, part[2]), min(bottom, part[3])
    bounds = (left, top, right, bottom)
    if right <= left or bottom <= top or area_within_cm2(outline, bounds) <= 0:
        raise DomainError("part_outside_bed")
    along = 0 if right - left > bottom - top else 1
    return _Ground(outline, bounds, area_within_cm2(outline, bounds), along)


def _to_and_fro(ground: _Ground, n_cores: int, chance: random.Random) -> list[Point]:
    """One spot in each of some strips of equal area, side after side."""
    turn, spots = chance.randrange(len(_TO_AND_FRO)), []
    for number in range(n_cores):
        share = (number + chance.uniform(*_WITHIN_STRIP)) / n_cores
        at = _line_at(ground, share * ground.area)
        over = _share_across(ground.across(at), _TO_AND_FRO[(turn + number) % len(_TO_AND_FRO)])
        spots.append((at, over) if ground.along == 0 else (over, at))
    return spots


def _line_at(ground: _Ground, area: float) -> float:
    """Line across the ground with so much of it on the near side."""
    low, high = ground.bounds[ground.along], ground.bounds[ground.along + 2]
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if ground.area_up_to(middle) < area else (low, middle)
    return (low + high) / 2


def _share_across(reaches: Sequence[tuple[float, float]], share: float) -> float:
    """Spot at a share of the way across, gaps of a bent bed left out."""
    left = share * sum(end - start for start, end in reaches)
    for start, end in reaches:
        if left <= end - start:
            return start + left
        left -= end - start
    return reaches[-1][1]


def _beside(
    spots: Sequence[Point], plants: Sequence[Point], away: float, ground: _Ground
) -> list[Point]:
    """Each spot beside the stem of its nearest plant, no plant more often than needed."""
    most, used, moved = math.ceil(len(spots) / len(plants)), [0] * len(plants), []
    for spot in spots:
        free = [number for number in range(len(plants)) if used[number] < most]
        nearest = min(free, key=lambda number: math.dist(plants[number], spot))
        used[nearest] += 1
        stem = plants[nearest]
        apart = math.dist(stem, spot)
        towards = ((spot[0] - stem[0]) / apart, (spot[1] - stem[1]) / apart) if apart else (1, 0)
        # A plant near the edge has its soil on the other side of the stem.
        sides = [(stem[0] + d * towards[0], stem[1] + d * towards[1]) for d in (away, -away)]
        moved.append(next(filter(ground.holds_probe, sides), sides[0]))
    return moved


def _whole_place(spot: Point, ground: _Ground, taken: Container[Place]) -> Place:
    """Whole centimetres nearest to a spot, inside the ground and not taken."""
    x, y = round(spot[0]), round(spot[1])
    for reach in range(_FARTHEST_CM):
        near = [
            (x + dx, y + dy)
            for dx in range(-reach, reach + 1)
            for dy in range(-reach, reach + 1)
            if max(abs(dx), abs(dy)) == reach
        ]
        free = [one for one in near if one not in taken and ground.holds(one)]
        if free:
            return min(free, key=lambda one: (math.dist(one, spot), one))
    raise DomainError("no_room_for_core")
