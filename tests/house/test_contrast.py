import json

import pytest

from tests.house.contrast import ratio, themes
from tests.house.tree import ROOT

TOKENS = (ROOT / "frontend/src/styles/tokens.css").read_text()
GRADES = json.loads((ROOT / "fixtures/grade_colours.json").read_text())
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


def test_the_digit_on_a_grade_is_in_the_ink_that_reads_better():
    black, white = "#000000", "#ffffff"
    better = ["#000" if ratio(black, f) >= ratio(white, f) else "#fff" for f in GRADES["fills"]]
    assert GRADES["inks"] == better


def test_the_ratio_is_the_one_of_the_standard():
    assert ratio("#000000", "#ffffff") == pytest.approx(21)
    assert ratio("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


def test_a_pale_text_is_seen():
    pale = themes(":root { --ink: #999999; --paper: #ffffff; }")["light"]
    assert ratio(pale["--ink"], pale["--paper"]) < ENHANCED


def test_both_themes_are_read_from_the_file():
    assert themes(TOKENS)["light"]["--paper"] != themes(TOKENS)["dark"]["--paper"]
