"""A cover crop for a bed: its seed, its weeks, how to finish it, and whether it feeds root-knot.

Not a recommendation: the row says how it stands to root-knot, and local advice comes first.
"""

from collections.abc import Callable, Mapping
from datetime import timedelta

from gardens.domain.amounts import Span
from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.grow_words import MEMORY, reasons
from gardens.domain.asked.quantities import CM_PER_INCH, ground, weight
from gardens.domain.asked.treatment_rows import caution_row, cautions
from gardens.domain.biology_lines import host_lines, latin_names
from gardens.domain.briefing.lines import Because, Line
from gardens.domain.host_table import SPECIES, Plant, plant_of_crop, read_plants
from gardens.domain.hosts import across_species, suitability
from gardens.domain.rates import seed_grams
from gardens.domain.said import Said, figure, together
from gardens.domain.treatments import CoverCrop, read_cover_crops

WITH_EVERY_COVER = ("local_advice_first", "never_alone")


def cover_seed(asked: Asked) -> Answer:
    """How much seed of a cover crop a bed takes, and how it is grown.

    Parameters
    ----------
    asked : Asked
        With ``crop``, ``bed`` or ``area_m2`` [m2], and maybe ``germinates_percent`` [%] and
        ``sown_on``.

    Returns
    -------
    Answer
        How it stands to root-knot, the seed, the days to finish it between, which species it
        feeds; its weeks, warmth, ending and cautions as a row.
    """
    chosen = asked.given.text("crop")
    (one,) = (each for each in read_cover_crops(asked.tables["cover_crops"]) if each.crop == chosen)
    plant = plant_of_crop(read_plants(asked.tables["host_status"]), chosen)
    assert plant is not None  # a test holds the two tables together
    lines = [
        *_advice_lines(asked, one, plant),
        _seed_line(asked, one),
        *_finish_lines(asked, one),
        *_feeding_lines(asked, plant),
    ]
    return Answer(
        tuple(lines),
        (_row(asked, one, plant), caution_row(asked, "With every cover crop", WITH_EVERY_COVER)),
    )


def _advice_lines(asked: Asked, one: CoverCrop, plant: Plant) -> list[Line]:
    names = latin_names(asked.tables["species"])
    unsure = [names[key] for key in SPECIES if suitability(plant, key).answer == "uncertain"]
    doubted = one.advice == "useful" and unsure
    code = "cover_useful_in_doubt" if doubted else f"cover_{one.advice}"
    params = {"name": _short(one.name), "listed": together(unsure) if unsure else ""}
    poison = "toxic_plant" in one.cautions
    return [
        asked.teller.say(Said(code, params), because=[Because(one.seen, one.source)]),
        *([asked.teller.say(Said("cover_poisonous", params))] if poison else []),
    ]


def _seed_line(asked: Asked, one: CoverCrop) -> Line:
    area = asked.area_m2()
    here = ground(area)
    if one.seed_g_per_m2 is None:
        return _plants_line(asked, one, area)
    sprouts = asked.given.maybe("germinates_percent")
    found = seed_grams(area, one.seed_g_per_m2, 100 if sprouts is None else sprouts)
    memory = f"{_partly(one)}{MEMORY}" if one.seed_from_memory else "as published"
    return asked.teller.line(
        "cover_seed" if sprouts is None else "cover_seed_sprouting",
        because=[Because(f"{_grams(one.seed_g_per_m2)} per m², {memory}.", one.seed_source)],
        name=_short(one.name),
        low=weight(found.low, 2),
        high=weight(found.high, 2),
        ground=here,
        sprouts=figure(sprouts or 100),
    )


def _short(name: str) -> str:
    """A name without what it is grown for, to stand in a sentence."""
    return name.partition(",")[0]


def _partly(one: CoverCrop) -> str:
    return "partly " if len(one.seed_source) > 1 else ""


def _grams(span: Span) -> str:
    return f"{figure(span.low)} to {figure(span.high)} g"


def _plants_line(asked: Asked, one: CoverCrop, area: float) -> Line:
    apart = one.plants_apart_cm
    if apart is None:
        return asked.teller.line("cover_no_seed_rate", name=_short(one.name))
    return asked.teller.line(
        "cover_plants",
        name=_short(one.name),
        n=figure(area * (100 / apart) ** 2, 2),
        apart=figure(apart),
        inches=figure(apart / CM_PER_INCH, 1),
        ground=ground(area),
    )


def _finish_lines(asked: Asked, one: CoverCrop) -> list[Line]:
    if one.weeks is None or not asked.given.has("sown_on"):
        return []
    sown, (least, most) = asked.given.day("sown_on"), one.weeks
    first = sown + timedelta(weeks=least)
    if most is None:
        return [asked.teller.line("cover_finish_from", sown=sown, first=first, weeks=_weeks(one))]
    last = sown + timedelta(weeks=most)
    weeks = _weeks(one)
    told = asked.teller.line("cover_finish", sown=sown, first=first, last=last, weeks=weeks)
    return [told]


def _feeding_lines(asked: Asked, plant: Plant) -> list[Line]:
    names = latin_names(asked.tables["species"])
    found = across_species(plant, SPECIES)
    spoken = {*found.feeds, *found.uncertain, *found.not_known}
    about = {
        "host_feeds_some": found.feeds,
        "host_uncertain": found.uncertain,
        "host_feeds_none_listed": tuple(each for each in SPECIES if each not in spoken),
    }
    return [
        asked.teller.say(said, because=reasons(plant, about.get(said.code, ()), names))
        for said in host_lines(_short(plant.name), found, SPECIES, names)
    ]


def _row(asked: Asked, one: CoverCrop, plant: Plant) -> Row:
    codes = [*one.cautions, *_regulated(asked, plant)]
    table = asked.tables["treatments"]["cautions"]
    cells = {
        "In the ground": _weeks(one),
        "Soil at least": _warmth(one),
        "How to finish it": one.finish,
        **cautions(asked, codes),
    }
    more = [str(table[code]["source"]) for code in codes]
    sources = tuple(dict.fromkeys((*one.source, *more)))
    hurts = one.advice == "avoid" or any(table[code]["can_hurt"] for code in codes)
    return row(one.name, cells, sources, caution=hurts)


def _regulated(asked: Asked, plant: Plant) -> list[str]:
    """The caution that goes with a plant that feeds a species regulated in some places."""
    rows = asked.teller.rows("species")
    regulated = [str(each["key"]) for each in rows if each["regulated_in_places"]]
    feeds = any(suitability(plant, each).feeds for each in regulated)
    return ["regulated_species"] if feeds else []


def _weeks(one: CoverCrop) -> str:
    if one.weeks is None:
        return ""
    least, most = one.weeks
    return f"{least} weeks or more" if most is None else f"{least} to {most} weeks"


def _warmth(one: CoverCrop) -> str:
    celsius = one.soil_at_least_celsius
    if celsius is None:
        return ""
    memory = f", {MEMORY}" if one.soil_from_memory else ""
    return f"{figure(celsius)} °C ({figure(1.8 * celsius + 32, 2)} °F){memory}"


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"cover_seed": cover_seed}
