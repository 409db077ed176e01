"""The bags of soil in the records, and what one went through before the lab opened it.

Not for what the lab found in it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.briefing.gathered import Bed, Doc, Entry
from gardens.domain.briefing.lines import Because, Line, as_said
from gardens.domain.clock import day_there, zone_of
from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged
from gardens.domain.said import Said, percent
from gardens.domain.transit import Handling, Journey, handling, share_left


@dataclass(frozen=True)
class Bag:
    """A bag of soil as it was noted; None for what nobody noted.

    ``n_cores`` [cores, >= 1], ``soil_celsius`` is that of the ground when it was lifted
    [degrees C]; ``is_part`` when only a part of the bed is in it.
    """

    code: str
    lifted_on: date | None
    sent_on: date | None
    arrived_on: date | None
    moisture: str | None
    soil_celsius: float | None
    n_cores: int | None
    is_part: bool
    lab: Doc | None
    next_crop: str


def newest_bag(asked: Asked, bed: Bed | None, *, lifted: bool = True) -> Bag | None:
    """The newest bag of a bed.

    Parameters
    ----------
    asked : Asked
        Has the records.
    bed : Bed or None
        None for no bed.
    lifted : bool
        Whether only bags count that have soil in them.

    Returns
    -------
    Bag or None
        None when there is none.
    """
    bags = _bags(asked, bed)
    known = [one for one in bags if one.lifted_on is not None or not lifted]
    return known[-1] if known else None


def reported_bag(asked: Asked, bed: Bed | None) -> Bag | None:
    """The bag a lab's report must be about.

    Parameters
    ----------
    asked : Asked
        Has the records.
    bed : Bed or None
        None for no bed.

    Returns
    -------
    Bag or None
        The newest that was sent; where none was noted as sent, the newest with soil in it.
    """
    sent = [one for one in _bags(asked, bed) if one.sent_on is not None]
    return sent[-1] if sent else newest_bag(asked, bed)


def _bags(asked: Asked, bed: Bed | None) -> list[Bag]:
    """The bags of a bed, by the moment of lifting; those still to be lifted last."""
    own = () if bed is None else bed.samples
    in_order = sorted(own, key=lambda one: (str(one.doc["lifted_at"] or "9"), one.id))
    return [_bag(one, asked) for one in in_order]


def _bag(sample: Entry, asked: Asked) -> Bag:
    doc, parcel = sample.doc, sample.doc["parcel"]
    moved = parcel if isinstance(parcel, Mapping) else {}
    lifted, celsius, cores = (
        doc[name] for name in ("lifted_at", "soil_temperature_celsius", "n_cores")
    )
    assert celsius is None or isinstance(celsius, int | float)
    assert cores is None or isinstance(cores, int)
    zone = zone_of(asked.garden.time_zone)
    code = str(doc["code"])
    return Bag(
        code=f"{code[:4]}-{code[4:]}",
        lifted_on=day_there(zone, str(lifted)) if lifted else None,
        sent_on=_day(moved.get("sent_on")),
        arrived_on=_day(moved.get("arrived_on")),
        moisture=None if doc["moisture"] is None else str(doc["moisture"]),
        soil_celsius=celsius,
        n_cores=cores,
        is_part=doc["part"] is not None,
        lab=asked.garden.labs.get(str(doc["lab_profile"])),
        next_crop=str(doc["next_crop"]),
    )


def _day(value: object) -> date | None:
    return None if value is None else date.fromisoformat(str(value))


def journey_of(bag: Bag | None, table: Table, today: date) -> Journey:
    """What the records tell of a bag's way.

    Parameters
    ----------
    bag : Bag or None
        None when nothing was noted.
    table : Mapping
        Content of ``fixtures/judgements.json``.
    today : date
        The day, for a bag that waits.

    Returns
    -------
    Journey
        A bag was at least as warm as the ground it came from, so warm ground counts; cool
        ground says nothing of the way.
    """
    if bag is None:
        return Journey()
    ground, most = bag.soil_celsius, judged(table, "bag_warm_celsius")
    warmest = ground if ground is not None and ground > most else None
    return Journey(days=_days(bag, today), warmest_celsius=warmest, moisture=bag.moisture)


def _days(bag: Bag, today: date) -> int | None:
    """Days from the bed to the lab's door, or until today while it waits to be sent."""
    until = bag.arrived_on or (today if bag.sent_on is None else None)
    if bag.lifted_on is None or until is None:
        return None
    return max(0, (until - bag.lifted_on).days)


