"""What the newest root check of a bed says, in numbers.

Not for comparing two checks, nor for sentences.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from gardens.domain import galling, incidence
from gardens.domain.briefing import remembered
from gardens.domain.briefing.gathered import Check, part
from gardens.domain.briefing.lines import Teller
from gardens.domain.effort import More
from gardens.domain.judgements import judged
from gardens.domain.scales import Scale, read_scale
from gardens.domain.surface import Plant


@dataclass(frozen=True)
class Seen:
    """A root check as it counts: its readings on one scale, and what that leaves out.

    ``plants`` are the rated ones, each once; ``n_read_twice`` and ``n_other_scale`` count
    plants read more than once and readings on another scale [1, >= 0].
    """

    check: Check
    scale: Scale
    readings: tuple[galling.Reading, ...]
    plants: tuple[Plant, ...]
    summary: galling.Summary
    sure: galling.Sureness
    n_read_twice: int
    n_other_scale: int

    @property
    def how(self) -> str:
        """How its plants were chosen."""
        return str(part(self.check.doc, "chosen")["how"])

    @property
    def n_stood(self) -> int | None:
        """Plants that stood in the bed; None when nobody counted."""
        found = self.check.doc["n_plants_stood"]
        assert found is None or isinstance(found, int)
        return found

    @property
    def n_laid_out(self) -> int:
        """Places its planting was drawn with."""
        return n_laid_out(self.check)

    @property
    def galled(self) -> incidence.Incidence:
        """How many plants were galled, and what that says of the bed."""
        grades = [one.grade for one in self.plants]
        stood = None if self.n_stood is None else max(self.n_stood, len(grades))
        return incidence.incidence(grades, self.how, self.sure.why == "whole_bed", stood)


def n_laid_out(check: Check) -> int:
    """How many places the planting of a check was drawn with.

    Parameters
    ----------
    check : Check
        With its planting.

    Returns
    -------
    int
        Plants [1, 0..400].
    """
    plants = check.planting.doc["plants"]
    assert isinstance(plants, list)
    return len(plants)


def newest(checks: Sequence[Check]) -> Check | None:
    """The check that counts for a bed.

    Parameters
    ----------
    checks : sequence of Check
        Of one bed, by day.

    Returns
    -------
    Check or None
        The newest with any rating; the newest of all while none has one.
    """
    rated = [check for check in checks if check.ratings]
    every = rated or checks
    return every[-1] if every else None


def look(check: Check, teller: Teller) -> Seen:
    """Read a check on its own scale.

    Parameters
    ----------
    check : Check
        With its ratings in the order they were made.
    teller : Teller
        Has the table of scales.

    Returns
    -------
    Seen
        Plants rated on another scale than the check's are left out and counted.
    """
    return teller.once(f"seen {check.id}", lambda: _look(check, teller))


def _look(check: Check, teller: Teller) -> Seen:
    key = str(check.doc["gall_scale"])
    read = [(_reading(one.doc), _place(one.doc)) for one in check.ratings]
    own = [pair for pair in read if pair[0].state != "rated" or pair[0].gall_scale == key]
    readings = tuple(one for one, _ in own)
    stood = check.doc["n_plants_stood"]
    assert stood is None or isinstance(stood, int)
    by_plant = _by_plant(own)
    return Seen(
        check=check,
        scale=read_scale(key, teller.table("scales")),
        readings=readings,
        plants=tuple(_plant(pairs) for pairs in by_plant if _is_rated(pairs)),
        summary=galling.summarize(readings),
        sure=galling.sureness(
            readings, str(part(check.doc, "chosen")["how"]), stood, n_laid_out=n_laid_out(check)
        ),
        n_read_twice=sum(len(pairs) > 1 for pairs in by_plant),
        n_other_scale=len(read) - len(own),
    )


_Placed = tuple[galling.Reading, tuple[int, int]]


def _by_plant(read: Sequence[_Placed]) -> list[list[_Placed]]:
    plants: dict[str | None, list[_Placed]] = {}
    for one in read:
        plants.setdefault(one[0].plant, []).append(one)
    return list(plants.values())


def _is_rated(pairs: Sequence[_Placed]) -> bool:
    return any(one.state == "rated" for one, _ in pairs)


def _plant(pairs: Sequence[_Placed]) -> Plant:
    (grade,) = galling.plant_grades([one for one, _ in pairs])
    return Plant(pairs[0][1], grade)


def more_to_dig(seen: Seen, teller: Teller) -> More | None:
    """How many more plants would make the mean sure enough.

    Parameters
    ----------
    seen : Seen
        The check.
    teller : Teller
        Has the judged values.

    Returns
    -------
    More or None
        None where digging more of the same would not help: the worst-looking plants were
        chosen, all were to be dug, or all were.
    """
    if seen.how in ("worst_looking", "all") or seen.sure.why == "whole_bed":
        return None
    grades = tuple(sorted(one.grade for one in seen.plants))
    return remembered.more_plants(grades, seen.n_stood, teller.rules)


def roots_values(seen: Seen, today: date, teller: Teller) -> dict[str, object]:
    """The numbers of a check as they travel.

    Parameters
    ----------
    seen : Seen
        The check.
    today : date
        The day of the briefing.
    teller : Teller
        Has the judged values.

    Returns
    -------
    dict
        Plain values; grades are those of ``gall_scale`` [0..10].
    """
    summary, doc = seen.summary, seen.check.doc
    return {
        "root_check": seen.check.id,
        "planting": seen.check.planting.id,
        "crop": seen.check.planting.doc["crop"],
        "checked_on": doc["checked_on"],
        "days_ago": max(0, (today - date.fromisoformat(seen.check.on)).days),
        "gall_scale": seen.scale.key,
        "scale_name": seen.scale.name,
        "chosen": seen.how,
        "n_rated": summary.n_rated,
        "n_missing": summary.n_missing,
        "n_dead": summary.n_dead,
        "n_stood": seen.n_stood,
        "mean": summary.mean,
        "median": summary.median,
        "lowest": summary.lowest,
        "highest": summary.highest,
        "counts": list(summary.counts),
        "interval": ends_shown(seen),
        "why": seen.sure.why,
        "n_galled": summary.n_galled,
        **_galled_values(seen.galled),
        "more_to_dig": _more_values(more_to_dig(seen, teller), teller),
        "reading_twice": seen.n_read_twice,
    }


def ends_shown(seen: Seen) -> list[float] | None:
    """Ends of the mean's interval, rounded outward to one decimal.

    Parameters
    ----------
    seen : Seen
        The check.

    Returns
    -------
    list of float or None
        Low and high end [the check's scale, 0..10].
    """
    if seen.sure.low is None or seen.sure.high is None:
        return None
    return list(galling.rounded_outward(seen.sure.low, seen.sure.high))


def _galled_values(found: incidence.Incidence) -> dict[str, object]:
    share = at_most = None
    if found.low is not None and found.high is not None:
        share = {"share_low": found.low, "share_high": found.high}
    if found.at_most is not None:
        at_most = {"n": found.at_most, "of": found.n_plants}
    return {"incidence": share, "at_most": at_most}


def _more_values(more: More | None, teller: Teller) -> dict[str, object] | None:
    if more is None or more.code == "too_early":
        return None
    half_width = judged(teller.judgements, "check_target_half_width")
    return {"n_total": more.n_in_total, "n_more": more.n_more, "half_width": half_width}


def _reading(doc: Mapping[str, object]) -> galling.Reading:
    return galling.read_reading(part(doc, "reading"), galling.plant_key(part(doc, "place")))


def _place(doc: Mapping[str, object]) -> tuple[int, int]:
    place = part(doc, "place")
    x, y = place["x_cm"], place["y_cm"]
    assert isinstance(x, int) and isinstance(y, int)
    return x, y
