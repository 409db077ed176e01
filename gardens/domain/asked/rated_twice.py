"""Plants of a bed that two or more people rated, each in a check of their own.

Not for two readings in one check: nobody noted whose they are.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from gardens.domain.briefing.gathered import Check, part
from gardens.domain.briefing.lines import Teller
from gardens.domain.galling import Reading, plant_grades, plant_key, read_reading
from gardens.domain.judgements import judged

_Plant = tuple[str, ...]


@dataclass(frozen=True)
class RatedTwice:
    """Who rated, and one row of grades for each, plant by plant in one order.

    ``grades`` has as many rows as ``names``, each as long as there are plants; None where
    somebody did not rate one [one scale, 0..10].
    """

    names: tuple[str, ...] = ()
    grades: tuple[tuple[float | None, ...], ...] = ()


def rated_twice(checks: Sequence[Check], teller: Teller) -> RatedTwice:
    """The plants of a bed that more than one person rated, on the scale with most of them.

    Parameters
    ----------
    checks : sequence of Check
        Of one bed, by day.
    teller : Teller
        Has the judged values.

    Returns
    -------
    RatedTwice
        Empty when there is none. Only checks of one planting a few days apart are set beside
        each other: galls grow.
    """
    by_scale: dict[str, dict[_Plant, dict[str, float]]] = {}
    names: dict[str, str] = {}
    for batch in _batches(checks, judged(teller.judgements, "raters_most_days_apart")):
        for check in batch:
            rater = str(check.doc["rater"]).strip()
            names.setdefault(rater.casefold(), rater)
            scale = by_scale.setdefault(str(check.doc["gall_scale"]), {})
            for plant, grade in _grades(check).items():
                told = scale.setdefault((check.planting.id, batch[0].id, plant), {})
                told[rater.casefold()] = grade
    shared = [
        [plants[key] for key in sorted(plants) if len(plants[key]) > 1]
        for _, plants in sorted(by_scale.items())
    ]
    most = max(shared, key=len, default=[])
    raters = [one for one in names if any(one in told for told in most)]
    rows = tuple(tuple(told.get(one) for told in most) for one in raters)
    return RatedTwice(tuple(names[one] for one in raters), rows)


def _batches(checks: Sequence[Check], most_days: float) -> list[list[Check]]:
    """Checks with a named rater, together when of one planting and few days apart."""
    found: list[list[Check]] = []
    named = [one for one in checks if str(one.doc["rater"]).strip()]
    for check in sorted(named, key=lambda one: (one.planting.id, one.on, one.id)):
        first = found[-1][0] if found else None
        if first and first.planting.id == check.planting.id and _days(first, check) <= most_days:
            found[-1].append(check)
        else:
            found.append([check])
    return found


def _days(one: Check, other: Check) -> int:
    return (date.fromisoformat(other.on) - date.fromisoformat(one.on)).days


def _grades(check: Check) -> dict[str, float]:
    """One grade for each plant rated on the check's own scale."""
    readings: dict[str, list[Reading]] = {}
    for one in check.ratings:
        key = plant_key(part(one.doc, "place"))
        reading = read_reading(part(one.doc, "reading"), key)
        if reading.state == "rated" and reading.gall_scale == check.doc["gall_scale"]:
            readings.setdefault(key, []).append(reading)
    return {key: plant_grades(some)[0] for key, some in readings.items()}
