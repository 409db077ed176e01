import dataclasses

import pytest

from gardens.domain.scales import read_scale
from gardens.sheets.rating_form import rating_form
from tests.sheets import paper
from tests.sheets.things_to_print import FORM, SCALES


def said(form, size="a4"):
    return " ".join(
        " ".join(
            page.extract_text() for page in paper.reader(rating_form(form, size)).pages
        ).split()
    )


@pytest.mark.parametrize("key", ["pct10", "bp10", "zeck10"])
@pytest.mark.parametrize("size", ["a4", "letter"])
def test_every_grade_stands_on_the_form_with_its_words(key, size):
    scale = read_scale(key, SCALES)
    found = said(dataclasses.replace(FORM, scale=scale), size).replace("\u00a0", " ")
    for grade in scale.grades:
        assert f"{grade.grade} {grade.words}" in found
    assert ("from memory" in found) is scale.from_memory


@pytest.mark.parametrize("asked", ["Day", "Rated by", "Plants standing", "Remarks", "missing"])
def test_what_a_check_needs_is_asked(asked):
    assert asked in said(FORM)


def test_the_ways_to_choose_plants_can_be_ticked():
    found = said(FORM)
    for way in ("☐ every plant", "☐ every ____th", "☐ drawn at random", "☐ worst-looking"):
        assert way in found.replace("\u00a0", " ")


def test_eighteen_plants_fit_on_one_page_of_a4():
    assert len(paper.reader(rating_form(FORM, "a4")).pages) == 1


def test_every_plant_has_a_row_and_every_page_its_heading():
    plants = tuple((10 + 12 * column, 10 + 10 * row) for row in range(40) for column in range(10))
    form = rating_form(dataclasses.replace(FORM, plants=plants), "letter")
    pages = [page.extract_text() for page in paper.reader(form).pages]
    assert all("missing" in page and "Remarks" in page for page in pages)
    rows = " ".join(page.split("Remarks")[-1] for page in pages).split()
    assert {str(number) for number in range(1, 401)} <= set(rows)


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_a_planting_without_positions_gets_a_page_of_free_rows(size):
    form = rating_form(dataclasses.replace(FORM, plants=()), size)
    assert len(paper.reader(form).pages) == 1


def of_the_map(form):
    """Digits on the map and their sizes: all others have the size of the text, 11 pt."""
    found = paper.letters(rating_form(form, "a4"))
    return {
        said.strip(): points
        for _, said, points, *_ in found
        if abs(points - 11) > 0.05 and said.strip().isdecimal()
    }


WIDE = {"type": "rectangle", "width_cm": 1000, "length_cm": 120}


@pytest.mark.parametrize(
    ("shape", "columns", "apart", "all_numbered"),
    [
        (FORM.shape, 2, 45, True),
        (WIDE, 20, 45, True),
        ({"type": "rectangle", "width_cm": 120, "length_cm": 490}, 10, 16, False),
    ],
)
def test_numbers_on_the_map_of_a_form_can_be_read(shape, columns, apart, all_numbered):
    across = shape["width_cm"] / columns
    plants = tuple(
        (int((i % columns + 0.5) * across), 20 + apart * (i // columns))
        for i in range(columns * int((shape["length_cm"] - 20) / apart))
    )
    found = of_the_map(dataclasses.replace(FORM, shape=shape, plants=plants))
    assert all(points >= 8 for points in found.values())
    assert (len(found) == len(plants)) is all_numbered
    assert "1" in found
    assert "start" in said(dataclasses.replace(FORM, shape=shape, plants=plants))


def test_a_wide_bed_takes_the_width_of_the_page():
    plants = tuple((20 + 45 * i, 60) for i in range(20))
    found = paper.letters(rating_form(dataclasses.replace(FORM, shape=WIDE, plants=plants), "a4"))
    at = {text.strip(): x for _, text, points, x, _ in found if abs(points - 11) > 0.05}
    assert at["20"] - at["1"] > 400
