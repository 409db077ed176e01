"""How long a nematode takes in a grower's own soil, by each published clock.

Not for a mean of them: each paper's base and sum stay together, and all are shown.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import timedelta

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.soil_heat import SoilHeat, hotter_than_the_line, read_heat
from gardens.domain.asked.trap import clock_words
from gardens.domain.biology_lines import latin_names
from gardens.domain.briefing.lines import Because, Line, as_said
from gardens.domain.heat import HeatSum, days_at, days_until, read_heat_sums
from gardens.domain.judgements import judged
from gardens.domain.said import Said

SPANS = {
    "generation": "a whole generation",
    "to_egg_laying": "from root entry to the first eggs",
    "egg_to_juvenile": "from egg to juvenile",
}
# Not one of the six species of the tables, but a root-knot nematode with a published clock.
MORE_SPECIES = {"Mc": "M. chitwoodi"}
CLOCKS = "Each paper's own base and sum, shown below."


def generation_days(asked: Asked) -> Answer:
    """Days to the first eggs and to a generation.

    Parameters
    ----------
    asked : Asked
        With a temperature of the soil, and maybe ``species`` and ``from_on``.

    Returns
    -------
    Answer
        The spread of the published clocks, and each of them.
    """
    from_on = asked.given.day("from_on") if asked.given.has("from_on") else asked.today
    heat = read_heat(asked, from_on)
    species = asked.given.text("species")
    clocks = [
        one
        for one in read_heat_sums(asked.teller.rows("heat_sums"))
        if species in ("any", one.species)
    ]
    days = {one.key: _days(asked, heat, one) for one in clocks}
    lines = [
        _span_line(asked, heat, span, [one for one in clocks if one.span == span], days)
        for span in ("generation", "to_egg_laying")
    ]
    if hotter_than_the_line(asked, heat.daily):
        lines.append(asked.teller.line("heat_above_top"))
    ordered = [one for span in SPANS for one in clocks if one.span == span]
    return Answer(tuple(lines), tuple(_clock_rows(asked, heat, ordered, days)))


def _days(asked: Asked, heat: SoilHeat, clock: HeatSum) -> float | None:
    top = judged(asked.teller.judgements, "heat_top_celsius")
    if heat.steady is not None:
        return days_at(clock, min(heat.steady, top))
    return days_until(heat.daily, clock.base_celsius, clock.degree_days, top)


def _span_line(
    asked: Asked,
    heat: SoilHeat,
    span: str,
    clocks: Sequence[HeatSum],
    days: Mapping[str, float | None],
) -> Line:
    """One line about one span; figures from memory are shown below, never counted here."""
    published = [one for one in clocks if not one.from_memory]
    if not published:
        return asked.teller.line(f"heat_{span}_not_held")
    reached = sorted(round(found) for one in published if (found := days[one.key]) is not None)
    n_still = len(published) - len(reached)
    because = [Because(CLOCKS, tuple(sorted({str(one.source) for one in published})))]
    said = _spread(span, reached, n_still)
    return asked.teller.say(said, heat.said, *_doubts(asked, reached, n_still), because=because)


def _spread(span: str, reached: Sequence[int], n_still: int) -> Said:
    if not reached:
        return Said(f"heat_{span}_never")
    low, high = reached[0], reached[-1]
    if low == high and not n_still:
        return Said(f"heat_{span}_one", {"days": low})
    return Said(f"heat_{span}_spread", {"low": low, "high": high, "n": len(reached) + n_still})


def _doubts(asked: Asked, reached: Sequence[int], n_still: int) -> Iterator[Said]:
    if reached and n_still:
        yield Said("heat_some_stand_still", {"n": n_still})
    if reached and asked.given.text("species") == "any":
        yield Said("heat_species_open")


def _clock_rows(
    asked: Asked, heat: SoilHeat, clocks: Sequence[HeatSum], days: Mapping[str, float | None]
) -> Iterator[Row]:
    names = latin_names(asked.teller.rows("species")) | MORE_SPECIES
    told = {str(one["key"]): one for one in asked.teller.rows("heat_sums")}
    for one in clocks:
        host = "" if one.host in ("none", "not stated") else f" on {one.host}"
        cells = {
            "Base and sum": clock_words(one),
            "In your soil": _days_words(heat, days[one.key]),
            "Bear in mind": str(told[one.key]["note"]),
        }
        name = f"{names[one.species]}{host}: {SPANS[one.span]}"
        yield row(name, cells, (one.source,) if one.source else ())


def _days_words(heat: SoilHeat, days: float | None) -> str:
    if days is None and heat.open_ended:
        return "its clock stands still at this temperature, which does not mean they die"
    if days is None:
        return f"not full after {len(heat.daily)} days"
    until = heat.from_on + timedelta(days=max(0, round(days) - 1))
    return f"about {round(days)} days, to {as_said(until)}"
