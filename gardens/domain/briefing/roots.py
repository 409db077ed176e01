"""What the newest root check of a bed says: its numbers, and the lines about them.

Not for comparing two checks.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from gardens.domain import galling
from gardens.domain.briefing.gathered import Check
from gardens.domain.briefing.lines import Because, Line, Teller
from gardens.domain.scales import Scale, read_scale


@dataclass(frozen=True)
class Seen:
    """A root check as it counts: its readings on one scale, and what that leaves out."""

    check: Check
    scale: Scale
    readings: tuple[galling.Reading, ...]
    summary: galling.Summary
    sure: galling.Sureness
    n_other_scale: int

    @property
    def how(self) -> str:
        """How its plants were chosen."""
        return str(_part(self.check.doc, "chosen")["how"])

    @property
    def n_stood(self) -> int | None:
        """Plants that stood in the bed; None when nobody counted."""
        found = self.check.doc["n_plants_stood"]
        assert found is None or isinstance(found, int)
        return found


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


def look(check: Check, tables: Mapping[str, object]) -> Seen:
    """Read a check on its own scale.

    Parameters
    ----------
    check : Check
        With its ratings in the order they were made.
    tables : Mapping
        Content of every table of ``fixtures`` by the stem of its name.

    Returns
    -------
    Seen
        Plants rated on another scale than the check's are left out and counted.
    """
    key = str(check.doc["gall_scale"])
    every = [_reading(one.doc) for one in check.ratings]
    readings = tuple(one for one in every if one.state != "rated" or one.gall_scale == key)
    stood = check.doc["n_plants_stood"]
    assert stood is None or isinstance(stood, int)
    scales = tables["scales"]
    assert isinstance(scales, Mapping)
    return Seen(
        check=check,
        scale=read_scale(key, scales),
        readings=readings,
        summary=galling.summarize(readings),
        sure=galling.sureness(readings, str(_part(check.doc, "chosen")["how"]), stood),
        n_other_scale=len(every) - len(readings),
    )


def roots_values(seen: Seen, today: date) -> dict[str, object]:
    """The numbers of a check as they travel.

    Parameters
    ----------
    seen : Seen
        The check.
    today : date
        The day of the briefing.

    Returns
    -------
    dict
        Plain values; grades are those of ``gall_scale`` [0..10].
    """
    summary, sure = seen.summary, seen.sure
    ends = None
    if sure.low is not None and sure.high is not None:
        ends = list(galling.rounded_outward(sure.low, sure.high))
    return {
        "root_check": seen.check.id,
        "planting": seen.check.planting.id,
        "crop": seen.check.planting.doc["crop"],
        "checked_on": seen.check.on,
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
        "interval": ends,
        "why": sure.why,
        "n_galled": summary.n_galled,
        "incidence": None,
        "at_most": None,
        "more_to_dig": None,
        "reading_twice": _n_read_twice(seen),
    }


def roots_lines(seen: Seen, today: date, teller: Teller) -> list[Line]:
    """The lines about a check.

    Parameters
    ----------
    seen : Seen
        The check.
    today : date
        The day of the briefing.
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        The mean first.
    """
    lines = [_mean_line(seen, teller)]
    if seen.n_other_scale:
        lines.append(teller.line("other_scale_left_out", n=seen.n_other_scale))
    twice = _n_read_twice(seen)
    if twice:
        lines.append(teller.line("read_twice", n=twice))
    if seen.check.on > today.isoformat():
        lines.append(teller.line("dated_ahead", on=date.fromisoformat(seen.check.on)))
    return lines


def _mean_line(seen: Seen, teller: Teller) -> Line:
    ends = (0.0, 0.0)
    if seen.sure.low is not None and seen.sure.high is not None:
        ends = galling.rounded_outward(seen.sure.low, seen.sure.high)
    return teller.line(
        f"roots_{seen.sure.why}",
        because=[_of_scale(seen.scale)] if seen.summary.n_rated else [],
        mean=seen.summary.mean,
        n=seen.summary.n_rated,
        stood=seen.n_stood,
        on=date.fromisoformat(seen.check.on),
        low=ends[0],
        high=ends[1],
    )


def _of_scale(scale: Scale) -> Because:
    unsure = " Its criteria are from memory; the original was not seen." * scale.from_memory
    return Because(f"Scale: {scale.name} ({scale.term}).{unsure}", (scale.source,))


def _reading(doc: Mapping[str, object]) -> galling.Reading:
    return galling.read_reading(_part(doc, "reading"), galling.plant_key(_part(doc, "place")))


def _n_read_twice(seen: Seen) -> int:
    n: dict[str | None, int] = {}
    for one in seen.readings:
        n[one.plant] = n.get(one.plant, 0) + 1
    return sum(times > 1 for times in n.values())


def _part(doc: Mapping[str, object], name: str) -> Mapping[str, object]:
    found = doc[name]
    assert isinstance(found, Mapping)
    return found
