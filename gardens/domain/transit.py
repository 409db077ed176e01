"""What a bag of soil went through between the bed and the lab, as grade A, B or C.

Not for correcting a count: half-lives differ fortyfold with moisture, so no curve is honest.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from gardens.domain.decline import survival_after
from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged
from gardens.domain.said import Said

# Days to lose half in a sealed bag, at -0.16, -0.30, -1.1, -15 and -92 bar (Towson and Apt).
HALF_LIVES_DAYS = {
    "soaked": (2.7, 2.7),
    "wet": (2.7, 4.9),
    "just_moist": (110.0, 110.0),
    "dust_dry": (2.6, 10.0),
}


@dataclass(frozen=True)
class Journey:
    """What is known of a bag; None for what nobody noted.

    ``days`` from lifting to extraction [d, >= 0]; ``warmest_celsius`` and ``coldest_celsius``
    as measured [degrees C]; ``moisture`` as in ``soil_sample.moisture``; ``in_sun`` also for a
    hot car.
    """

    days: float | None = None
    warmest_celsius: float | None = None
    coldest_celsius: float | None = None
    moisture: str | None = None
    in_sun: bool = False


@dataclass(frozen=True)
class Handling:
    """Grade of a bag with its reasons; ``miss`` is the chance that none tells nothing [1, 0..1].

    A high count counts whatever the grade.
    """

    grade: str
    miss: float
    said: Said
    reasons: tuple[Said, ...]


def handling(journey: Journey, table: Table) -> Handling:
    """Grade how a bag was handled: the worst finding wins.

    Parameters
    ----------
    journey : Journey
        What is known of the bag.
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Handling
        ``"A"``, ``"B"`` or ``"C"``; what nobody noted can not be better than B.

    Raises
    ------
    DomainError
        ``negative`` days; ``temperatures_crossed`` when the coldest is above the warmest.

    Notes
    -----
    Our own rule from storage trials. *M. incognita* kept for 16 weeks at 13 to 24 °C and fell
    at 36 °C; one week at -15 °C killed most; in sealed bags half of *M. javanica* was lost in
    3 to 5 days when wet, in 110 when just moist. Eggs hatch on the way, so a count may rise.

    References
    ----------
    our_handling_grade, barker_1969_storage, golden_1972_storage, towson_apt_drying,
    vrain_1978_freezing, lab_handling_pages
    """
    if journey.days is not None and not journey.days >= 0:
        raise DomainError("negative", days=journey.days)
    warm, cold = journey.warmest_celsius, journey.coldest_celsius
    if warm is not None and cold is not None and cold > warm:
        raise DomainError("temperatures_crossed", warmest_celsius=warm, coldest_celsius=cold)
    found = [*_age(journey, table), *_warmth(journey, table), *_cold(journey, table)]
    found += _moisture(journey)
    grade = max((grade for grade, _ in found), default="A")
    reasons = tuple(said for _, said in sorted(found, key=lambda one: one[0], reverse=True))
    miss = judged(table, f"bag_miss_{grade.lower()}")
    return Handling(grade, miss, Said(f"bag_grade_{grade.lower()}"), reasons)


_Found = Iterator[tuple[str, Said]]


def _age(journey: Journey, table: Table) -> _Found:
    days = journey.days
    if days is None:
        yield "B", Said("bag_days_unknown")
    elif days > judged(table, "bag_old_days"):
        yield "C", Said("bag_old", {"days": round(days)})
    elif days > judged(table, "bag_fresh_days"):
        yield "B", Said("bag_not_fresh", {"days": round(days)})


def _warmth(journey: Journey, table: Table) -> _Found:
    warm = journey.warmest_celsius
    if warm is None:
        yield ("C", Said("bag_sun_unmeasured")) if journey.in_sun else ("B", Said("bag_unmeasured"))
        return
    degrees = {"celsius": f"{warm:g}"}
    if warm >= judged(table, "bag_hot_celsius"):
        yield "C", Said("bag_hot", degrees)
    elif warm > judged(table, "bag_warm_celsius"):
        yield "B", Said("bag_warm", degrees)
    elif journey.in_sun:
        yield "B", Said("bag_sun_measured", degrees)


def _cold(journey: Journey, table: Table) -> _Found:
    known = [t for t in (journey.coldest_celsius, journey.warmest_celsius) if t is not None]
    if not known:
        return
    degrees = {"celsius": f"{min(known):g}"}
    if min(known) < judged(table, "bag_frozen_celsius"):
        yield "C", Said("bag_frozen", degrees)
    elif min(known) < judged(table, "bag_chilled_celsius"):
        yield "B", Said("bag_chilled", degrees)


def _moisture(journey: Journey) -> _Found:
    if journey.moisture is None:
        yield "B", Said("bag_moisture_unknown")
    elif journey.moisture == "dust_dry":
        yield "C", Said("bag_dust_dry")
    elif journey.moisture in ("wet", "soaked"):
        yield "B", Said("bag_wet")


def share_left(days: float, moisture: str | None) -> tuple[float, float]:
    """Share of the juveniles that may be left in a sealed bag, lowest and highest published.

    Parameters
    ----------
    days : float
        [d, >= 0]
    moisture : str or None
        As in ``soil_sample.moisture``; None when nobody noted it.

    Returns
    -------
    (float, float)
        [1, 0..1]; to show why to hurry, never to correct a count.

    Raises
    ------
    DomainError
        ``unknown_moisture`` or ``negative``.

    Notes
    -----
    *M. javanica* in one soil, for 72 days. Which of our words fits which tension is ours.

    References
    ----------
    towson_apt_drying

    Examples
    --------
    >>> [round(share, 2) for share in share_left(3, None)]
    [0.45, 0.98]
    """
    if moisture is not None and moisture not in HALF_LIVES_DAYS:
        raise DomainError("unknown_moisture", moisture=moisture)
    known = HALF_LIVES_DAYS if moisture is None else {moisture: HALF_LIVES_DAYS[moisture]}
    halves = [half for both in known.values() for half in both]
    return survival_after(days, min(halves)), survival_after(days, max(halves))
