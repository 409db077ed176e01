import pytest

from gardens.domain.agreement import Concordance, Practice
from gardens.domain.briefing.lines import filled
from gardens.domain.check_lines import (
    efficacy_line,
    incidence_line,
    more_line,
    pattern_line,
    practice_lines,
    raters_line,
    surface_line,
)
from gardens.domain.efficacy import Cells, Efficacy, efficacy_of_composites
from gardens.domain.effort import More
from gardens.domain.incidence import incidence
from gardens.domain.pattern import Pattern
from gardens.domain.raters import Raters
from gardens.domain.surface import Surface

HELPER = Concordance(22, 0.9, 0.95, 0.95, 1.0, 0.1, -0.3, 20 / 22)
EVERY = [
    *(
        incidence_line(incidence(*one))
        for one in (
            ([], "random", False, 12),
            ([2, 0], "worst_looking", False, 12),
            ([2, 0], "all", True, None),
            ([2, 0, 0], "random", False, 12),
            ([0] * 6, "random", False, 12),
            ([0] * 5, "random", False, None),
        )
    ),
    *(more_line(More(code, 2, 8)) for code in ("too_early", "enough", "dig_more")),
    *(
        pattern_line(Pattern(code, 12))
        for code in ("too_few", "all_equal", "hint", "patchy", "no_sign_yet", "no_sign")
    ),
    *(
        surface_line(Surface(code, few, 10))
        for code in ("drawn", "too_few", "all_equal", "place_did_not_help")
        for few in (True, False)
    ),
    *practice_lines(HELPER, Practice(False, ("too_few_photos",), ("rates_high",)), 22),
    *practice_lines(HELPER, Practice(False, ("agreement", "bias", "within_one"), ()), 22),
    *practice_lines(HELPER, Practice(False, ("agreement",), ("rates_low", "avoids_ends")), 22),
    *practice_lines(HELPER, Practice(True, (), ()), 22),
    *(
        raters_line(Raters(code, 3, 12))
        for code in ("too_few", "no_spread", "may_be_mixed", "differ_too_much")
    ),
    efficacy_line(None),
    efficacy_line(Efficacy("none_recovered")),
    efficacy_line(Efficacy("none_recovered", at_least=88.7)),
    efficacy_line(efficacy_of_composites(Cells(180, 40, 150, 200), 10)),
    efficacy_line(efficacy_of_composites(Cells(180, 40, 150, 200), 5)),
    *(
        efficacy_line(Efficacy("interval", *ends, se=se))
        for ends, se in (
            ((-20, -80, 10), 0.2),
            ((-50, -90, -20), 0.2),
            ((40, -400, 97), 0.9),
            ((60, 60, 60), 0.0),
            ((-60, -60, -60), 0.0),
        )
    ),
    efficacy_line(Efficacy("none_recovered", at_least=0.0)),
]


@pytest.mark.parametrize("line", EVERY, ids=lambda line: line.code)
def test_every_finding_has_words_that_fit_its_numbers(line, table):
    row = table("verdicts")[line.code]
    assert "{" not in filled(row["words"], line.params)
    assert set(row.get("assumptions", [])) <= set(table("judgements"))


def words(line, table):
    return filled(table("verdicts")[line.code]["words"], line.params)


def test_a_small_bed_without_a_gall_is_told_in_plants(table):
    line = incidence_line(incidence([0] * 6, "every_kth", False, 12))
    assert words(line, table).startswith("6 of 12 dug, none galled: at most 3 of the 12")


def test_at_least_is_never_rounded_up(table):
    line = efficacy_line(Efficacy("none_recovered", at_least=88.97))
    assert words(line, table).endswith("a reduction of at least 88 %.")


def test_an_interval_on_both_sides_of_nothing_is_not_settled(table):
    line = efficacy_line(efficacy_of_composites(Cells(180, 40, 150, 200), 5))
    assert line.code == "efficacy_not_settled"
    assert "anything from 2 % more to 98 % fewer" in words(line, table)


def test_more_than_without_the_treatment_is_told_as_more(table):
    more = words(efficacy_line(Efficacy("interval", -50, -90.2, -19.7, se=0.2)), table)
    assert more == "About 50 % more than without the treatment; likely 19 to 91 % more."
    wide = words(efficacy_line(Efficacy("interval", 40, -400, 97, se=0.9)), table)
    assert "twice as many or more to 97 % fewer" in wide


def test_some_after_the_treatment_are_never_told_as_a_hundred_percent_fewer(table):
    line = efficacy_line(Efficacy("interval", 99.8, 99.1, 99.97, se=0.3))
    assert words(line, table).startswith("More than 99 % fewer")
    nearly = efficacy_line(Efficacy("interval", 98.7, 96.1, 99.97, se=0.3))
    assert words(nearly, table).endswith("likely between 96 and 99 %.")


def test_none_recovered_with_too_little_soil_is_no_reduction(table):
    said = words(efficacy_line(Efficacy("none_recovered", at_least=0.0)), table)
    assert "no reduction can be told" in said and "0 %" not in said


def test_what_one_line_about_a_helper_tells_no_other_repeats():
    high = practice_lines(HELPER, Practice(False, ("bias",), ("rates_high",)), 22)
    assert [line.code for line in high] == ["practice_not_yet", "practice_rates_high"]
    few = practice_lines(HELPER, Practice(False, ("too_few_photos", "agreement"), ()), 22)
    assert [line.code for line in few] == ["practice_not_yet", "practice_too_few_photos"]


def test_two_people_are_called_by_their_names(table):
    lines = practice_lines(HELPER, Practice(True, (), ("rates_low",)), 22, "Ada", "Ben")
    assert words(lines[0], table) == "Ben and Ada grade alike: 20 of 22 within one grade."
    assert words(lines[1], table) == "Ben tends to grade lower than Ada, by 0.3 on average."
