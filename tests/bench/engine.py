"""The Python core on the phone: from nothing to its first answer, and each answer after that.

The app's own worker with the app's own files from the phone's cache, the server gone; at this
computer's speed and four times slower. Told, not held to a budget: machines differ too much.
"""

import json
from base64 import b64encode
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from api.bootstrap.places import WEB_BUILD
from tests.bench.briefing import TODAY, as_pulled, garden
from tests.bench.figures import Figure, beside
from tests.bench.scene import running_server
from tests.bench.slowphone import signed_in
from tests.bench.starved import SLOW_DOWN, starved
from tests.end_to_end.demo_garden import CONTENT, LATEST_CHECK_OF_WELL_ELBOW, SENT_SAMPLE
from tests.end_to_end.phone import Phone
from tests.sheets import made_forms

N_BEDS = 40  # with 3,000 ratings

RUN = """async ({ worker, index, core, asked }) => {
  const archive = await (await (await caches.open("engine")).match(core)).arrayBuffer();
  const engine = new Worker(worker, { type: "module" });
  const next = () => new Promise((done) => (engine.onmessage = ({ data }) => done(data)));
  const times = [];
  let began = performance.now();
  engine.postMessage({ index: new URL(index, location.href).href, archive });
  for (let id = -1; id < asked.length; id += 1) {
    const told = await next();
    times.push(performance.now() - began);
    if (id >= 0 && told.as !== asked[id][2]) throw new Error(JSON.stringify(told));
    if (id < 0 && told.kind !== "running") throw new Error(JSON.stringify(told));
    const [name, args] = asked[id + 1] ?? [];
    began = performance.now();
    if (name) engine.postMessage({ id: id + 1, name, args });
  }
  engine.terminate();
  return times;
}"""


def measure() -> list[Figure]:
    """Start it and ask it, at both speeds."""
    questions = asked()
    with running_server() as server, signed_in(server) as phone:
        phone.open("/phone")
        expect(phone.page.get_by_text("It is on this phone.")).to_be_visible(timeout=120_000)
        server.kill()
        [first] = run(phone, [])
        plain = run(phone, questions)
        with starved(phone.page):
            slow = run(phone, questions)
    names = ["engine, start again", *(f"engine, {name}" for name, _ in questions)]
    return [
        beside("engine, the first start of the page", first, plain[0], "start again"),
        *pairs(names, plain, slow),
    ]


def pairs(names: list[str], plain: list[float], slow: list[float]) -> Iterator[Figure]:
    """Yield each figure at both speeds."""
    for name, quick, slowly in zip(names, plain, slow, strict=True):
        yield beside(f"{name}, in the browser", quick, quick, "itself")
        yield beside(f"{name}, {SLOW_DOWN}x slower", slowly, quick, "1x")


def asked() -> list[tuple[str, list[str]]]:
    """Return what is asked, by the name of its figure: question, arguments, kind of answer."""
    demo = [as_pulled(one) for one in CONTENT["mutations"]]
    paper = {"origin": "https://garden.test", "now": f"{TODAY}T08:00:00Z", "paper": "a4"}
    big = [as_pulled(one) for one in garden(N_BEDS)]

    def question(name: str, kind: str, **args: Any) -> list[str]:
        return [name, json.dumps(args), kind]

    sheet = question("submission_sheet", "pdf", records=demo, samples=[SENT_SAMPLE], **paper)
    bed_map = question(
        "bed_map", "pdf", records=demo, root_check=LATEST_CHECK_OF_WELL_ELBOW, **paper
    )
    labels = question(
        "labels", "pdf", records=demo, samples=[SENT_SAMPLE], sheet="letter_67x25", **paper
    )
    form, matched = filled_form(), with_form(demo)
    filled = question("lab_form", "pdf", records=matched, samples=[SENT_SAMPLE], pdf=form, **paper)
    small_brief = question("briefing", "json", records=demo, today=TODAY)
    brief = question("briefing", "json", records=big, today=TODAY)
    return [
        ("first sheet", sheet),
        ("next sheet", sheet),
        ("bed map", bed_map),
        ("labels", labels),
        ("first filled form", filled),
        ("next filled form", filled),
        ("briefing of the demo garden", small_brief),
        (f"briefing of {N_BEDS} beds, nothing remembered", brief),
        (f"briefing of {N_BEDS} beds, again", brief),
    ]


def filled_form() -> str:
    """Return an invented lab's form as the core is handed it."""
    return b64encode(made_forms.fillable()).decode()


def with_form(records: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the records with a form matched for every lab."""
    one = {"field": "Grower name", "fill": "grower_name", "row": 1, "when": "", "words": ""}
    form = {"paper": SENT_SAMPLE, "fields": [one], "spots": []}
    return [
        each | {"doc": each["doc"] | {"form": form}} if each["kind"] == "lab_profile" else each
        for each in records
    ]


def run(phone: Phone, questions: list[tuple[str, list[str]]]) -> list[float]:
    """Return the seconds of the start and of each question."""
    [worker] = (WEB_BUILD / "assets").glob("worker-*.js")
    [core] = (WEB_BUILD / "engine").glob("core-*.zip")
    [index] = (WEB_BUILD / "engine").glob("pyodide-*/")
    times = phone.page.evaluate(
        RUN,
        {
            "worker": served(worker),
            "core": served(core),
            "index": f"{served(index)}/",
            "asked": [question for _, question in questions],
        },
    )
    return [milliseconds / 1000 for milliseconds in times]


def served(path: Path) -> str:
    """Return the address a built file is served at."""
    return f"/{path.relative_to(WEB_BUILD).as_posix()}"
