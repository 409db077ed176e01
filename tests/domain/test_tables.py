import itertools

import pytest
from matplotlib import colormaps

from gardens.domain.kinds import LOOK_ALIKES
from gardens.domain.scales import grade_for_percent_galled


def luminance(colour):
    """Relative luminance after WCAG 2.2."""
    digits = colour[1:] if len(colour) == 7 else "".join(2 * sign for sign in colour[1:])
    parts = [int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return sum(weight * p for weight, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one, other):
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_grade_colours_are_those_of_matplotlib(table):
    # matplotlib's cividis, reversed, sampled at grade / 10.
    for grade, fill in enumerate(table("grade_colours")["fills"]):
        expected = [round(255 * part) for part in colormaps["cividis_r"](grade / 10)[:3]]
        assert [int(fill[at : at + 2], 16) for at in (1, 3, 5)] == expected


def test_no_digit_could_be_read_on_every_grade_colour_itself(table):
    # Measured: 16.8 13.4 10.5 8.3 6.4 5.0 5.5 7.2 9.5 12.2 15.7. Grades 4 to 6 stay under 7:
    # the middle of the map is a mid grey. So screens set the digit on a plate of paper.
    fills = table("grade_colours")["fills"]
    measured = [max(contrast(fill, "#000"), contrast(fill, "#fff")) for fill in fills]
    assert [grade for grade, found in enumerate(measured) if found < 7] == [4, 5, 6]


def test_darker_is_always_worse(table):
    shades = [luminance(fill) for fill in table("grade_colours")["fills"]]
    assert all(one > other for one, other in itertools.pairwise(shades))


def test_crops_have_one_key_and_one_name_each(table):
    crops = table("crops")
    assert len(crops) >= 70
    assert len({crop["key"] for crop in crops}) == len({crop["name"] for crop in crops})
    assert len({crop["key"] for crop in crops}) == len(crops)
    assert all(crop["latin"] and crop["family"].endswith("aceae") for crop in crops)


def test_crops_dug_for_their_roots_are_marked(table):
    # Common practice, no source.
    marked = {crop["key"] for crop in table("crops") if crop["root_crop"]}
    assert {"carrot", "potato", "beet", "radish", "parsnip", "sweet_potato"} <= marked
    assert not marked & {"tomato", "lettuce", "okra", "fennel"}


def test_every_look_alike_a_rating_may_name_is_in_the_table(table):
    assert [row["key"] for row in table("look_alikes")] == list(LOOK_ALIKES)
    assert all(row["tell_tale"] for row in table("look_alikes"))


def paths(questions, key):
    for answer in questions[key]["answers"]:
        if "next" in answer:
            yield from ([key, *rest] for rest in paths(questions, answer["next"]))
        else:
            yield [key, answer]


def test_help_me_decide_asks_at_most_three_questions_and_ends_in_a_range(table):
    decide = table("decide")
    found = list(paths(decide["questions"], decide["start"]))
    assert {key for path in found for key in path[:-1]} == set(decide["questions"])
    for *asked, answer in found:
        assert 1 <= len(asked) <= 3
        assert 0 <= answer["low"] <= answer["high"] <= 10
        assert not (answer["trace_only"] and answer["low"] < 1)


def test_help_me_decide_can_end_at_every_grade(table):
    decide = table("decide")
    ends = [path[-1] for path in paths(decide["questions"], decide["start"])]
    reached = {grade for end in ends for grade in range(end["low"], end["high"] + 1)}
    assert reached == set(range(11))


@pytest.mark.parametrize(
    ("said", "percent"),
    [
        ("About a tenth, or less", 10),
        ("About a quarter", 25),
        ("About half", 50),
        ("About two thirds", 66.7),
        ("About three quarters", 75),
    ],
)
def test_help_me_decide_holds_the_grade_of_the_share_it_names(said, percent, table):
    questions = table("decide")["questions"].values()
    (answer,) = [a for question in questions for a in question["answers"] if a["say"] == said]
    assert answer["low"] <= grade_for_percent_galled(percent) <= answer["high"]


def test_every_nematode_has_a_line_and_free_living_ones_are_called_no_pests(table):
    rows = {row["key"]: row for row in table("other_nematodes")}
    assert len(rows) == len(table("other_nematodes")) >= 15
    assert all(row["name"] and row["latin"] and row["about"] for row in rows.values())
    assert rows["root_knot"]["sort"] == "root_knot"
    assert rows["other"]["sort"] == "not_listed"
    assert "Not pests" in rows["free_living"]["about"]
