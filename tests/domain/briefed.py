"""Makes the records of small gardens, and asks for their briefing."""

import json
from pathlib import Path

from gardens.domain.briefing import briefing

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"
TABLES = {p.stem: json.loads(p.read_text(encoding="utf-8")) for p in FIXTURES.glob("*.json")}
TODAY = "2031-08-10"
BED, PLANTING, CHECK = (f"01890a5d-ac96-774b-bcce-b302099a80{n}" for n in ("50", "51", "52"))


def brief(records, today=TODAY, holidays=None):
    """The briefing with the project's own tables."""
    return briefing(records, TABLES, today, holidays)


def only_bed(records, today=TODAY):
    """The one bed of a garden's briefing."""
    (bed,) = brief(records, today)["beds"]
    return bed


def codes(told):
    """The codes of the lines of a bed or of a garden."""
    return [line["code"] for line in told["lines"]]


def line(told, code):
    """The line with a code."""
    (found,) = [one for one in told["lines"] if one["code"] == code]
    return found


def record(kind, each, **doc):
    """One record as it is pulled."""
    return {"id": each, "kind": kind, "deleted": False, "doc": doc}


def id_of(n, kind=0):
    """An id for the n-th thing of its kind."""
    return f"01890a5d-{kind:04x}-7000-8000-{n:012x}"


def bed(each=BED, **changed):
    """A bed, 1.2 m by 3 m."""
    shape = {"type": "rectangle", "width_cm": 120, "length_cm": 300}
    return record("bed", each, **{"name": "North bed", "shape": shape, **changed})


def planting(each=PLANTING, own=BED, **changed):
    """Okra that stands."""
    grown = {"from_on": "2031-05-02", "to_on": None}
    doc = {"bed": own, "crop": "Okra", "crop_key": "okra", "grown": grown, "plants": []}
    return record("planting", each, **{**doc, **changed})


def check(each=CHECK, own=PLANTING, how="random", **changed):
    """A root check of plants chosen by chance."""
    chosen = {"how": how, "every_k": 3 if how == "every_kth" else None}
    doc = {"planting": own, "checked_on": "2031-08-03", "chosen": chosen}
    return record("root_check", each, **{**doc, **changed})


def rating(n, grade, own=CHECK, scale="pct10", state="rated", place=None, **changed):
    """What was seen on the n-th plant; plants stand in two rows, 60 cm apart."""
    x, y = place or (30 + 60 * (n % 2), 30 + 60 * (n // 2))
    reading = {"state": state, "grade": grade, "gall_scale": scale, "trace_only": False}
    doc = {
        "root_check": own,
        "place": {"x_cm": x, "y_cm": y, "plant": n + 1},
        "reading": reading,
        "rated_at": f"2031-08-03T09:{n % 60:02d}:00.000Z",
    }
    return record("gall_rating", id_of(n, int(own[-2:], 16)), **{**doc, **changed})


def dug(*grades, **changed):
    """A bed with one root check of these grades."""
    ratings = [rating(n, grade) for n, grade in enumerate(grades)]
    return [bed(), planting(), check(**changed), *ratings]
