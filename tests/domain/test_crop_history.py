from gardens.domain.crop_history import CropGrown, crop_history, read_crop


def crop(name, from_on, to_on=None, planting=None):
    return CropGrown(name, "", "", from_on, to_on, planting)


def names(crops):
    return [each.crop for each in crops]


def test_crops_come_newest_first():
    grown = [
        crop("Leek", "2029-09-01", "2030-03-01"),
        crop("Okra", "2031-05-01"),
        crop("Carrot", "2030-04-01", "2030-08-01"),
    ]
    found = crop_history(grown, "2031-07-01")
    assert names(found.current) == ["Okra"]
    assert names(found.previous) == ["Carrot", "Leek"]


def test_two_crops_that_overlap_are_both_current():
    grown = [crop("Tomato", "2031-05-01", "2031-10-01"), crop("Basil", "2031-06-01", "2031-09-01")]
    assert names(crop_history(grown, "2031-07-01").current) == ["Basil", "Tomato"]


def test_the_last_day_of_a_crop_still_counts_and_the_next_does_not():
    grown = [crop("Bean", "2031-05-01", "2031-07-01")]
    assert names(crop_history(grown, "2031-07-01").current) == ["Bean"]
    assert names(crop_history(grown, "2031-07-02").previous) == ["Bean"]


def test_a_crop_planted_later_is_neither_now_nor_before():
    found = crop_history([crop("Onion", "2031-10-01")], "2031-07-01")
    assert found.current == found.previous == ()


def test_the_planting_a_sample_was_taken_for_is_current_even_after_its_end():
    grown = [crop("Bean", "2031-05-01", "2031-07-01", planting="b"), crop("Kale", "2031-07-05")]
    found = crop_history(grown, "2031-07-10", sampled="b")
    assert names(found.current) == ["Kale", "Bean"]


def test_a_crop_is_read_from_a_planting():
    doc = {
        "crop": "Okra",
        "cultivar": "Red Lantern",
        "resistance_code": "",
        "grown": {"from_on": "2031-05-01", "to_on": None},
    }
    assert read_crop(doc, "id") == CropGrown("Okra", "Red Lantern", "", "2031-05-01", None, "id")