def handling_line(found: Handling, bag: Bag | None, asked: Asked) -> Line:
    """How a bag fared, with the reasons.

    Parameters
    ----------
    found : Handling
        Its grade.
    bag : Bag or None
        The bag, when it is in the records.
    asked : Asked
        Makes the line.

    Returns
    -------
    Line
        Grade A, B or C.
    """
    noted = [] if bag is None else [Because(_noted(bag))]
    said = Said("journey_graded", {"grade": found.grade})
    return asked.teller.say(said, found.said, *found.reasons, because=noted)


def _noted(bag: Bag) -> str:
    lifted = "on a day nobody noted" if bag.lifted_on is None else as_said(bag.lifted_on)
    arrived = "not noted" if bag.arrived_on is None else as_said(bag.arrived_on)
    return f"From your records: bag {bag.code}, lifted {lifted}, arrival {arrived}."


def bag_journey(asked: Asked) -> Answer:
    """Whether a bag suffered on its way.

    Parameters
    ----------
    asked : Asked
        With ``days`` [d], ``warmest`` and ``coldest`` [degrees C], ``moisture`` and ``in_sun``;
        what is left open is taken from the newest bag of ``bed``.

    Returns
    -------
    Answer
        The grade, what a trial would leave alive, and what trials disagree about.
    """
    bag = newest_bag(asked, asked.bed())
    journey = _journey(asked, journey_of(bag, asked.teller.judgements, asked.today))
    lines = [
        handling_line(handling(journey, asked.teller.judgements), bag, asked),
        *_left_lines(journey, asked),
        asked.teller.line("journey_uncertain"),
        asked.teller.line("journey_next"),
    ]
    return Answer(tuple(lines), trial_rows(asked))


def _journey(asked: Asked, noted: Journey) -> Journey:
    """What was typed, and where nothing was, what is noted."""
    given = asked.given
    days, warmest, coldest = (given.maybe(name) for name in ("days", "warmest", "coldest"))
    warmest = noted.warmest_celsius if warmest is None else warmest
    if warmest is not None and coldest is not None and coldest > warmest:
        raise DomainError("temperatures_crossed", field="coldest")
    return Journey(
        days=noted.days if days is None else days,
        warmest_celsius=warmest,
        coldest_celsius=coldest,
        moisture=given.text("moisture") or noted.moisture,
        in_sun=given.text("in_sun") == "yes",
    )


def _left_lines(journey: Journey, asked: Asked) -> list[Line]:
    if journey.days is None:
        return []
    low, high = (percent(share) for share in share_left(journey.days, journey.moisture))
    code = "journey_left_alive" if low < high else "journey_left_alive_about"
    return [asked.teller.line(code, days=round(journey.days), low=low, high=high)]


def trial_rows(asked: Asked) -> tuple[Row, ...]:
    """What was kept how long in storage trials, and what came of it.

    Parameters
    ----------
    asked : Asked
        Has the table.

    Returns
    -------
    tuple of Row
        One for each trial; they disagree.
    """
    return tuple(
        row(
            str(one["name"]),
            {"Kept": str(one["kept"]), "What came of it": str(one["saw"])},
            (str(one["source"]),),
        )
        for one in asked.teller.rows("bag_trials")
    )


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"bag_journey": bag_journey}
