"""The briefing: does it grow in step with the beds, and is a big garden told at once.

The first figures start the core with nothing remembered; the last ones ask a running server.
"""

import json
import random
import time
from typing import Any

from gardens.domain.briefing import briefing, remembered
from gardens.selectors.tables import all_tables
from tests.bench.figures import Figure, beside, percentile, within
from tests.bench.scene import GARDEN, Caller, batches, moment, new_id, put, running_server

N_BEDS, N_CHECKS, N_PLANTS = 40, 5, 15  # 3,000 ratings
N_ASKED, BUDGET_MS, MOST_GROWTH = 15, 250, 15
TODAY = "2031-09-01"


def measure() -> list[Figure]:
    """Tell gardens of 1, 10 and 100 beds, then one of 40 beds over HTTP."""
    seconds = {n: in_process(n) for n in (1, 10, 100)}
    each = {n: f"briefing of {n} beds, nothing remembered" for n in seconds}
    return [
        beside(each[1].replace("beds", "bed"), seconds[1], seconds[1], "itself"),
        beside(each[10], seconds[10], seconds[1], "1 bed"),
        beside(each[100], seconds[100], seconds[10], "10 beds"),
        within("growth from 10 beds to 100", seconds[100] / seconds[10], MOST_GROWTH, "x"),
        *over_http(),
    ]


def in_process(n_beds: int) -> float:
    """Return the seconds of one briefing by the core alone, with nothing remembered."""
    records = [as_pulled(one) for one in garden(n_beds)]
    tables = all_tables()
    remembered.forget()
    started = time.perf_counter()
    told = briefing(records, tables, TODAY)
    seconds = time.perf_counter() - started
    if len(told["beds"]) != n_beds:  # type: ignore[arg-type]
        raise RuntimeError(f"{n_beds} beds were sent, {told['beds']!r:.300} came back")
    return seconds


def over_http() -> list[Figure]:
    """Ask a server for the briefing of 40 beds: the first time, again, and after one change."""
    with running_server() as server:
        caller = Caller(server)
        mutations = garden(N_BEDS)
        for batch in batches(mutations):
            caller.push(batch)
        first = told(caller)
        again = [told(caller) for _ in range(N_ASKED)]
        changed = [after_a_rating(caller, mutations) for _ in range(N_ASKED)]
    median = percentile(again, 0.5)
    name = f"briefing of {N_BEDS} beds, {N_BEDS * N_CHECKS * N_PLANTS} ratings"
    return [
        within(f"{name}, median of {N_ASKED}", median, BUDGET_MS, "ms"),
        within(f"{name}, after one more rating", percentile(changed, 0.5), BUDGET_MS, "ms"),
        beside(f"{name}, the first after a start", first / 1000, median / 1000, "later ones"),
    ]


def told(caller: Caller) -> float:
    """Return the milliseconds of one briefing."""
    started = time.perf_counter()
    answer = caller.ask("GET", f"/gardens/{GARDEN}/briefing?today={TODAY}")
    milliseconds = (time.perf_counter() - started) * 1000
    if len(json.loads(answer)["briefing"]["beds"]) < N_BEDS:
        raise RuntimeError(f"beds are missing: {answer[:300]!r}")
    return milliseconds


def after_a_rating(caller: Caller, mutations: list[dict[str, Any]]) -> float:
    """Return the milliseconds of a briefing right after one more plant was rated."""
    newest = [one for one in mutations if one["kind"] == "root_check"][-1]
    caller.push([rating(newest["id"], random.Random(moment()), N_PLANTS)])
    return told(caller)


def as_pulled(mutation: dict[str, Any]) -> dict[str, Any]:
    """Return a record as the core is handed it."""
    return {
        "id": mutation["id"],
        "kind": mutation["kind"],
        "deleted": False,
        "doc": mutation["set"],
    }


def garden(n_beds: int) -> list[dict[str, Any]]:
    """Make the changes that make a garden of many beds, each rated five times."""
    chance = random.Random(n_beds)
    made: list[dict[str, Any]] = []
    for n in range(n_beds):
        bed, planting = new_id(), new_id()
        shape = {"type": "rectangle", "width_cm": 120, "length_cm": 480}
        grown = {"from_on": "2031-05-02", "to_on": None}
        made.append(put("bed", bed, name=f"Bed {n + 1}", shape=shape))
        made.append(put("planting", planting, bed=bed, crop="Okra", grown=grown, plants=[]))
        for month in range(4, 4 + N_CHECKS):
            check, chosen = new_id(), {"how": "random", "every_k": None}
            on = f"2031-0{month}-15"
            made.append(put("root_check", check, planting=planting, checked_on=on, chosen=chosen))
            made += [rating(check, chance, plant) for plant in range(N_PLANTS)]
    return made


def rating(check: str, chance: random.Random, plant: int) -> dict[str, Any]:
    """Make the change that records one rating; the bed is worse at its top."""
    place = {"x_cm": 30 + 60 * (plant % 2), "y_cm": 30 + 55 * (plant // 2), "plant": plant + 1}
    grade = min(10, max(0, round(7 - place["y_cm"] / 80 + chance.gauss(0, 1.5))))
    reading = {"state": "rated", "grade": grade, "gall_scale": "pct10", "trace_only": False}
    values = {"root_check": check, "place": place, "reading": reading, "rated_at": moment()}
    return put("gall_rating", new_id(), **values)
