"""The papers of a parcel and the verdict of a bed, on the server: labels, a filled form, a report.

Told beside the sheet for the laboratory of the same run, or held against a budget.
"""

import hashlib
import json
import time
from collections.abc import Callable

from tests.bench.figures import Figure, percentile, within
from tests.bench.scene import GARDEN, Caller, new_id, put, running_server
from tests.end_to_end.demo_garden import LAB, SENT_SAMPLE
from tests.sheets import made_forms

N_ASKED, BUDGET_MS = 15, 400
N_LABELS = 30
FIELD = {"field": "Grower name", "fill": "grower_name", "row": 1, "when": "", "words": ""}


def measure() -> list[Figure]:
    """Ask a running server for each of them again and again."""
    with running_server() as server:
        caller = Caller(server)
        bags = [*more_bags(caller), SENT_SAMPLE]
        load_form(caller)
        sheets = f"/gardens/{GARDEN}/sheets"
        asked: dict[str, Callable[[], bytes]] = {
            f"sheet of {N_LABELS} labels": lambda: caller.ask(
                "GET", f"{sheets}/labels.pdf?sheet=letter_67x25&samples={','.join(bags)}"
            ),
            "the lab's form, filled": lambda: caller.ask(
                "GET", f"{sheets}/lab-form.pdf?samples={SENT_SAMPLE}"
            ),
            "verdicts of the demo garden": lambda: caller.ask("GET", f"/gardens/{GARDEN}/briefing"),
        }
        times = {name: [timed(ask) for _ in range(N_ASKED)] for name, ask in asked.items()}
    return [
        within(f"{name}, median of {N_ASKED}", percentile(each, 0.5), BUDGET_MS, "ms")
        for name, each in times.items()
    ]


def more_bags(caller: Caller) -> list[str]:
    """Make all bags of a full sheet but one, like the demo's own."""
    told = json.loads(caller.ask("GET", f"/gardens/{GARDEN}/pull?cursor=0&limit=500"))
    doc = next(one["doc"] for one in told["records"] if one["id"] == SENT_SAMPLE)
    ids = [new_id() for _ in range(N_LABELS - 1)]
    caller.push([put("soil_sample", each, **doc) for each in ids])
    return ids


def load_form(caller: Caller) -> None:
    """Give the demo's lab a form of its own, matched."""
    paper, data = new_id(), made_forms.fillable()
    sha256 = hashlib.sha256(data).hexdigest()
    of = {"kind": "lab_profile", "id": LAB}
    made = put("paper", paper, of=of, name="form.pdf", sha256=sha256, n_bytes=len(data))
    form = {"paper": paper, "fields": [FIELD], "spots": []}
    matched = put("lab_profile", LAB, form=form) | {"op": "patch", "base": 9_999}
    caller.push([made, matched])
    caller.send_paper(sha256, data)


def timed(ask: Callable[[], bytes]) -> float:
    """Return the milliseconds of one answer."""
    started = time.perf_counter()
    ask()
    return (time.perf_counter() - started) * 1000
