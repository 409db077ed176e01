"""The bags of soil in the records, and what one went through before the lab opened it.

Not for what the lab found in it.
"""

from collections.abc import Callable, Mapping

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.briefing.bags import Bag, bags_of, journey_of
from gardens.domain.briefing.gathered import Bed
from gardens.domain.briefing.lines import Because, Line, as_said
from gardens.domain.clock import zone_of
from gardens.domain.errors import DomainError
from gardens.domain.said import Said, percent
from gardens.domain.transit import Handling, Journey, handling, share_left


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
        That of the newest report; else the newest that was sent; where none was noted as sent,
        the newest with soil in it.
    """
    if bed is not None and bed.reports:
        of = str(bed.reports[-1].doc["soil_sample"])
        return next(one for one in _bags(asked, bed) if one.id == of)
    sent = [one for one in _bags(asked, bed) if one.sent_on is not None]
    return sent[-1] if sent else newest_bag(asked, bed)


def _bags(asked: Asked, bed: Bed | None) -> list[Bag]:
    own = () if bed is None else bed.samples
    return bags_of(own, asked.garden.labs, zone_of(asked.garden.time_zone))


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
    if warmest is None and coldest is None:
        warmest, coldest = noted.warmest_celsius, noted.coldest_celsius
    elif warmest is None:
        warmest = noted.warmest_celsius
    if warmest is not None and coldest is not None and coldest > warmest:
        raise DomainError("temperatures_crossed", field="coldest")
    return Journey(
        days=noted.days if days is None else days,
        warmest_celsius=warmest,
        coldest_celsius=noted.coldest_celsius
        if coldest is None and given.maybe("warmest") is None
        else coldest,
        moisture=given.text("moisture") or noted.moisture,
        in_sun=given.text("in_sun") == "yes" or noted.in_sun,
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
