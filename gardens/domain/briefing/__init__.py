"""One answer for a whole garden: what is known of each bed, how surely, and what to do next.

The server, the phone and the sheets all read this one answer. Not for storing or sending it.
"""

from collections.abc import Mapping, Sequence
from datetime import date

from gardens.domain.briefing.bags import bags_of
from gardens.domain.briefing.changes import change_lines
from gardens.domain.briefing.due import Due, due_lines, due_of_bed
from gardens.domain.briefing.gathered import Bed, Entry, Gathered, Record, gather, part
from gardens.domain.briefing.hints import hinted, species_lines, species_values
from gardens.domain.briefing.lab_days import Holidays, Setting, labs_told
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.briefing.next_check import never_rated
from gardens.domain.briefing.pots import pots_of, pots_told
from gardens.domain.briefing.reports import read_report
from gardens.domain.briefing.roots import Seen, look, newest, roots_values
from gardens.domain.briefing.roots_lines import roots_lines
from gardens.domain.briefing.sample_plan import plan_told, sampling_told
from gardens.domain.briefing.samples import sample_lines
from gardens.domain.briefing.soil import soil_told
from gardens.domain.briefing.timeline import samples_told
from gardens.domain.briefing.where import surface_values, where, where_lines
from gardens.domain.briefing.whole import whole_lines
from gardens.domain.clock import zone_of

__all__ = ["briefing"]

_Known = dict[str, dict[str, object] | None]


def briefing(
    records: Sequence[Record],
    tables: Mapping[str, object],
    today: str,
    holidays: Holidays | None = None,
) -> dict[str, object]:
    """What is known of a garden on one day.

    Parameters
    ----------
    records : sequence of Mapping
        ``id``, ``kind``, ``deleted`` and ``doc`` of each record of one garden, any number, in
        any order.
    tables : Mapping
        Content of every table of ``fixtures`` by the stem of its name.
    today : str
        The day on the garden's clock, ``YYYY-MM-DD``.
    holidays : Mapping or None
        Days ``YYYY-MM-DD`` by the two letters of a country, for the countries that were looked
        up; they are handed back, for the next time nobody can look.

    Returns
    -------
    dict
        Plain values that JSON can hold, the same for every order of the same records. Records
        that cannot be read, or that name something which is not here, are told and left out.

    Notes
    -----
    Grows in step with the number of records.

    Examples
    --------
    >>> briefing([], {"verdicts": {"no_beds": {"about": "next", "words": "Draw a bed.",
    ...     "how_sure": "-"}}, "judgements": {}, "sampling_advice": []}, "2031-08-03"
    ...     )["lines"][0]["words"]
    'Draw a bed.'
    """
    day, teller, garden = date.fromisoformat(today), Teller(tables), gather(records)
    setting = Setting(garden.labs, zone_of(garden.time_zone), day, holidays or {})
    newest_of = [(bed, newest(bed.checks)) for bed in garden.beds]
    looked = [(bed, look(check, teller) if check else None) for bed, check in newest_of]
    checked = [(str(bed.doc["name"]), seen) for bed, seen in looked if seen]
    told = [_bed(bed, seen, setting, teller) for bed, seen in looked]
    return {
        "today": today,
        "garden": {"name": garden.name},
        "beds": [bed for bed, _ in told],
        "sampling": sampling_told(teller),
        "labs": labs_told(setting, teller),
        "due": sorted((one for _, due in told for one in due), key=_by_day),
        "holidays": {key: list(days) for key, days in sorted(setting.holidays.items())},
        "lines": [*_garden_lines(garden, teller), *whole_lines(checked, teller)],
    }


def _by_day(one: Due) -> tuple[str, str]:
    return str(one["on"]), str(one["uid"])


def _bed(
    bed: Bed, seen: Seen | None, setting: Setting, teller: Teller
) -> tuple[dict[str, object], list[Due]]:
    today = setting.today
    standing = _standing(bed, today.isoformat())
    if seen is None:
        known: _Known = {"roots": None, "surface": None, "species": None}
        lines = [never_rated(standing, today, teller)]
    else:
        known, lines = _known(bed, seen, today, teller)
    bags = bags_of(bed.samples, setting.labs, setting.zone)
    by_id = {bag.id: bag for bag in bags}
    reports = tuple(
        read_report(one, by_id[str(one.doc["soil_sample"])], setting.labs, teller)
        for one in bed.reports
    )
    pots = pots_of(bed, teller)
    told = {
        "bed": bed.id,
        "name": bed.doc["name"],
        "planting": standing.id if standing else None,
        "crop": standing.doc["crop"] if standing else None,
        **known,
        "soil": soil_told(bed, bags, reports, pots, today, teller),
        "plan": plan_told(bed, bags, setting, teller),
        "samples": samples_told(bags, reports, setting, teller),
        "pots": [pots_told(one, today, teller) for one in pots],
        "lines": [*lines, *sample_lines(bags, setting, teller)],
    }
    due = due_of_bed(bed, bags, reports, pots, setting, teller)
    return told, [*due_lines(bed, lines), *due]


def _known(bed: Bed, seen: Seen, today: date, teller: Teller) -> tuple[_Known, list[Line]]:
    """What the newest check and those before it tell of a bed."""
    found, clues = where(bed, seen, teller), hinted(bed.checks, teller)
    known: _Known = {
        "roots": roots_values(seen, today, teller),
        "surface": surface_values(found) if found else None,
        "species": species_values(clues) if clues else None,
    }
    lines = [
        *roots_lines(seen, today, teller),
        *change_lines(bed.checks, seen, teller),
        *(where_lines(found, teller) if found else []),
        *(species_lines(clues, teller) if clues else []),
    ]
    return known, lines


def _standing(bed: Bed, today: str) -> Entry | None:
    """The planting that stands in the bed; the one planted last when there are several."""
    found = None
    for planting in bed.plantings:
        grown = part(planting.doc, "grown")
        if str(grown["from_on"]) <= today <= str(grown["to_on"] or today):
            found = planting
    return found


def _garden_lines(garden: Gathered, teller: Teller) -> list[Line]:
    lines = []
    if not garden.beds:
        lines.append(teller.line("no_beds"))
    if garden.n_adrift:
        lines.append(teller.line("entries_adrift", n=garden.n_adrift))
    if garden.n_unreadable:
        lines.append(teller.line("entries_unreadable", n=garden.n_unreadable))
    return lines
