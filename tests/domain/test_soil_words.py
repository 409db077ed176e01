import itertools
import re
import string
from pathlib import Path

import pytest

import gardens.domain
from gardens.domain.briefing.lines import filled
from gardens.domain.contradictions import Signs, contradictions
from gardens.domain.count_interval import Examined
from gardens.domain.evidence import evidence_line, evidence_reasons, weigh
from gardens.domain.findings import Found, PotTest, SoilCount, UngalledRoots
from gardens.domain.none_recovered import none_recovered
from gardens.domain.shipping import rank_ship_days, read_courier, read_lab
from gardens.domain.thresholds import Spread, set_beside
from gardens.domain.transit import Journey, handling

WRITTEN = Path(gardens.domain.__file__).parent
WEEK = [0, 1, 2, 3, 4]
ABOUT = re.compile(r"none_recovered|bag_|ship_|evidence_|threshold_|contra_")
FOUND = (
    Found(SoilCount(0, 100, 10), PotTest(0, 2000, 20), UngalledRoots(6)),
    Found(SoilCount(90, 100, 10), PotTest(3, 2000, 20)),
    Found(),
)


def said_of_bags(rules):
    for journey in (
        Journey(),
        Journey(10, 30, 2, "wet", True),
        Journey(20, 40, -3, "dust_dry"),
        Journey(2, None, None, "just_moist", True),
        Journey(2, 20, 10, "just_moist", True),
        Journey(2, 20, 10, "just_moist"),
    ):
        graded = handling(journey, rules)
        yield from (graded.said, *graded.reasons)


def said_of_days(rules):
    closed = ["2031-08-13"]
    for to_door, transit, idle in ((True, 1, closed), (True, 1, []), (False, 3, closed)):
        lab, courier = read_lab(WEEK, closed), read_courier(transit, to_door, WEEK, idle)
        for day in rank_ship_days("2031-08-04", lab, courier, rules, "2031-08-05"):
            yield from day.reasons
    lab = read_lab([1, 2, 3, 4], [])
    for day in rank_ship_days("2031-08-04", lab, read_courier(0, True, WEEK, []), rules):
        yield from day.reasons


def said_of_findings(rules):
    yield none_recovered(rules, 100, 10)
    yield none_recovered(rules, None, None)
    for found, level in itertools.product(FOUND, (1, 5, 50)):
        yield evidence_line(weigh(found, level, "seen_before", rules))
        yield from evidence_reasons(found)
    for high in (1, 9, 99):
        for cautions in ((), ("pots_only",)):
            yield set_beside(high / 2, high, Spread(4, 40, 3, cautions))
    yield set_beside(0, 1, None)
    for shown in itertools.product(("some", "none"), repeat=3):
        for so in (True, False, None):
            at = (so, "C" if so else "A", bool(so), bool(so), bool(so), bool(so))
            for one in contradictions(Signs(*shown, *at)):
                yield from (one.said, *one.reasons)


def every(rules):
    return [*said_of_bags(rules), *said_of_days(rules), *said_of_findings(rules)]


def test_every_finding_has_words_that_fit_its_numbers(table):
    verdicts, rules = table("verdicts"), table("judgements")
    for said in every(rules):
        row = verdicts[said.code]
        told = [row["words"], row["how_sure"], *row.get("settle", [])]
        told += [one["words"] for one in row.get("because", [])]
        assert not any("{" in filled(words, said.params) for words in told)


def test_every_sentence_about_soil_can_be_said(table):
    rows = {code: row for code, row in table("verdicts").items() if ABOUT.match(code)}
    text = "".join(
        (WRITTEN / f"{name}.py").read_text()
        for name in (
            "none_recovered",
            "transit",
            "shipping",
            "evidence",
            "thresholds",
            "contradictions",
            "briefing/samples",
            "briefing/lab_days",
            "briefing/timeline",
        )
    )
    said = {one.code for one in every(table("judgements"))}
    unsaid = [
        code
        for code in set(rows) - said
        if code not in text and not re.match(r"threshold_caution_", code)
    ]
    assert unsaid == []


def test_no_first_sentence_about_evidence_shows_a_percentage(table):
    rows = {code: row for code, row in table("verdicts").items() if ABOUT.match(code)}
    assert not any("%" in row["words"] for row in rows.values())


def test_every_sentence_about_soil_names_known_values(table):
    rules = table("judgements")
    for row in table("verdicts").values():
        assert set(row.get("assumptions", [])) <= set(rules)
        assert all(name != "" for _, name, _, _ in string.Formatter().parse(row["words"]))


@pytest.mark.parametrize("share", [0.1, 0.25, 1.0])
def test_the_step_of_a_lab_is_what_one_more_counted_adds(share):
    assert Examined(200, 0.35, share).step == pytest.approx(0.5 / share)
