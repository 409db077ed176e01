"""By when a trap crop must come out, asked of a day it was sown and of the soil's warmth.

Not for whether to grow one.
"""

from collections.abc import Iterator
from datetime import date

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.soil_heat import SoilHeat, hotter_than_the_line, read_heat
from gardens.domain.biology_lines import latin_names, lift_line
from gardens.domain.briefing.gathered import Entry, part
from gardens.domain.briefing.lines import Line, as_said
from gardens.domain.errors import DomainError
from gardens.domain.heat import HeatSum, Reached, read_heat_sums
from gardens.domain.judgements import judged
from gardens.domain.said import Said
from gardens.domain.trap_crops import LiftBy, lift_trap_crop_by

# Root entry of M. incognita begins here [degrees C], roberts_1981_wheat and uc_thresholds.
ENTRY_CELSIUS = 18
TRIED = {
    "lettuce": "trap_tried",
    "radish": "trap_tried",
    "pak_choi": "trap_tried",
    "rocket": "trap_rocket",
}
TRAP_CROPS = {
    "lettuce": "Lettuce",
    "radish": "Radish",
    "pak_choi": "Pak choi",
    "rocket": "Rocket",
    "other": "This plant",
}


def trap_crop_out_by(asked: Asked) -> Answer:
    """The day a trap crop must come out.

    Parameters
    ----------
    asked : Asked
        With a temperature of the soil, and ``sown_on`` or a ``bed`` in which something stands.

    Returns
    -------
    Answer
        The day, what lies behind it, and when each published sum is full.
    """
    standing = _standing(asked)
    sown = _sown_on(asked, standing)
    heat = read_heat(asked, sown)
    table, sums = asked.teller.judgements, read_heat_sums(asked.teller.rows("heat_sums"))
    least = int(judged(table, "trap_longest_days"))
    if len(heat.daily) < least:
        raise DomainError("too_few_days", field="soil_row", n_days=len(heat.daily), min=least)
    found = lift_trap_crop_by(sums, heat.daily, sown.isoformat(), table)
    lines = [*_day_lines(asked, heat, found), *_crop_lines(asked, standing)]
    lines += [asked.teller.line(code) for code in _cautions(asked, heat, found)]
    pairs = [one for one in sums if one.span == "to_egg_laying"]
    return Answer(tuple(lines), tuple(_pair_rows(asked, pairs, found)))


def _standing(asked: Asked) -> Entry | None:
    """The newest planting of the chosen bed that still stands."""
    bed, today = asked.bed(), asked.today.isoformat()
    for one in reversed(bed.plantings if bed else ()):
        grown = part(one.doc, "grown")
        if grown["to_on"] is None or str(grown["to_on"]) >= today:
            return one
    return None


def _sown_on(asked: Asked, standing: Entry | None) -> date:
    if asked.given.has("sown_on"):
        return asked.given.day("sown_on")
    if standing is None:
        raise DomainError("asked_no_sown_day", field="sown_on")
    return date.fromisoformat(str(part(standing.doc, "grown")["from_on"]))


def _day_lines(asked: Asked, heat: SoilHeat, found: LiftBy) -> Iterator[Line]:
    said = lift_line(found)
    if date.fromisoformat(found.lift_on) < asked.today:
        yield asked.teller.say(Said("trap_day_past", said.params), said, heat.said)
    else:
        yield asked.teller.say(said, heat.said, by=found.lift_on)
    days = [date.fromisoformat(one.reached_on) for one in found.by_source]
    if not days:
        yield asked.teller.line("trap_eggs_not_reached", n=len(heat.daily))
    elif days[0] == days[-1]:
        yield asked.teller.line("trap_eggs_about", on=days[0])
    else:
        yield asked.teller.line("trap_eggs_spread", early=days[0], late=days[-1], n=len(days))


def _crop_lines(asked: Asked, standing: Entry | None) -> Iterator[Line]:
    """What is known of the plant as a trap crop; nothing when nobody said which it is."""
    key = asked.given.text("crop")
    if key == "of_bed":
        if standing is None:
            return
        key, plant = str(standing.doc["crop_key"]), str(standing.doc["crop"])
    else:
        plant = TRAP_CROPS[key]
    yield asked.teller.line(TRIED.get(key, "trap_untried"), plant=plant)


def _cautions(asked: Asked, heat: SoilHeat, found: LiftBy) -> Iterator[str]:
    stood = heat.daily[: max(1, found.n_days)]
    if sum(stood) / len(stood) < ENTRY_CELSIUS:
        yield "trap_too_cool"
    if hotter_than_the_line(asked, stood):
        yield "heat_above_top"
    yield "trap_no_sum"
    yield "trap_carry_off"


def _pair_rows(asked: Asked, pairs: list[HeatSum], found: LiftBy) -> Iterator[Row]:
    names = latin_names(asked.teller.rows("species"))
    reached = {one.heat_sum.key: one for one in found.by_source}
    for one in pairs:
        yield row(
            f"{names[one.species]} on {one.host}",
            {
                "Base and sum": clock_words(one),
                "First eggs": _reached_words(reached.get(one.key)),
            },
            (one.source,) if one.source else (),
        )


def clock_words(heat_sum: HeatSum) -> str:
    """A base and its sum, which stay together.

    Parameters
    ----------
    heat_sum : HeatSum
        One published pair.

    Returns
    -------
    str
        E.g. ``11.1 °C and 476 degree-days``.
    """
    return f"{heat_sum.base_celsius:g} °C and {heat_sum.degree_days:g} degree-days"


def _reached_words(found: Reached | None) -> str:
    if found is None:
        return "not in the days counted"
    return f"on day {found.n_days}, {as_said(date.fromisoformat(found.reached_on))}"
