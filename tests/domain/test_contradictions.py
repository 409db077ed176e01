import itertools

import pytest

from gardens.domain.contradictions import Signs, contradictions, counts_apart, times_apart
from gardens.domain.errors import DomainError

SHOWN = ("some", "none", None)


def only(**signs):
    (found,) = contradictions(Signs(**signs))
    return found, [one.code for one in found.reasons]


def test_galled_roots_are_believed_over_none_recovered():
    found, _ = only(roots="some", lab="none")
    assert (found.code, found.believe) == ("contra_roots_galled_lab_none", "roots")


def test_swellings_that_may_be_something_else_settle_nothing():
    found, reasons = only(roots="some", lab="none", look_alike=True)
    assert found.believe == "neither" and "contra_why_look_alike" in reasons


def test_counted_juveniles_are_believed_over_sound_roots():
    found, reasons = only(roots="none", lab="some", good_host=False)
    assert found.believe == "lab" and "contra_why_poor_host" in reasons
    assert "contra_why_host_unknown" in only(roots="none", lab="some")[1]


@pytest.mark.parametrize(
    ("sign", "reason"),
    [
        ({"grade": "C"}, "contra_why_bag"),
        ({"little_soil": True}, "contra_why_little_soil"),
        ({"off_season": True}, "contra_why_off_season"),
        ({"other_part": True}, "contra_why_other_part"),
    ],
)
def test_what_can_make_a_lab_miss_is_named_only_when_it_was_so(sign, reason):
    assert reason in only(roots="some", lab="none", **sign)[1]
    assert reason not in only(roots="some", lab="none")[1]


def test_a_well_handled_bag_is_no_reason():
    assert "contra_why_bag" not in only(roots="some", lab="none", grade="A")[1]


def test_galled_seedlings_contradict_both_others():
    found = contradictions(Signs(roots="none", lab="none", pots="some"))
    assert {one.believe for one in found} == {"pots"} and len(found) == 2


@pytest.mark.parametrize(("roots", "lab", "pots"), [*itertools.product(SHOWN, repeat=3)])
def test_checks_contradict_exactly_when_two_of_them_differ(roots, lab, pots):
    pairs = itertools.combinations([roots, lab, pots], 2)
    differ = sum(None not in pair and pair[0] != pair[1] for pair in pairs)
    assert len(contradictions(Signs(roots, lab, pots))) == differ


def test_every_contradiction_says_what_would_settle_it(table):
    verdicts = table("verdicts")
    codes = [code for code in verdicts if code.startswith("contra_") and "_why_" not in code]
    assert len(codes) == 8
    assert all(verdicts[code]["settle"] and verdicts[code]["because"] for code in codes)


def test_counts_whose_intervals_touch_agree():
    assert counts_apart((2, 9), (8, 30)) is None
    assert counts_apart((30, 80), (2, 9)).code == "contra_counts_apart"


def test_signs_and_counts_that_cannot_be_are_refused():
    with pytest.raises(DomainError, match="unknown_sign"):
        contradictions(Signs(roots="many"))
    with pytest.raises(DomainError, match="not_above_zero"):
        times_apart(0, 3)
