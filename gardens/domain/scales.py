"""The three 0-to-10 scales for galled roots, read from the table that is handed in.

Not for turning a grade of one scale into a grade of another: they judge different things,
and no such table is published.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.errors import DomainError


@dataclass(frozen=True)
class Grade:
    """One grade of a scale, with few and with more words."""

    grade: int
    short: str
    words: str


@dataclass(frozen=True)
class Scale:
    """One scale: what it is called, what it judges and whether it is linear in percent."""

    key: str
    name: str
    term: str
    linear: bool
    from_memory: bool
    source: str
    note: str
    grades: tuple[Grade, ...]


def read_scale(key: str, table: Mapping[str, Mapping[str, object]]) -> Scale:
    """One scale of the table.

    Parameters
    ----------
    key : str
        ``"pct10"``, ``"bp10"`` or ``"zeck10"``.
    table : Mapping
        Content of ``fixtures/scales.json``.

    Returns
    -------
    Scale
        With 11 grades, 0 to 10.

    Raises
    ------
    DomainError
        ``unknown_scale``.
    """
    if key not in table:
        raise DomainError("unknown_scale", gall_scale=key)
    row = table[key]
    grades = row["grades"]
    assert isinstance(grades, Sequence)
    return Scale(
        key=key,
        name=str(row["name"]),
        term=str(row["term"]),
        linear=bool(row["linear"]),
        from_memory=bool(row["from_memory"]),
        source=str(row["source"]),
        note=str(row["note"]),
        grades=tuple(Grade(each["grade"], each["short"], each["words"]) for each in grades),
    )


def grade_for_percent_galled(percent: float) -> int:
    """Grade on the linear scale (pct10) for a share of galled roots.

    Parameters
    ----------
    percent : float
        Share of the root system that is galled [%, 0..100]; above 0 as soon as there is one
        confirmed gall.

    Returns
    -------
    int
        Grade [pct10, 0..10]; 0 only for exactly 0 %.

    Raises
    ------
    DomainError
        ``no_grade_for`` when the share is not from 0 to 100 %.

    Notes
    -----
    The anchors, 10 % per grade, are published; the bounds are the nearest anchor and are
    ours, as is the rule that one gall is never grade 0.

    References
    ----------
    barker_1985_indices, our_nearest_anchor_rule

    Examples
    --------
    >>> [grade_for_percent_galled(p) for p in (0, 0.1, 14.9, 15, 50, 94.9, 95, 100)]
    [0, 1, 1, 2, 5, 9, 10, 10]
    """
    if not 0 <= percent <= 100:
        raise DomainError("no_grade_for", percent=percent)
    if percent == 0:
        return 0
    return max(1, min(10, int((percent + 5) // 10)))


def convert(grade: int, from_scale: str, to_scale: str) -> int:
    """The same grade on the same scale; a refusal for any other pair.

    Parameters
    ----------
    grade : int
        Grade [of ``from_scale``, 0..10].
    from_scale, to_scale : str
        Keys of two scales.

    Returns
    -------
    int
        The grade [of ``to_scale``, 0..10].

    Raises
    ------
    DomainError
        ``no_conversion`` when the scales differ.

    Notes
    -----
    Grade 5 is half of the roots galled on pct10 and a quarter of them out of work on zeck10;
    bp10 turns on the size of galls and on the main roots.

    References
    ----------
    barker_1985_indices, bridge_page_1980, zeck_1971
    """
    if from_scale != to_scale:
        raise DomainError("no_conversion", from_scale=from_scale, to_scale=to_scale)
    return grade


@dataclass(frozen=True)
class Percents:
    """A published table of grades, each with the share of galled roots it stands for.

    ``anchors`` are that share for each grade from ``first`` up [%, 0..100].
    """

    key: str
    name: str
    first: int
    anchors: tuple[float, ...]
    source: str

    @property
    def last(self) -> int:
        """The highest grade."""
        return self.first + len(self.anchors) - 1


def read_percents(table: Sequence[Mapping[str, object]]) -> dict[str, Percents]:
    """The scales whose percentages are published, besides those that can be rated on here.

    Parameters
    ----------
    table : sequence of Mapping
        Content of ``fixtures/percent_scales.json``.

    Returns
    -------
    dict of str to Percents
        By key, in the order of the table.
    """
    found = {}
    for row in table:
        first, anchors = row["first"], row["anchors_pct"]
        assert isinstance(first, int) and isinstance(anchors, Sequence)
        key = str(row["key"])
        found[key] = Percents(key, str(row["name"]), first, tuple(anchors), str(row["source"]))
    return found


def beside_percent(percent: float) -> tuple[int, ...]:
    """Grades on the linear scale (pct10) whose published anchors stand beside a share.

    Parameters
    ----------
    percent : float
        Share of the root system that is galled, as published for another grade [%, 0..100].

    Returns
    -------
    tuple of int
        One grade where the anchors are the same; the two around it where pct10 has no anchor
        there, and then the percentage is to be kept [pct10, 0..10].

    References
    ----------
    barker_1985_indices

    Examples
    --------
    >>> [beside_percent(share) for share in (0, 10, 20, 50, 80, 100)]
    [(0,), (1,), (2,), (5,), (8,), (10,)]
    >>> beside_percent(25)
    (2, 3)
    """
    lower = int(percent // 10)
    return (lower,) if percent == 10 * lower else (lower, lower + 1)
