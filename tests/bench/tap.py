"""From the tap on a grade to the committed save on the phone, with 5,000 ratings on it.

Both moments are taken inside the page: the time stamp of the tap's own event, and the completion of
the IndexedDB transaction that holds the rating and its outbox entry.
"""

from playwright.sync_api import Page

from tests.bench.figures import Figure, beside, percentile, within
from tests.bench.scene import Caller, batches, new_id, put, ratings, root_check, running_server
from tests.bench.slowphone import signed_in, slow_down
from tests.end_to_end.demo_garden import BEDS

N_ON_PHONE, N_CHECKS = 5000, 50
N_TAPS, BUDGET_MS = 100, 100

WATCH = """(() => {
  const taps = [], saves = [];
  const plain = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (stores, mode) {
    const made = plain.apply(this, arguments);
    const holds = mode === "readwrite" && [...made.objectStoreNames].includes("outbox");
    if (holds) made.addEventListener("complete", () => saves.push(performance.now()));
    return made;
  };
  addEventListener("click", (event) => taps.push(event.timeStamp), true);
  window.watched = { taps, saves };
})()"""
TIMES = "() => watched.taps.map(tap => Math.min(...watched.saves.filter(s => s > tap)) - tap)"

# The same two rows into a database of nothing else, as the browser alone does it.
BARE = """async (rows) => {
  const opening = indexedDB.open("bench", 1);
  opening.onupgradeneeded = () => {
    opening.result.createObjectStore("a", { autoIncrement: true });
    opening.result.createObjectStore("b", { autoIncrement: true });
  };
  await new Promise((done) => (opening.onsuccess = done));
  const times = [];
  for (const row of rows) {
    const began = performance.now();
    const both = opening.result.transaction(["a", "b"], "readwrite", { durability: "strict" });
    both.objectStore("a").put(row);
    both.objectStore("b").put(row);
    await new Promise((done) => (both.oncomplete = done));
    times.push(performance.now() - began);
  }
  return times;
}"""


def measure() -> list[Figure]:
    """Rate a long row of plants with the server gone."""
    with running_server() as server:
        check = fill(Caller(server))
        with signed_in(server) as phone:
            server.kill()
            phone.page.add_init_script(WATCH)
            phone.open(f"/checks/{check}")
            slow_down(phone.page)
            for number in range(N_TAPS):
                phone.rate(number % 11)
            taps = percentile(times(phone.page), 0.95)
            bare = percentile(phone.page.evaluate(BARE, ratings(N_TAPS)), 0.95)
    name = f"tap to committed save, p95 of {N_TAPS}, 4x slow"
    return [
        within(f"{name}, {N_ON_PHONE} ratings", taps, BUDGET_MS, "ms"),
        beside(f"{name}, bare", taps / 1000, bare / 1000, "IndexedDB alone"),
    ]


def times(page: Page) -> list[float]:
    """Return the milliseconds of each tap; every one has to have been saved."""
    found = [one for one in page.evaluate(TIMES) if one is not None]
    if len(found) != N_TAPS:
        raise RuntimeError(f"{len(found)} of {N_TAPS} taps were saved")
    return found


def fill(caller: Caller) -> str:
    """Bring 5,000 ratings to the garden, and an empty check of a planting of 100 plants."""
    planting, empty = new_id(), new_id()
    values = {
        "bed": BEDS["Wall bed"],
        "crop": "Carrot",
        "grown": {"from_on": "2026-03-01", "to_on": None},
    }
    plants = [[10 + place % 10 * 5, 10 + place // 10 * 5] for place in range(N_TAPS)]
    items = [put("planting", planting, **values, plants=plants), root_check(planting, empty)]
    for _ in range(N_CHECKS):
        check = new_id()
        items += [root_check(planting, check), *ratings(N_ON_PHONE // N_CHECKS, check)]
    for batch in batches(items):
        caller.push(batch)
    return empty
