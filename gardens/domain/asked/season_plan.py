"""What a season under a plant, or under none, might do to a number: "what if", and labelled so.

Not a forecast, and never one figure: each judged setting is shown with its ends.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.own_unit import Own, about, band, exact, read_own
from gardens.domain.biology_lines import host_lines, latin_names
from gardens.domain.briefing.lines import Line
from gardens.domain.errors import DomainError
from gardens.domain.host_table import SPECIES, Plant, read_plants
from gardens.domain.hosts import across_species, suitability, weeds_cancel
from gardens.domain.judgements import Table, judged
from gardens.domain.said import Said
from gardens.domain.units import PER_100_CM3
from gardens.domain.what_if import FALLING, GROWING, what_if_season

KINDS = {
    "good": "a very good host",
    "moderate": "a moderate host",
    "poor": "a poor host",
    "none_warm_season": "no host, or a resistant kind",
    "none_cold_season": "no host, or a resistant kind",
    "antagonistic": "a plant that works against them",
    "trap_lifted_on_time": "a trap crop lifted on time",
}
OF_LEVEL = {"good": "good", "host": "good", "moderate": "moderate", "poor": "poor"}
WITHOUT_PLANT = {
    "fallow_warm": ("Bare ground, a warm half-year", "none_warm_season"),
    "fallow_cold": ("Bare ground, a cold half-year", "none_cold_season"),
    "trap": ("A trap crop, lifted on time", "trap_lifted_on_time"),
}


@dataclass(frozen=True)
class Outlook:
    """One way a season may go: the plant, the kind of season, for whom, and on whose word."""

    name: str
    season: str
    species: tuple[str, ...]
    note: str
    sources: tuple[str, ...]
    not_known: bool = False


@dataclass(frozen=True)
class Ends:
    """Where an outlook might leave a number [per 100 cm3, >= 0]: low end, taken here, high end."""

    low: float
    taken: float
    high: float


def season_with_crop(asked: Asked) -> Answer:
    """Where a season might leave a number.

    Parameters
    ----------
    asked : Asked
        With ``number`` in ``unit``, a ``plan``, with it a ``crop``, maybe ``species`` and the
        ground under ``weeds`` [%].

    Returns
    -------
    Answer
        A band over all that the plant may be, and each of these with its setting.
    """
    own, plants = read_own(asked), _plants(asked)
    outlooks = _outlooks(asked, plants)
    weedy = bool(weeds_cancel(asked.given.maybe("weeds"), asked.teller.judgements))
    ends = [_ends(asked.teller.judgements, own, one.season, weedy) for one in outlooks]
    lines = [_line(asked, own, plants, outlooks, ends)]
    if weedy:
        limit = judged(asked.teller.judgements, "weeds_cancel_cover_percent")
        lines.append(asked.teller.line("season_weeds", limit=f"{limit:g}"))
    rows = [_row(asked, own, one, end) for one, end in zip(outlooks, ends, strict=True)]
    return Answer(tuple(lines), tuple(rows))


def _plants(asked: Asked) -> list[Plant]:
    if asked.given.text("plan") in WITHOUT_PLANT:
        return []
    if not asked.given.has("crop"):
        raise DomainError("asked_empty", field="crop")
    table = read_plants(asked.teller.rows("host_status"))
    return [one for one in table if one.crop == asked.given.text("crop")]


def _outlooks(asked: Asked, plants: Sequence[Plant]) -> list[Outlook]:
    if not plants:
        name, season = WITHOUT_PLANT[asked.given.text("plan")]
        return [Outlook(name, season, (), "", ())]
    told = {str(one["key"]): one for one in asked.teller.rows("host_status")}
    return [
        outlook
        for plant in plants
        for outlook in _of_plant(plant, _asked_species(asked), told[plant.key]["season"] == "cool")
    ]


def _asked_species(asked: Asked) -> tuple[str, ...]:
    return (asked.given.text("species"),) if asked.given.has("species") else SPECIES


def _of_plant(plant: Plant, species: Sequence[str], cool: bool) -> Iterator[Outlook]:
    """Every kind of season the table allows, the worst first; nothing known is the worst."""
    name = f"{plant.name}, {plant.form}" if plant.form else plant.name
    known = [one for one in species if suitability(plant, one).answer != "not_known"]
    if not known:
        yield Outlook(name, "good", tuple(species), "", (), not_known=True)
    for season in KINDS:
        of_season = {
            one: graded for one in known for graded in _seasons(plant, one, cool).get(season, ())
        }
        if of_season:
            note = "" if any(of_season.values()) else "Sources disagree; this end is our judgement."
            yield Outlook(name, season, tuple(of_season), note, plant.source)


def _seasons(plant: Plant, species: str, cool: bool) -> Mapping[str, tuple[bool, ...]]:
    """Kinds of season, and whether a source gives that level or we add it as the other end."""
    without = "none_cold_season" if cool else "none_warm_season"
    found = suitability(plant, species)
    graded = {
        "antagonistic" if level == "antagonistic" else OF_LEVEL.get(level, without)
        for level in found.levels
    }
    seasons = {season: (True,) for season in graded}
    if found.answer == "uncertain" and not graded & set(GROWING):
        seasons["moderate" if graded else "good"] = (False,)
    if found.answer == "uncertain" and not graded & set(FALLING):
        seasons["poor"] = (False,)
    return seasons


def _ends(judgements: Table, own: Own, season: str, weedy: bool) -> Ends:
    low, taken, high = (
        what_if_season(own.per_100_cm3, season, table, weedy).after
        for table in (_at_end(judgements, 0), judgements, _at_end(judgements, 1))
    )
    return Ends(low, taken, high)


def _at_end(judgements: Table, end: int) -> Table:
    """The table of judgements with every what-if value at one end of its range."""
    changed = {}
    for key, one in judgements.items():
        if key.startswith("what_if_"):
            bounds = one["range"]
            assert isinstance(bounds, list)
            changed[key] = {**one, "value": bounds[end]}
    return {**judgements, **changed}


def _line(
    asked: Asked,
    own: Own,
    plants: Sequence[Plant],
    outlooks: Sequence[Outlook],
    ends: Sequence[Ends],
) -> Line:
    feeding = {one.season in GROWING for one in outlooks}
    code = "uncertain" if len(feeding) > 1 else ("rises" if feeding.pop() else "falls")
    if any(one.not_known for one in outlooks):
        code = "not_known"
    left = [own.of_100_cm3(end) for one in ends for end in (one.low, one.high)]
    numbers = {"number": exact(own.number), "unit": own.words, "left": band(min(left), max(left))}
    names, species = latin_names(asked.teller.rows("species")), _asked_species(asked)
    doubts = [
        said
        for plant in plants[:1]
        for said in host_lines(plant.name, across_species(plant, species), species, names)
        if said.code in ("host_uncertain", "host_not_known")
    ]
    return asked.teller.say(Said(f"season_{code}", numbers), *doubts, *own.because(PER_100_CM3))


def _row(asked: Asked, own: Own, outlook: Outlook, ends: Ends) -> Row:
    names = latin_names(asked.teller.rows("species"))
    low, taken, high = (own.of_100_cm3(end) for end in (ends.low, ends.taken, ends.high))
    cells = {
        "For": ", ".join(names[one] for one in outlook.species),
        "What if": f"{band(low, high)} {own.words}{_middle(low, taken, high)}",
        "Model and setting": _setting(asked.teller.judgements, outlook.season)
        if low < high
        else "no fall counted, for the weeds",
        "Bear in mind": " ".join(filter(None, (outlook.note, _above_ceiling(asked, own, outlook)))),
    }
    name = outlook.name if not outlook.species else f"{outlook.name}: {KINDS[outlook.season]}"
    return row(name, cells, (*outlook.sources, "our_what_if"))


def _middle(low: float, taken: float, high: float) -> str:
    return f"; with the middle setting {about(taken)}" if low < high else ""


def _setting(judgements: Table, season: str) -> str:
    if season not in GROWING:
        factor, ends = _judged_words(judgements, FALLING[season])
        return f"one factor for the season: times {factor} (judged, {ends})"
    many, many_ends = _judged_words(judgements, f"what_if_{season}_multiplication")
    most, most_ends = _judged_words(judgements, f"what_if_{season}_ceiling")
    return (
        f"growth curve of one season: up to {many} times as many while few (judged, {many_ends}), "
        f"never above {most} per 100 cm³ (judged, {most_ends})"
    )


def _judged_words(judgements: Table, key: str) -> tuple[str, str]:
    """A judged value, and the ends of its range."""
    bounds = judgements[key]["range"]
    assert isinstance(bounds, list)
    return f"{judged(judgements, key):,g}", f"{bounds[0]:,g} to {bounds[1]:,g}"


def _above_ceiling(asked: Asked, own: Own, outlook: Outlook) -> str:
    if outlook.season not in GROWING:
        return ""
    ceiling = judged(asked.teller.judgements, f"what_if_{outlook.season}_ceiling")
    if own.per_100_cm3 <= ceiling:
        return ""
    return "Your number is above the ceiling: ruined roots feed few. That is no gain."
