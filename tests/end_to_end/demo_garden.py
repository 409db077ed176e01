"""What the tests know of the demo garden, by the names a person sees."""

import json

from gardens.services.demo import RECORDS

DEMO_PASSWORD = "four-figs-and-a-wall"  # pinned for the tests; every other demo makes its own
CONTENT = json.loads(RECORDS.read_text(encoding="utf-8"))
GARDEN = CONTENT["garden"]


def ids_by(kind, field):
    """Map a field's value to the record's id."""
    items = [item for item in CONTENT["mutations"] if item["kind"] == kind]
    return {item["set"][field]: item["id"] for item in items}


BEDS = ids_by("bed", "name")
CHECKS = ids_by("root_check", "checked_on")
SAMPLES = ids_by("soil_sample", "code")
PLANTINGS = ids_by("planting", "crop")
LAB = next(iter(ids_by("lab_profile", "name").values()))
SENT_SAMPLE, UNSENT_SAMPLE = SAMPLES["K7M2H"], SAMPLES["R4THB"]
REPORT = next(iter(ids_by("assay_report", "reported_on").values()))
POTS = next(i["id"] for i in CONTENT["mutations"] if i["set"].get("pots"))
POTS_CHECK = ids_by("root_check", "planting")[POTS]
LATEST_CHECK_OF_WELL_ELBOW = CHECKS["2026-11-14"]

N_DEMO_RATINGS = 76
