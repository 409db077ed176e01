"""How much must be looked at so that finding none would mean something: soil, plants, samples.

Not for what a finding of none says afterwards: ``lab_none`` does.
"""

import math
from collections.abc import Callable, Mapping

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.lab_bags import newest_bag
from gardens.domain.asked.lab_levels import level_rows, levels_of
from gardens.domain.asked.lab_none import cores_of
from gardens.domain.briefing.lines import Line
from gardens.domain.briefing.sample_plan import ask_line, level_line
from gardens.domain.briefing.soil_levels import Levels
from gardens.domain.count_interval import Examined, pooled_k
from gardens.domain.detection import most_when_none_recovered, units_to_look_at
from gardens.domain.finite_detection import units_of_few
from gardens.domain.judgements import judged
from gardens.domain.none_recovered import soil_to_ask
from gardens.domain.said import Said

# Soil that labs are asked to extract, from the usual to a pot test's [cm3].
VOLUMES = (100, 250, 500, 1000, 2000)
MORE_THAN_LABS_TAKE = 1000
# Shares to compare: one in a hundred, fifty, twenty, ten, four.
ONE_IN = (100, 50, 20, 10, 4)
HAVING = (1, 2, 3, 5, 10)
SURE = (0.8, 0.95, 0.99)


def soil_to_extract(asked: Asked) -> Answer:
    """How much soil to ask the lab to extract.

    Parameters
    ----------
    asked : Asked
        With ``crop``, ``level`` [J2 per 100 cm3] and ``n_cores`` [cores], each maybe; the rest
        is taken from the newest bag of ``bed``.

    Returns
    -------
    Answer
        The volume for the level that matters, and what none would mean in other volumes.
    """
    bag = newest_bag(asked, asked.bed(), lifted=False)
    typed_cores = cores_of(asked, bag)
    rules = asked.teller.judgements
    n_cores = int(judged(rules, "soil_cores_per_bed")) if typed_cores is None else typed_cores
    levels = levels_of(asked, bag)
    typed = asked.given.maybe("level")
    level = levels.ends[0] if typed is None else typed
    lines = [
        ask_line(level, n_cores, asked.teller),
        *_level_lines(asked, levels, typed),
    ]
    if soil_to_ask(level, n_cores, rules).volume_cm3 > MORE_THAN_LABS_TAKE:
        lines.insert(1, asked.teller.line("extract_more_than_labs"))
    rows = (*_volume_rows(asked, n_cores), *(level_rows(levels, asked) if typed is None else ()))
    return Answer(tuple(lines), rows)


def _level_lines(asked: Asked, levels: Levels, typed: float | None) -> list[Line]:
    """Why this level: as typed, or as published."""
    if typed is not None:
        return [asked.teller.line("extract_level_typed", level=f"{typed:g}")]
    return [level_line(levels, asked.teller)]


def _volume_rows(asked: Asked, n_cores: int) -> tuple[Row, ...]:
    """What none recovered would mean, volume by volume."""
    rules = asked.teller.judgements
    k = pooled_k(n_cores, judged(rules, "soil_cores_clumping_k"))
    middling, poor = (judged(rules, f"assay_efficiency_{how}") for how in ("middle", "low"))

    def below(volume: float, efficiency: float) -> str:
        bound = most_when_none_recovered(Examined(volume, efficiency), k)
        shown = math.ceil(bound) if bound >= 10 else math.ceil(bound * 10) / 10
        return f"< {shown:g} per 100 cm³"

    how = {"a middling": middling, "a poor": poor}
    return tuple(
        row(
            f"What none would mean, if the lab gets {name} share out",
            {f"From {volume:,} cm³": below(volume, share) for volume in VOLUMES},
            ("negative_binomial",),
        )
        for name, share in how.items()
    )


def look_at_how_many(asked: Asked) -> Answer:
    """How many plants or samples to look at to find one that has it.

    Parameters
    ----------
    asked : Asked
        With ``share`` [%], ``sure`` [1], ``recognised`` [%] and maybe ``n_standing`` [units].

    Returns
    -------
    Answer
        For very many, or for the few that stand in a bed.
    """
    share, recognised = (asked.given.number(name) / 100 for name in ("share", "recognised"))
    sure = float(asked.given.text("sure"))
    standing = asked.given.maybe("n_standing")
    if standing is None:
        n = _of_many(share, sure, recognised)
        told = {"n": n, "share": f"{100 * share:g}", "sure": f"{100 * sure:g}"}
        said, rows = Said("look_at_of_many", told), _share_rows(recognised)
    else:
        said = _of_few(round(standing), share, sure, recognised)
        rows = _few_rows(round(standing), recognised)
    lines = [asked.teller.say(said)]
    if recognised < 1:
        lines.append(asked.teller.line("look_at_recognised", recognised=f"{100 * recognised:g}"))
    return Answer(tuple(lines), rows)


def _of_few(standing: int, share: float, sure: float, recognised: float) -> Said:
    having = max(1, math.ceil(round(standing * share, 9)))
    n = units_of_few(standing, having, sure, recognised)
    told: dict[str, object] = {"standing": standing, "k": having, "sure": f"{100 * sure:g}"}
    if n is None:
        return Said("look_at_all_not_enough", told)
    return Said("look_at_of_few", {"n": n, **told})


def _share_rows(recognised: float) -> tuple[Row, ...]:
    """How many of very many to look at, for other shares."""
    return tuple(
        row(
            _times(sure),
            {
                f"If 1 in {one_in} has it": f"{_of_many(1 / one_in, sure, recognised):,}"
                for one_in in ONE_IN
            },
            ("mcsorley_littell_1993",),
        )
        for sure in SURE
    )


def _of_many(share: float, sure: float, recognised: float) -> int:
    return math.ceil(units_to_look_at(share, sure, recognised))


def _few_rows(standing: int, recognised: float) -> tuple[Row, ...]:
    """How many of a few to look at, for other numbers that have it."""
    rows = []
    for sure in SURE:
        cells = {}
        for having in (k for k in HAVING if k <= standing):
            n = units_of_few(standing, having, sure, recognised)
            has = "has" if having == 1 else "have"
            cells[f"If {having} of {standing} {has} it"] = (
                "more than there are" if n is None else f"{n:,}"
            )
        rows.append(row(_times(sure), cells, ("hypergeometric",)))
    return tuple(rows)


def _times(sure: float) -> str:
    return f"To find one {100 * sure:g} times in 100, look at"


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {
    "soil_to_extract": soil_to_extract,
    "look_at_how_many": look_at_how_many,
}
