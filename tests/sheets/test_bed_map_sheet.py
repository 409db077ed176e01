import dataclasses

import pytest

from gardens.domain.errors import DomainError
from gardens.domain.scales import read_scale
from gardens.sheets.bed_map import bed_map
from tests.sheets import paper
from tests.sheets.things_to_print import CORNER_BED, LINK, MAP, PLANTS, SCALES, mark


def said(sheet, size="a4"):
    return paper.flowing(bed_map(sheet, size))


ALL = {"how": "all", "every_k": None}


def changed(**values):
    return dataclasses.replace(MAP, **values)


def test_the_mean_stands_with_its_interval_its_count_and_its_scale():
    # Interval of 0, 1, 1, 2, 3, 5 from a bed of 12: 1.021 to 3.547 (scipy), outward.
    found = " ".join(paper.reader(bed_map(MAP, "a4")).pages[0].extract_text().split())
    assert "2.0 of 10; the bed's mean is likely 1.0 to 3.6 (95 % interval, our own method)" in found
    assert "6 rated of 12 that stood, 5 galled, 1 missing, 1 dead" in found
    assert "every third plant in digging order" in found
    assert "Tens of percent galled: percent of the root system galled, 0–10" in found
    assert "Roots dug 3 Aug 2031" in found
    assert "Mara" in found and "Roots washed in a bucket." in found


@pytest.mark.parametrize(
    ("values", "reason"),
    [
        ({"chosen": {"how": "worst_looking", "every_k": None}}, "plants you picked"),
        ({"chosen": ALL, "n_plants_stood": 8}, "of every plant in the bed"),
        ({"chosen": ALL, "n_plants_stood": None}, "not every plant dug"),
        (
            {"chosen": ALL, "n_plants_stood": None, "plants": PLANTS[:8]},
            "of every plant in the bed",
        ),
        ({"chosen": ALL, "n_plants_stood": None, "plants": ()}, "not every plant dug"),
        ({"chosen": ALL}, "not every plant dug"),
        ({"marks": (mark(1, 3), mark(2, 4))}, "two plants or fewer"),
        ({"marks": (mark(1, state="dead"),)}, "no plant rated yet"),
    ],
)
def test_a_mean_without_an_interval_says_why(values, reason):
    found = " ".join(paper.reader(bed_map(changed(**values), "a4")).pages[0].extract_text().split())
    assert reason in found
    assert "is likely" not in found


def test_a_scale_from_memory_is_named_as_such():
    sheet = changed(scale=read_scale("bp10", SCALES), marks=(mark(1, 3, gall_scale="bp10"),))
    found = " ".join(paper.reader(bed_map(sheet, "a4")).pages[0].extract_text().split())
    assert "Bridge and Page 1980" in found
    assert "its criteria are from memory" in found


def test_marks_of_two_scales_are_refused():
    with pytest.raises(DomainError) as refused:
        bed_map(changed(marks=(mark(1, 3), mark(2, 3, gall_scale="zeck10"))), "a4")
    assert refused.value.code == "scales_differ"


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize(
    "shape",
    [
        MAP.shape,
        CORNER_BED,
        {"type": "rectangle", "width_cm": 200, "length_cm": 250},
        {"type": "rectangle", "width_cm": 5000, "length_cm": 20},
        {"type": "rectangle", "width_cm": 20, "length_cm": 5000},
    ],
)
def test_a_map_is_one_page_whatever_the_bed_and_the_texts(shape, size):
    longest = changed(
        shape=shape,
        garden_name="G" * 120,
        bed_name="W" * 80,
        crop=dataclasses.replace(MAP.crop, crop="W" * 80, cultivar="W" * 80),
        rater="W" * 80,
        note="long " * 800,
    )
    assert len(paper.reader(bed_map(longest, size)).pages) == 1


def test_a_wide_bed_lies_on_the_long_side_of_the_page():
    box = paper.reader(bed_map(changed(shape=CORNER_BED, plants=(), marks=()), "a4")).pages[0]
    assert box.mediabox.width > box.mediabox.height


def test_each_rated_plant_carries_its_grade():
    grades = tuple(mark(number, number - 1) for number in range(1, 12))
    bare, drawn = (
        paper.text(bed_map(changed(marks=marks, n_plants_stood=None), "a4")).split()
        for marks in (grades[:0], grades)
    )
    for grade in map(str, range(1, 10)):
        assert drawn.count(grade) - bare.count(grade) == 1


def test_four_hundred_plants_still_fit_on_a_map():
    plants = tuple((10 + 12 * column, 10 + 10 * row) for row in range(40) for column in range(10))
    marks = tuple(
        dataclasses.replace(mark(1, n % 11), x_cm=x, y_cm=y, plant=n + 1)
        for n, (x, y) in enumerate(plants)
    )
    sheet = changed(plants=plants, marks=marks, n_plants_stood=400)
    assert "400 rated of 400 that stood" in said(sheet)


def test_plants_outside_a_bed_redrawn_since_are_still_on_the_page():
    small = changed(shape={"type": "rectangle", "width_cm": 100, "length_cm": 100})
    for picture in paper.pictures(bed_map(small, "letter"), dpi=72):
        assert paper.ink_in_margins(picture, 22) == 0


@pytest.mark.parametrize("shape", [MAP.shape, CORNER_BED])
def test_a_phone_reads_the_qr_of_the_check(shape):
    (page,) = paper.pictures(bed_map(changed(shape=shape, marks=(), plants=()), "a4"))
    assert [text for text, _ in paper.scanned(page)] == [LINK]


def test_a_map_without_a_link_has_no_qr():
    (page,) = paper.pictures(bed_map(changed(link=""), "a4"))
    assert paper.scanned(page) == []


def test_every_plant_has_its_number_beside_it_smaller_than_any_grade():
    digits = [
        (said.strip(), points)
        for _, said, points, *_ in paper.letters(bed_map(changed(marks=()), "a4"))
        if said.strip().isdecimal() and points < 9
    ]
    key = ["12"]
    assert [number for number, _ in digits] == [*(str(n + 1) for n in range(len(PLANTS))), *key]
    assert all(6 <= points <= 8 for _, points in digits)


def test_a_rated_plant_keeps_its_number_so_that_paper_and_phone_can_be_compared():
    bare, rated = (
        paper.text(bed_map(changed(marks=marks, n_plants_stood=None, note=""), "a4")).split()
        for marks in ((), (mark(17, 5),))
    )
    assert rated.count("17") == bare.count("17") == 1


def test_plant_one_is_where_the_map_says_start():
    assert "start" in said(MAP)
    assert "start" not in said(changed(plants=(), marks=()))


@pytest.mark.parametrize(("key", "ranks"), [("pct10", False), ("bp10", True), ("zeck10", True)])
def test_a_mean_of_unequal_steps_is_called_a_mean_of_ranks(key, ranks):
    marks = tuple(mark(number, 3, gall_scale=key) for number in (1, 4, 7))
    found = said(changed(scale=read_scale(key, SCALES), marks=marks))
    assert ("mean of ranks" in found) is ranks
