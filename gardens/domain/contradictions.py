"""Two checks of one bed that do not agree: which to believe, why, and what would settle it.

Not for numbers that merely differ: a count has an interval, and intervals that touch agree.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from gardens.domain.errors import DomainError
from gardens.domain.said import Said

SEEN = ("some", "none")


@dataclass(frozen=True)
class Signs:
    """What each check of one bed showed: ``"some"``, ``"none"``, or None for no check.

    ``roots`` are galls, ``lab`` juveniles recovered, ``pots`` galls of seedlings.
    ``good_host`` None when it is not known whether the crop shows galls; ``grade`` that of the
    bag; ``little_soil`` for less than a lab should extract; ``off_season`` for soil lifted in
    late winter or spring; ``look_alike`` when somebody noted one; ``other_part`` when roots
    and soil are from different parts of the bed.
    """

    roots: str | None = None
    lab: str | None = None
    pots: str | None = None
    good_host: bool | None = None
    grade: str | None = None
    little_soil: bool = False
    off_season: bool = False
    look_alike: bool = False
    other_part: bool = False


@dataclass(frozen=True)
class Contradiction:
    """Two findings at odds; ``believe`` is ``"roots"``, ``"lab"``, ``"pots"`` or ``"neither"``.

    What would settle it stands with the words of the code.
    """

    code: str
    believe: str
    said: Said
    reasons: tuple[Said, ...]


def contradictions(signs: Signs) -> tuple[Contradiction, ...]:
    """Every pair of checks that do not agree.

    Parameters
    ----------
    signs : Signs
        What each check of one bed showed.

    Returns
    -------
    tuple of Contradiction
        None, one or more.

    Raises
    ------
    DomainError
        ``unknown_sign``.

    Notes
    -----
    A gall is seen, a count is what was left after sampling, the journey and extraction; so
    galls are believed over none recovered, unless they may be something else. Juveniles of
    root-knot that were counted were there, whatever a poor host's roots look like.

    References
    ----------
    our_contradictions, season_of_samples, extraction_live_or_dead, ring_test_2013

    Examples
    --------
    >>> [one.code for one in contradictions(Signs(roots="some", lab="none"))]
    ['contra_roots_galled_lab_none']
    """
    for sign in (signs.roots, signs.lab, signs.pots):
        if sign is not None and sign not in SEEN:
            raise DomainError("unknown_sign", sign=sign)
    return tuple(
        Contradiction(code, believe, Said(code), tuple(Said(f"contra_why_{why}") for why in told))
        for code, believe, told in (*_roots_and_lab(signs), *_with_pots(signs))
    )


_Told = Iterator[tuple[str, str, tuple[str, ...]]]


def _roots_and_lab(signs: Signs) -> _Told:
    if (signs.roots, signs.lab) == ("some", "none"):
        if signs.look_alike:
            yield "contra_look_alike_lab_none", "neither", ("look_alike", *_why_lab_missed(signs))
        else:
            yield "contra_roots_galled_lab_none", "roots", ("seen", *_why_lab_missed(signs))
    if (signs.roots, signs.lab) == ("none", "some"):
        yield "contra_roots_none_lab_some", "lab", ("counted", *_why_roots_missed(signs))


def _with_pots(signs: Signs) -> _Told:
    if (signs.pots, signs.lab) == ("some", "none"):
        yield "contra_pots_galled_lab_none", "pots", ("seen", "more_soil", *_why_lab_missed(signs))
    if (signs.pots, signs.lab) == ("none", "some"):
        yield "contra_pots_none_lab_some", "lab", ("counted", "dead_counted", "cool_pots")
    if (signs.roots, signs.pots) == ("some", "none"):
        believe = "neither" if signs.look_alike else "roots"
        told = ("look_alike",) if signs.look_alike else ("seen",)
        yield "contra_roots_galled_pots_none", believe, (*told, "cool_pots", "patchy")
    if (signs.roots, signs.pots) == ("none", "some"):
        yield "contra_roots_none_pots_galled", "pots", ("seen", *_why_roots_missed(signs))


def _why_lab_missed(signs: Signs) -> tuple[str, ...]:
    may = {
        "bag": signs.grade in ("B", "C"),
        "little_soil": signs.little_soil,
        "off_season": signs.off_season,
        "other_part": signs.other_part,
        "patchy": True,
        "extraction": True,
    }
    return tuple(why for why, applies in may.items() if applies)


def _why_roots_missed(signs: Signs) -> tuple[str, ...]:
    may = {
        "poor_host": signs.good_host is False,
        "host_unknown": signs.good_host is None,
        "other_part": signs.other_part,
        "small_galls": True,
        "patchy": True,
    }
    return tuple(why for why, applies in may.items() if applies)


def counts_apart(one: tuple[float, float], other: tuple[float, float]) -> Said | None:
    """Two counts of one bed and one time whose intervals do not touch.

    Parameters
    ----------
    one, other : (float, float)
        95 % intervals of two densities [J2 per 100 cm3, >= 0].

    Returns
    -------
    Said or None
        None when they touch: then they agree.

    References
    ----------
    ring_test_2013

    Examples
    --------
    >>> counts_apart((2, 9), (30, 80)).code
    'contra_counts_apart'
    """
    if one[1] >= other[0] and other[1] >= one[0]:
        return None
    return Said("contra_counts_apart")


def times_apart(one: float, other: float) -> float:
    """How many times one count is the other.

    Parameters
    ----------
    one, other : float
        Two counts in one unit [> 0].

    Returns
    -------
    float
        [1, >= 1]

    Raises
    ------
    DomainError
        ``not_above_zero``.

    Notes
    -----
    Eleven methods on one soil differed 110 times in the ring test, mainly by how long the
    soil was left to hatch.

    References
    ----------
    ring_test_2013

    Examples
    --------
    >>> round(times_apart(34, 3733), 1)
    109.8
    """
    if not (one > 0 and other > 0):
        raise DomainError("not_above_zero", one=one, other=other)
    return max(one, other) / min(one, other)
