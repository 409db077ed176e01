from tests.domain.briefed import (
    CHECK,
    bed,
    check,
    codes,
    dug,
    id_of,
    line,
    only_bed,
    planting,
    rating,
)

SLOPE = [9, 9, 8, 7, 5, 4, 1, 0, 0, 0]
CHECKERS = [9, 0, 0, 9, 9, 0, 0, 9, 9, 0]


def test_a_sloping_bed_is_mapped_and_its_worst_end_is_told():
    told = only_bed(dug(*SLOPE))
    surface = told["surface"]
    assert surface["gate"] == "open"
    assert len(surface["values"]) == surface["n_columns"] * surface["n_rows"]
    assert len(surface["ground"]) == len(surface["values"])
    assert surface["pattern"] == {"code": "hint", "p_band": "at most 1 in 100"}
    assert (surface["values"][0] or 0) > (surface["values"][-1] or 0)
    assert "20 cm from the top" in line(told, "map_worst_spot")["words"]


def test_ground_nobody_dug_is_hatched_and_has_no_grade():
    long = {"type": "rectangle", "width_cm": 120, "length_cm": 900}
    records = [bed(shape=long) if one["kind"] == "bed" else one for one in dug(*SLOPE)]
    surface = only_bed(records)["surface"]
    squares = list(zip(surface["values"], surface["ground"], strict=True))
    assert {ground for _, ground in squares} >= {"full", "hatch"}
    blank = {"hatch", "outside"}
    assert all((value is None) == (ground in blank) for value, ground in squares)


def test_squares_outside_a_bent_bed_are_outside():
    bent = {
        "type": "outline",
        "points_cm": [[0, 0], [120, 0], [120, 150], [60, 150], [60, 300], [0, 300]],
    }
    records = [bed(shape=bent) if one["kind"] == "bed" else one for one in dug(*SLOPE)]
    surface = only_bed(records)["surface"]
    assert (surface["values"][-1], surface["ground"][-1]) == (None, "outside")
    assert surface["ground"][0] != "outside"


def test_where_place_does_not_help_nothing_is_drawn():
    told = only_bed(dug(*CHECKERS))
    assert (told["surface"]["gate"], told["surface"]["values"]) == ("closed", [])
    assert told["surface"]["pattern"]["code"] == "no_sign_yet"
    assert "surface_place_did_not_help" in codes(told)
    assert "map_worst_spot" not in codes(told)


def test_seven_plants_are_too_few_for_a_map():
    told = only_bed(dug(*SLOPE[:7]))
    assert told["surface"] is None
    assert "pattern_too_few" in codes(told)


def test_equal_grades_have_no_pattern():
    told = only_bed(dug(*[4] * 10))
    assert told["surface"]["pattern"]["code"] == "all_equal"
    assert "pattern_all_equal" in codes(told)


def crop(n, key, grades, **changed):
    own, checked = id_of(n, 0x51), id_of(n, 0x60 + n)
    ratings = [rating(at, grade, own=checked) for at, grade in enumerate(grades)]
    for at, one in enumerate(ratings):
        one["id"] = id_of(at, 0x100 + n)
    return [planting(own, crop=key, crop_key=key, **changed), check(checked, own), *ratings]


def test_peanut_without_galls_beside_galled_tomato_is_a_hint_and_no_more():
    told = only_bed([bed(), *crop(1, "peanut", [0, 0, 0, 0]), *crop(2, "tomato", [5, 6, 4, 7])])
    species = told["species"]
    assert len(species["consistent_with"]) >= 2
    assert "M. hapla" not in [one["species"] for one in species["consistent_with"]]
    assert "Peanut has no galls" in species["why"][0]
    assert "are consistent with" in line(told, "species_hint")["words"]
    assert "differential_hosts_memory" in line(told, "species_hint")["sources"]


def test_a_galled_sweet_potato_with_stated_resistance_asks_for_identification():
    told = only_bed([bed(), *crop(1, "sweet_potato", [5, 6, 4, 7], resistance_code="HR: Mi")])
    assert told["species"]["send_for_identification"] is True
    assert {"species_identify", "species_may_be_regulated"} <= set(codes(told))


def test_a_crop_that_every_species_galls_says_nothing_of_the_species():
    assert only_bed(dug(5, 6, 7))["species"] is None


def test_peanuts_of_another_season_or_look_alikes_do_not_count():
    old = crop(1, "peanut", [0, 0, 0, 0])
    old[1]["doc"]["checked_on"] = "2030-07-01"
    assert only_bed([bed(), *old, *crop(2, "tomato", [5, 6, 4, 7])])["species"] is None
    alike = crop(1, "peanut", [4, 5, 4, 5])
    for one in alike[2:]:
        one["doc"]["look_alike"] = "legume_nodules"
    assert only_bed([bed(), *alike])["species"] is None


def test_the_check_the_map_is_of_is_named():
    assert only_bed(dug(*SLOPE))["surface"]["root_check"] == CHECK
