import re

import pytest

from tests.house.contrast import ratio, themes
from tests.house.tree import ROOT

TOKENS = (ROOT / "frontend/src/styles/tokens.css").read_text()
SOURCES = ROOT / "frontend/src"
READ_ON_PAPER = ["--ink", "--ink-soft", "--accent", "--danger", "--warning", "--good"]
ENHANCED, GRAPHIC = 7.0, 3.0  # WCAG 2.2: 1.4.6 (AAA text) and 1.4.11 (non-text)


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("paper", ["--paper", "--paper-low"])
@pytest.mark.parametrize("text", READ_ON_PAPER)
def test_what_is_read_on_paper_has_a_contrast_of_seven(theme, paper, text):
    colours = themes(TOKENS)[theme]
    assert ratio(colours[text], colours[paper]) >= ENHANCED


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_what_is_read_on_the_accent_has_a_contrast_of_seven(theme):
    colours = themes(TOKENS)[theme]
    assert ratio(colours["--on-accent"], colours["--accent"]) >= ENHANCED


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_lines_that_carry_meaning_have_a_contrast_of_three(theme):
    colours = themes(TOKENS)[theme]
    assert ratio(colours["--line"], colours["--paper"]) >= GRAPHIC


def drawn_with(style, component):
    """Return the fill token of a class or tag in a component's style."""
    css = (SOURCES / component).read_text().partition("<style>")[2]
    [block] = re.findall(rf"(?m)^  {re.escape(style)} {{\n(.*?)\n  }}", css, re.DOTALL)
    return re.search(r"fill: var\((--[\w-]+)\)", block)[1]


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_the_digit_of_a_grade_has_a_contrast_of_seven_on_its_plate(theme):
    colours = themes(TOKENS)[theme]
    digit = colours[drawn_with("text", "components/GradeDisc.svelte")]
    assert ratio(digit, colours[drawn_with(".plate", "components/GradeDisc.svelte")]) >= ENHANCED


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_the_number_of_a_plant_has_a_contrast_of_seven_in_its_circle(theme):
    colours = themes(TOKENS)[theme]
    number = colours[drawn_with("text", "components/PlantMark.svelte")]
    assert ratio(number, colours[drawn_with(".open", "components/PlantMark.svelte")]) >= ENHANCED


def test_only_the_disc_writes_on_the_colour_of_a_grade():
    fills = [p for p in SOURCES.rglob("*.svelte") if "gradeLook" in p.read_text()]
    assert "GradeDisc.svelte" in {p.name for p in fills}
    writing = [p.name for p in fills if re.search(r"<text\b[^>]*(fill=|style:fill)", p.read_text())]
    assert writing == []


def test_the_ratio_is_the_one_of_the_standard():
    assert ratio("#000000", "#ffffff") == pytest.approx(21)
    assert ratio("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


def test_a_pale_text_is_seen():
    pale = themes(":root { --ink: #999999; --paper: #ffffff; }")["light"]
    assert ratio(pale["--ink"], pale["--paper"]) < ENHANCED


def test_both_themes_are_read_from_the_file():
    assert themes(TOKENS)["light"]["--paper"] != themes(TOKENS)["dark"]["--paper"]
