"""Whether a plant is a host, by what it did to the numbers in the soil.

Not for a forecast: each name of a class is shown beside the others, and where they do not
agree the answer is "uncertain".
"""

import math
from collections.abc import Callable, Mapping

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.grow_species import plant_asked, wanted
from gardens.domain.asked.grow_words import MEMORY, full_name, standings
from gardens.domain.briefing.lines import Line
from gardens.domain.count_interval import expected_count_interval, pooled_k
from gardens.domain.difference import Estimate, apart
from gardens.domain.host_classes import (
    gall_index_taylor_sasser,
    host_class_canto_saenz,
    host_class_oostenbrink,
    resistance_beside_check,
)
from gardens.domain.host_table import read_plants
from gardens.domain.hosts import across_species
from gardens.domain.judgements import judged
from gardens.domain.population import reproduction_factor
from gardens.domain.said import Said, capital, figure

ALONE: Mapping[str, str] = {
    "host": "Host: more after than before",
    "poor_host": "Poor host: no more after than before",
    "none_found": "None found after, which one trial does not prove",
}
BOTH: Mapping[str, str] = {
    "resistant": "Resistant: few galls, and no more of them",
    "tolerant": "Tolerant: few galls, yet it multiplies them",
    "susceptible": "Susceptible: many galls, and it multiplies them",
    "hyper_susceptible": "Hyper-susceptible: many galls, yet no more of them",
}
BESIDE: Mapping[str, str] = {
    "highly_resistant": "Highly resistant: less than a tenth of what was on the other",
    "moderately_resistant": "Moderately resistant: less than half of what was on the other",
    "not_resistant": "Not resistant: half of what was on the other, or more",
}
ALONE_READ = ("oostenbrink_rule",)
BOTH_READ = ("iran_medicinal_plants", "canto_saenz_memory")
BESIDE_READ = ("aydinli_2019_squash",)
FROM_MEMORY = frozenset({"oostenbrink_rule", "canto_saenz_memory"})
FEEDS = frozenset({"host", "tolerant", "susceptible", "not_resistant", "feeds_some"})
OPEN = frozenset({"uncertain", "not_known"})


def host_by_numbers(asked: Asked) -> Answer:
    """Whether a plant is a host, by what it did to the numbers.

    Parameters
    ----------
    asked : Asked
        With ``before`` and ``after`` [per 100 cm3, > 0 and >= 0], and maybe ``galls`` [galls on
        one root], ``beside`` [per 100 cm3], ``plant`` and ``bed``.

    Returns
    -------
    Answer
        The factor with its range, and a row for each way to name the class.
    """
    before, after = asked.given.number("before"), asked.given.number("after")
    factor = reproduction_factor(before, after)
    classes, rows = _classes(asked, factor, after)
    published = _published(asked)
    if published:
        classes.append(published[0])
        rows.append(published[1])
    lines = [_numbers_line(asked, before, after, factor)]
    if "hyper_susceptible" in classes or (after == 0 and (asked.given.maybe("galls") or 0) > 0):
        lines.append(asked.teller.line("numbers_galls_say_more"))
    feeding = {one in FEEDS for one in classes if one not in OPEN}
    if len(feeding) > 1:
        lines.append(asked.teller.line("numbers_classes_differ"))
    return Answer(tuple(lines), tuple(rows))


def _classes(asked: Asked, factor: float, after: float) -> tuple[list[str], list[Row]]:
    """Each name of a class that can be had from what was given, and its row."""
    alone = host_class_oostenbrink(factor)
    row_of = _row("By the numbers alone", ALONE[alone], "Above 1, a host", *ALONE_READ)
    found, rows = [alone], [row_of]
    galls, beside = asked.given.maybe("galls"), asked.given.maybe("beside")
    if galls is not None:
        index = gall_index_taylor_sasser(math.ceil(galls))
        found.append(host_class_canto_saenz(index, factor))
        line = f"Gall index above 2 of 5 (here {index}), and above 1 for the numbers"
        rows.append(_row("By galls and numbers", BOTH[found[-1]], line, *BOTH_READ))
    if beside is not None:
        found.append(resistance_beside_check(after, beside))
        line = "10 % and 50 % of the other plant"
        rows.append(_row("Beside a susceptible plant", BESIDE[found[-1]], line, *BESIDE_READ))
    return found, rows


def _row(name: str, says: str, line: str, *sources: str) -> Row:
    recalled = any(key in FROM_MEMORY for key in sources)
    read = f"{capital(MEMORY)}." if recalled else ""
    return row(name, {"Says": says, "Where the line is": line, "Read": read}, sources)


def _published(asked: Asked) -> tuple[str, Row] | None:
    plant = plant_asked(asked, read_plants(asked.tables["host_status"]))
    if plant is None:
        return None
    about = wanted(asked)
    cells = standings(plant, about.species, about.names)
    return (
        across_species(plant, about.species).answer,
        row(f"As published: {full_name(plant)}", cells, plant.source),
    )


def _numbers_line(asked: Asked, before: float, after: float, factor: float) -> Line:
    rules = asked.teller.judgements
    cores = int(judged(rules, "soil_cores_per_bed"))
    k = pooled_k(cores, judged(rules, "soil_cores_clumping_k"))
    told: dict[str, object] = {"before": _counted(before), "after": _counted(after), "cores": cores}
    if after == 0:
        _, most = expected_count_interval(0, k)
        told["most"] = _figure(most / before)
        return asked.teller.say(Said("numbers_none_recovered", told))
    low, high = _range(before, after, k)
    code = "numbers_uncertain"
    if low > 1 or high <= 1:
        code = "numbers_host" if low > 1 else "numbers_poor_host"
    ends = dict.fromkeys((_figure(low), _figure(high)))
    told |= {"factor": _figure(factor), "likely": " to ".join(ends)}
    return asked.teller.say(Said(code, told))


def _range(before: float, after: float, k: float | None) -> tuple[float, float]:
    """95 % interval of the factor: the two counts' own intervals, put together as logarithms."""
    found = apart(_log_count(after, k), _log_count(before, k))
    return math.exp(found.low), math.exp(found.high)


def _log_count(count: float, k: float | None) -> Estimate:
    whole = math.ceil(count)
    low, high = expected_count_interval(whole, k)
    return Estimate(math.log(whole), math.log(low), math.log(high))


def _counted(value: float) -> str:
    return f"{value:,.0f}" if value == int(value) else f"{value:g}"


def _figure(value: float) -> str:
    """Two figures at most, and no figure below one in a hundred."""
    if value < 0.01:
        return "less than 0.01"
    return figure(value, 2)


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"host_by_numbers": host_by_numbers}
