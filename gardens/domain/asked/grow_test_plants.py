"""Which species a set of test plants leaves over, galled or not.

Not an identification: two species at least are always listed, and only a laboratory settles it.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import combinations
from typing import Any

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.grow_words import MEMORY, REGULATED
from gardens.domain.biology_lines import latin_names
from gardens.domain.briefing.hints import hinted, species_lines
from gardens.domain.briefing.lines import Because, Line
from gardens.domain.differential import HOSTS, AgreeingRow, agreeing_rows
from gardens.domain.errors import DomainError
from gardens.domain.said import Said, capital, together
from gardens.domain.species import LEAST_LISTED

Near = Mapping[str, tuple[AgreeingRow, tuple[str, ...]]]


def left_by_test_plants(asked: Asked) -> Answer:
    """Which species a set of test plants leaves over.

    Parameters
    ----------
    asked : Asked
        With ``galled`` and ``not_galled`` (keys of the test plants), and maybe ``bed``.

    Returns
    -------
    Answer
        A row for each species that fits, and for the nearest where fewer than two do.
    """
    seen = _seen(asked)
    fitting = _by_species(agreeing_rows(seen, _table(asked)["rows"]))
    near = _nearest(asked, seen, fitting)
    lines = [
        _fit_line(asked, seen, fitting, near),
        *_doubts(asked, seen),
        *_send(asked, fitting),
        *_beside_the_bed(asked),
    ]
    rows = [_fitting_row(asked, species, found) for species, found in fitting.items()]
    rows += [_near_row(asked, species, *found) for species, found in near.items()]
    return Answer(tuple(lines), tuple(rows))


def _table(asked: Asked) -> Mapping[str, Sequence[Mapping[str, Any]]]:
    found: Mapping[str, Sequence[Mapping[str, Any]]] = asked.tables["differential_hosts"]
    return found


def _seen(asked: Asked) -> dict[str, bool]:
    galled, without = asked.given.keys("galled"), asked.given.keys("not_galled")
    if set(galled) & set(without):
        raise DomainError("grow_test_plant_twice", field="not_galled")
    if "tomato" in without:
        raise DomainError("test_plants_not_infected", field="not_galled")
    if not galled:
        raise DomainError("grow_none_galled", field="galled")
    return {host: host in galled for host in HOSTS if host in (*galled, *without)}


def _by_species(rows: Iterable[AgreeingRow]) -> dict[str, list[AgreeingRow]]:
    found: dict[str, list[AgreeingRow]] = {}
    for one in rows:
        found.setdefault(one.species, []).append(one)
    return found


def _nearest(asked: Asked, seen: Mapping[str, bool], fitting: Mapping[str, object]) -> Near:
    """Species that would fit but for as few plants as it takes to list two in all."""
    found: dict[str, tuple[AgreeingRow, tuple[str, ...]]] = {}
    size = 0
    while len(fitting) + len(found) < LEAST_LISTED:
        size += 1
        for left in combinations(seen, size):
            rest = {host: did for host, did in seen.items() if host not in left}
            for one in agreeing_rows(rest, _table(asked)["rows"]):
                if one.species not in fitting:
                    found.setdefault(one.species, (one, left))
    return found


def _plants(asked: Asked, keys: Iterable[str]) -> str:
    names = {str(one["key"]): str(one["name"]).split(",")[0] for one in _table(asked)["hosts"]}
    told = [names[key].lower() for key in keys]
    return together(told) if told else "none"


def _species(asked: Asked, keys: Iterable[str]) -> str:
    names = latin_names(asked.tables["species"])
    return together(names[key] for key in keys)


def _fit_line(
    asked: Asked,
    seen: Mapping[str, bool],
    fitting: Mapping[str, Sequence[AgreeingRow]],
    near: Near,
) -> Line:
    if not fitting:
        return asked.teller.line("test_plants_none_fit", listed=_species(asked, near))
    listed, settle = _species(asked, fitting), _next(asked, seen, fitting)
    if not near:
        return asked.teller.line("test_plants_fit", settle=settle, listed=listed)
    n = max(len(left) for _, left in near.values())
    code, nearest = "test_plants_one_fits", _species(asked, near)
    return asked.teller.line(code, settle=settle, listed=listed, near=nearest, n=n)


def _next(
    asked: Asked, seen: Mapping[str, bool], fitting: Mapping[str, Sequence[AgreeingRow]]
) -> list[str]:
    """The test plants not yet grown on which the rows that are left differ."""
    keys = {one.key for rows in fitting.values() for one in rows}
    left = [one["galls"] for one in _table(asked)["rows"] if one["key"] in keys]
    telling = [
        host
        for host in HOSTS
        if host not in seen and {"yes", "no"} <= {galls[host] for galls in left}
    ]
    return [f"Grow {_plants(asked, telling)} too: the rows left differ there."] if telling else []


def _doubts(asked: Asked, seen: Mapping[str, bool]) -> Iterable[Line]:
    if "tomato" not in seen:
        yield asked.teller.line("test_plants_no_tomato")
    if seen.get("pepper") is False:
        yield asked.teller.line("test_plants_pepper")


def _send(asked: Asked, fitting: Mapping[str, object]) -> Iterable[Line]:
    if not fitting:
        yield asked.teller.line("test_plants_send")
    elif _regulated(asked) & set(fitting):
        yield asked.teller.line("species_may_be_regulated")


def _regulated(asked: Asked) -> set[str]:
    return {str(one["key"]) for one in asked.tables["species"] if one["regulated_in_places"]}


def _beside_the_bed(asked: Asked) -> Iterable[Line]:
    bed = asked.bed()
    found = hinted(bed.checks, asked.teller) if bed else None
    if bed and found and found.hint.tells:
        listed = _species(asked, (one.species for one in found.hint.consistent_with))
        because = [Because(found.words[clue.key], clue.source) for clue in found.hint.clues]
        said = Said("test_plants_and_bed", {"bed": bed.doc["name"], "listed": listed})
        yield asked.teller.say(said, because=because)
        if found.hint.identify:
            yield species_lines(found, asked.teller)[1]


def _fitting_row(asked: Asked, species: str, rows: Sequence[AgreeingRow]) -> Row:
    cells = {
        f"Fits on ({one.race})" if one.race else "Fits on": _plants(asked, one.agrees_on)
        for one in rows
    }
    return _row(asked, species, rows, cells)


def _near_row(asked: Asked, species: str, one: AgreeingRow, left: tuple[str, ...]) -> Row:
    race = f" ({one.race})" if one.race else ""
    return _row(asked, species, [one], {"Would fit but for": f"{_plants(asked, left)}{race}"})


def _row(asked: Asked, species: str, rows: Sequence[AgreeingRow], cells: dict[str, str]) -> Row:
    regulated = species in _regulated(asked)
    if any(one.from_memory for one in rows):
        cells["Read"] = f"{capital(MEMORY)}."
    cells["The law"] = REGULATED if regulated else ""
    sources = dict.fromkeys(key for one in rows for key in one.source)
    return row(_species(asked, [species]), cells, tuple(sources), regulated)


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"test_plants": left_by_test_plants}
