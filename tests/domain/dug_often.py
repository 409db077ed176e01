"""Beds that were rated more than once: several checks, several people, several seasons."""

from tests.domain.briefed import BED, PLANTING, bed, check, id_of, planting, rating

OTHER_BED, OTHER_PLANTING = id_of(1, 0x50), id_of(1, 0x51)


def checked(n, on, grades, own=PLANTING, scale="pct10", **changed):
    """The n-th root check of a garden, with a rating for each grade; None leaves a plant out."""
    each = id_of(n, 0x100)
    rated = [(plant, grade) for plant, grade in enumerate(grades) if grade is not None]
    ratings = [rating(plant, grade, own=each, scale=scale) for plant, grade in rated]
    own_ids = [{**one, "id": id_of(at, 0x900 + n)} for at, one in enumerate(ratings)]
    return [check(each, own, checked_on=on, gall_scale=scale, **changed), *own_ids]


def two_beds(treated, untreated, days=("2031-06-02", "2031-08-03"), **changed):
    """A treated bed and one left alone, each with a check before and after.

    ``changed`` may hold ``raters``, ``scales`` and ``days_other`` of the four or two checks.
    """
    raters, scales = (changed.get(name, (word,) * 4) for name, word in NAMED)
    other = planting(OTHER_PLANTING, OTHER_BED, **changed.get("grown_there", {}))
    records = [bed(), planting(), bed(OTHER_BED, name="South bed"), other]
    plantings = (PLANTING, PLANTING, OTHER_PLANTING, OTHER_PLANTING)
    four = (*treated, *untreated)
    when = (*days, *changed.get("days_other", days))
    for n, grades in enumerate(four):
        told = {"rater": raters[n], "how": changed.get("hows", ("random",) * 4)[n]}
        records += checked(n, when[n], grades, plantings[n], scales[n], **told)
    return records


NAMED = (("raters", ""), ("scales", "pct10"))


def seasons(*means, crops=None, hows=None, scales=None):
    """A bed rated once a year, four plants of one grade each time."""
    records = [bed()]
    for n, mean in enumerate(means):
        own, year = id_of(n, 0x61), 2020 + n
        crop = crops[n] if crops else "Okra"
        grown = {"from_on": f"{year}-05-02", "to_on": f"{year}-10-02"}
        records.append(planting(own, BED, crop=crop, crop_key="", grown=grown))
        how, scale = hows[n] if hows else "random", scales[n] if scales else "pct10"
        records += checked(n, f"{year}-09-01", [mean] * 4, own, scale, how=how)
    return records
