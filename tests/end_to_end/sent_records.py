"""Records put into the garden from outside the screens, as another phone would send them."""

from datetime import UTC, datetime

from tests.end_to_end.demo_garden import BEDS, GARDEN

PUSH = """async ({garden, puts, at}) => {
  const {csrf, device} = await (await fetch("/api/v1/me")).json();
  const mutations = puts.map((put) => ({...put, op: "put", base: 0, at}));
  const body = JSON.stringify({proto: 1, schema: 1, device, sent_at: at, high: null, mutations});
  const headers = {"Content-Type": "application/json", "X-CSRFToken": csrf};
  const answer = await fetch(`/api/v1/gardens/${garden}/push`, {method: "POST", headers, body});
  return (await answer.json()).results.map(({status}) => status);
}"""
PLACES = [[15 + 30 * i, 45] for i in range(8)]


def _id(n):
    return f"019b0000-0000-7000-8000-{n:012x}"


def _check_of(crop_key, crop, code, grade, day):
    planting, check = _id(1), _id(2)
    yield (
        "planting",
        planting,
        {
            "bed": BEDS["Wall bed"],
            "crop": crop,
            "crop_key": crop_key,
            "resistance_code": code,
            "grown": {"from_on": "2026-05-01", "to_on": None},
            "plants": PLACES,
        },
    )
    yield (
        "root_check",
        check,
        {
            "planting": planting,
            "checked_on": day,
            "gall_scale": "pct10",
            "chosen": {"how": "every_kth", "every_k": 2},
            "n_plants_stood": 30,
        },
    )
    reading = {"state": "rated", "grade": grade, "gall_scale": "pct10", "trace_only": False}
    for i, (x, y) in enumerate(PLACES):
        place = {"x_cm": x, "y_cm": y, "plant": i + 1}
        rated = {
            "root_check": check,
            "reading": reading,
            "place": place,
            "rated_at": f"{day}T09:00:00Z",
        }
        yield "gall_rating", _id(10 + i), rated


def send_check(phone, crop_key, crop, *, code="", grade=6):
    """Put a planting into the Wall bed with eight plants rated today, all with one grade."""
    now = datetime.now(UTC)
    records = _check_of(crop_key, crop, code, grade, now.date().isoformat())
    puts = [
        {"mid": _id(1000 + n), "kind": kind, "id": each, "set": values}
        for n, (kind, each, values) in enumerate(records)
    ]
    asked = {"garden": GARDEN, "puts": puts, "at": now.strftime("%Y-%m-%dT%H:%M:%SZ")}
    statuses = phone.page.evaluate(PUSH, asked)
    assert set(statuses) == {"applied"}, statuses
