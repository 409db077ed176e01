"""Plane geometry of a bed: area, box, inside or outside, crossing, fitting on a page.

Lengths are centimetres, x to the right, y downwards. Not for garden maps of the screen,
which draw what the phone stores.
"""

from collections.abc import Mapping, Sequence

Point = tuple[float, float]


def corners(shape: Mapping[str, object]) -> list[Point]:
    """Corners of a bed, in drawing order.

    Parameters
    ----------
    shape : Mapping
        A checked ``bed.shape``: a rectangle or an outline.

    Returns
    -------
    list of (float, float)
        3 to 40 corners [cm, 0..5000].

    Examples
    --------
    >>> corners({"type": "rectangle", "width_cm": 120, "length_cm": 300})
    [(0.0, 0.0), (120.0, 0.0), (120.0, 300.0), (0.0, 300.0)]
    """
    if shape["type"] == "rectangle":
        width, length = float(str(shape["width_cm"])), float(str(shape["length_cm"]))
        return [(0.0, 0.0), (width, 0.0), (width, length), (0.0, length)]
    drawn = shape["points_cm"]
    assert isinstance(drawn, Sequence)
    return [(float(x), float(y)) for x, y in drawn]


def area_cm2(outline: Sequence[Point]) -> float:
    """Area inside an outline, by the shoelace formula.

    Parameters
    ----------
    outline : sequence of (float, float)
        3 or more corners [cm].

    Returns
    -------
    float
        Area [cm2, >= 0]; 0 for a line.

    Examples
    --------
    >>> area_cm2([(0, 0), (4, 0), (0, 3)])
    6.0
    """
    turned = zip(outline, [*outline[1:], outline[0]], strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in turned)) / 2


def area_within_cm2(outline: Sequence[Point], bounds: tuple[float, float, float, float]) -> float:
    """Area of the part of an outline that lies in an upright box.

    Parameters
    ----------
    outline : sequence of (float, float)
        3 or more corners [cm].
    bounds : (float, float, float, float)
        Left, top, right and bottom of the box [cm].

    Returns
    -------
    float
        Area [cm2, >= 0].

    Notes
    -----
    Cuts the outline at one side of the box after the other, as Sutherland and Hodgman
    describe; where a bent outline falls into pieces, these stay joined along the side, which
    adds no area.

    Examples
    --------
    >>> area_within_cm2([(0, 0), (4, 0), (0, 4)], (0, 0, 2, 9))
    6.0
    """
    left, top, right, bottom = bounds
    kept = list(outline)
    for axis, bound, sign in ((0, left, 1), (0, right, -1), (1, top, 1), (1, bottom, -1)):
        kept = _cut_at(kept, axis, bound, sign)
    return area_cm2(kept) if kept else 0.0


def _cut_at(outline: Sequence[Point], axis: int, bound: float, sign: int) -> list[Point]:
    """Outline without what lies below (sign 1) or above (sign -1) a bound on one axis."""
    kept: list[Point] = []
    for a, b in zip(outline, [*outline[1:], *outline[:1]], strict=True):
        over_a, over_b = sign * (a[axis] - bound), sign * (b[axis] - bound)
        if over_a >= 0:
            kept.append(a)
        if over_a * over_b < 0:
            share = over_a / (over_a - over_b)
            kept.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])))
    return kept


def box(points: Sequence[Point]) -> tuple[float, float, float, float]:
    """Smallest upright box around points: left, top, right, bottom [cm].

    Parameters
    ----------
    points : sequence of (float, float)
        One or more points [cm].

    Returns
    -------
    (float, float, float, float)
        Left, top, right and bottom [cm].
    """
    across, down = [x for x, _ in points], [y for _, y in points]
    return min(across), min(down), max(across), max(down)


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _on_segment(a: Point, b: Point, c: Point) -> bool:
    """Whether c, known to be in line with a and b, lies between them."""
    left, top, right, bottom = box([a, b])
    return left <= c[0] <= right and top <= c[1] <= bottom


def segments_meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether segment a–b and segment c–d share a point.

    Parameters
    ----------
    a, b : (float, float)
        Ends of the first segment [cm].
    c, d : (float, float)
        Ends of the second [cm].

    Returns
    -------
    bool
        True also when they only touch.

    Examples
    --------
    >>> segments_meet((0, 0), (2, 2), (0, 2), (2, 0))
    True
    >>> segments_meet((0, 0), (1, 0), (0, 1), (1, 1))
    False
    """
    turns = (_turn(c, d, a), _turn(c, d, b), _turn(a, b, c), _turn(a, b, d))
    if turns[0] * turns[1] < 0 and turns[2] * turns[3] < 0:
        return True
    ends = ((c, d, a), (c, d, b), (a, b, c), (a, b, d))
    touching = zip(turns, ends, strict=True)
    return any(turn == 0 and _on_segment(*end) for turn, end in touching)


def crosses_itself(outline: Sequence[Point]) -> bool:
    """Whether any two sides of an outline meet other than at a shared corner.

    Parameters
    ----------
    outline : sequence of (float, float)
        3 or more corners [cm].

    Returns
    -------
    bool
        True also for a corner drawn twice or a side folded back on its neighbour.

    Examples
    --------
    >>> crosses_itself([(0, 0), (2, 2), (2, 0), (0, 2)])
    True
    >>> crosses_itself([(0, 0), (2, 0), (2, 2), (0, 2)])
    False
    """
    n = len(outline)
    if len(set(outline)) < n:
        return True
    sides = [(outline[i], outline[(i + 1) % n]) for i in range(n)]
    for i in range(n):
        for j in range(i + 1, n):
            if j == i + 1 or (i == 0 and j == n - 1):
                if _folds_back(sides[i], sides[j]):
                    return True
            elif segments_meet(*sides[i], *sides[j]):
                return True
    return False


def _folds_back(one: tuple[Point, Point], next_: tuple[Point, Point]) -> bool:
    """Whether two neighbouring sides lie on each other."""
    shared = one[1] if one[1] in next_ else one[0]
    first = one[0] if shared == one[1] else one[1]
    second = next_[0] if shared == next_[1] else next_[1]
    if _turn(first, shared, second) != 0:
        return False
    return _on_segment(shared, first, second) or _on_segment(shared, second, first)


def is_inside(outline: Sequence[Point], point: Point) -> bool:
    """Whether a point lies in an outline; its border belongs to it.

    Parameters
    ----------
    outline : sequence of (float, float)
        3 or more corners [cm].
    point : (float, float)
        [cm]

    Returns
    -------
    bool
        True inside and on the border.

    Examples
    --------
    >>> is_inside([(0, 0), (4, 0), (0, 4)], (1, 1)), is_inside([(0, 0), (4, 0), (0, 4)], (3, 3))
    (True, False)
    """
    x, y = point
    inside = False
    for a, b in zip(outline, [*outline[1:], outline[0]], strict=True):
        if _turn(a, b, point) == 0 and _on_segment(a, b, point):
            return True
        if (a[1] > y) != (b[1] > y) and x < a[0] + (y - a[1]) * (b[0] - a[0]) / (b[1] - a[1]):
            inside = not inside
    return inside


def scale_to_fit(size: Point, room: Point) -> float:
    """Largest scale at which a thing fits a room, both given as width and height.

    Parameters
    ----------
    size : (float, float)
        Of the thing [cm, > 0].
    room : (float, float)
        On the page [any unit, > 0].

    Returns
    -------
    float
        Units of the room per centimetre [> 0].

    Examples
    --------
    >>> scale_to_fit((120, 300), (60, 60))
    0.2
    """
    return min(room[0] / size[0], room[1] / size[1])
