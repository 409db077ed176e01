from tests.domain.briefed import bed, brief, check, id_of, planting, rating


def one_bed(n, name, *grades, scale="pct10", how="random", stood=None):
    """A bed with a name and one root check."""
    own, crop, made = (id_of(n, kind) for kind in (0x50, 0x51, 0x52))
    ratings = [
        rating(20 * n + at, grade, own=made, scale=scale, place=(30, 30 + 40 * at))
        for at, grade in enumerate(grades)
    ]
    digging = check(made, crop, how=how, gall_scale=scale, n_plants_stood=stood)
    return [bed(own, name=name), planting(crop, own), digging, *ratings]


def told(*beds):
    """The garden's own lines about where to work last."""
    lines = brief([record for one in beds for record in one])["lines"]
    return [line for line in lines if line["code"] == "beds_worked_last"]


HEAVY, LIGHT = (7, 8, 7, 8, 7, 8), (0, 1, 0, 1, 1, 0)


def test_the_more_galled_beds_are_to_be_worked_last_with_the_means_as_a_reason():
    (line,) = told(one_bed(1, "Low bed", *LIGHT), one_bed(2, "High bed", *HEAVY))
    assert line["about"] == "next"
    assert line["words"].startswith(
        "Work in High bed last: roots were galled more there than in Low bed."
    )
    assert "not how many nematodes" in line["how_sure"]
    reasons = [one["words"] for one in line["because"]]
    assert any(one.startswith("Mean grades: High bed 7.5 (") for one in reasons)
    assert line["settle"] and set(line["sources"]) >= {"our_bounded_interval"}


def test_three_beds_are_named_and_the_rest_counted():
    light = [one_bed(n, f"Bed {n}", *LIGHT) for n in range(3, 8)]
    (line,) = told(one_bed(2, "High bed", *HEAVY), *light)
    assert "than in Bed 3, Bed 4, Bed 5 and 2 more." in line["words"]


def test_a_bed_in_between_is_counted_as_left_out():
    between = one_bed(3, "Middle bed", 0, 10, 5, 2, 8, 4)
    (line,) = told(one_bed(1, "Low bed", *LIGHT), one_bed(2, "High bed", *HEAVY), between)
    reasons = [one["words"] for one in line["because"]]
    assert "In between, 1 bed is left out: the intervals overlap." in reasons
    assert "Middle bed" not in line["words"]


def test_a_bed_dug_whole_counts_with_its_mean():
    whole = one_bed(1, "Low bed", 0, 1, 0, how="all", stood=3)
    (line,) = told(whole, one_bed(2, "High bed", *HEAVY))
    reasons = [one["words"] for one in line["because"]]
    assert any("Low bed 0.3, every plant rated" in one for one in reasons)


def test_other_scales_and_picked_plants_are_not_set_beside_the_rest():
    high = one_bed(2, "High bed", *HEAVY)
    assert told(one_bed(1, "Low bed", *LIGHT, scale="zeck10"), high) == []
    assert told(one_bed(1, "Low bed", *LIGHT, how="worst_looking"), high) == []
    assert told(one_bed(1, "Low bed", *LIGHT)) == []
