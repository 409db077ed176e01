"""Records of bags, reports and pots of one bed, invented, for the briefing's tests."""

from tests.domain.briefed import BED, brief, id_of, planting, rating, record

LAB, BAG, REPORT = id_of(1, 0x1AB), id_of(1, 0x5A), id_of(1, 0xA5)
POTS, POT_CHECK = id_of(1, 0x70), id_of(2, 0x71)


def lab(**changed):
    return record("lab_profile", LAB, **{"name": "Valley soil room", **changed})


def bag(**changed):
    doc = {
        "bed": BED,
        "code": "K7M2H",
        "purpose": "predict",
        "lab_profile": LAB,
        "lifted_at": "2031-08-04T09:00:00.000Z",
        "n_cores": 10,
        "moisture": "just_moist",
        "parcel": {"sent_on": "2031-08-04", "arrived_on": "2031-08-06"},
        "warmth": {"warmest_celsius": 22, "coldest_celsius": 14, "in_sun": False},
    }
    return record("soil_sample", BAG, **{**doc, **changed})


def found(count=None, per="100 cc", taxon="root_knot", stage="j2", result=None):
    result = result or ("none_recovered" if count is None else "counted")
    return {
        "taxon": taxon,
        "stage": stage,
        "result": result,
        "count": count,
        "per": per,
        "as_written": "",
    }


def report(*findings, each=REPORT, soil="100 cc", counted_pct=None, **changed):
    doc = {
        "soil_sample": BAG,
        "reported_on": "2031-08-20",
        "method": "tray",
        "examined": None if soil is None else {"soil": soil, "counted_pct": counted_pct},
        "found": list(findings),
    }
    return record("assay_report", each, **{**doc, **changed})


def pots(*galls, blank=0, sown_on="2031-07-01", looked_on="2031-07-26", crop="tomato"):
    """A pot test with a pot for each number of galls and a blank one, looked at."""
    n = len(galls) + 1
    set_up = {"n_pots": n, "blank_pot": n, "soil_cm3_per_pot": 700, "soil_sample": None}
    grown = {"from_on": sown_on, "to_on": looked_on}
    sown = planting(POTS, crop="Tomato", crop_key=crop, grown=grown, pots=set_up)
    chosen = {"how": "all", "every_k": None}
    check = record(
        "root_check", POT_CHECK, planting=POTS, checked_on=looked_on or sown_on, chosen=chosen
    )
    if looked_on is None:
        return [sown]
    counted = [
        rating(at, min(10, each), own=POT_CHECK, n_galls=each)
        for at, each in enumerate([*galls, blank])
    ]
    return [sown, check, *counted]


def soil_of(*records, today="2031-08-25", holidays=None):
    """What is told of the soil of the one bed."""
    (only,) = brief(list(records), today, holidays)["beds"]
    return only["soil"]


def told(soil, code):
    """The line with a code."""
    (found_line,) = [one for one in soil["lines"] if one["code"] == code]
    return found_line


def codes_of(soil):
    return [one["code"] for one in soil["lines"]]
