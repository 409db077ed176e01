"""One right document of every kind that a device may make, invented."""

BED = "01890a5d-ac96-774b-bcce-b302099a8057"
PLANTING = "01890a5d-ac96-774b-bcce-b302099a8058"
CHECK = "01890a5d-ac96-774b-bcce-b302099a8059"
LAB = "01890a5d-ac96-774b-bcce-b302099a8060"
SAMPLE = "01890a5d-ac96-774b-bcce-b302099a8061"
PAPER = "01890a5d-ac96-774b-bcce-b302099a8062"
COUNTED = {
    "taxon": "root_knot",
    "stage": "j2",
    "result": "counted",
    "count": 40,
    "per": "250 cc",
    "as_written": "RKN J2 40/250 cc",
}
FILLED = {"fill": "sample_code", "row": 1, "when": "", "words": ""}

RIGHT = {
    "garden": {"name": "Hillside plot"},
    "bed": {"name": "Long bed", "shape": {"type": "rectangle", "width_cm": 120, "length_cm": 300}},
    "planting": {
        "bed": BED,
        "crop": "Okra",
        "grown": {"from_on": "2031-05-02", "to_on": None},
        "plants": [[30, 40], [90, 40]],
    },
    "root_check": {
        "planting": PLANTING,
        "checked_on": "2031-08-03",
        "chosen": {"how": "every_kth", "every_k": 3},
    },
    "gall_rating": {
        "root_check": CHECK,
        "place": {"x_cm": 30, "y_cm": 40, "plant": 1},
        "reading": {"state": "rated", "grade": 4, "gall_scale": "pct10", "trace_only": False},
        "rated_at": "2031-08-03T09:30:00.000Z",
    },
    "photo": {
        "of": {"kind": "root_check", "id": CHECK},
        "sha256": "0f" * 32,
        "n_bytes": 240_000,
        "width_px": 1600,
        "height_px": 1200,
        "taken_at": "2031-08-03T09:31:00.000Z",
    },
    "lab_profile": {"name": "Example Soil Laboratory"},
    "soil_sample": {"bed": BED, "code": "K7M2H", "purpose": "diagnose"},
    "assay_report": {
        "soil_sample": SAMPLE,
        "reported_on": "2031-08-20",
        "examined": {"soil": "250 cc", "counted_pct": None},
        "found": [COUNTED],
    },
    "paper": {
        "of": {"kind": "lab_profile", "id": LAB},
        "name": "order form.pdf",
        "sha256": "0e" * 32,
        "n_bytes": 52_000,
    },
}
