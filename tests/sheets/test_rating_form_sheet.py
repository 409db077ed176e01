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
