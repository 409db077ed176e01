import json

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from gardens.domain.lab_kinds import MOISTURES
from gardens.domain.records import KINDS
from tests.domain.briefed import (
    CHECK,
    TABLES,
    bed,
    brief,
    check,
    dug,
    id_of,
    planting,
    rating,
    record,
)
from tests.house.scanners import forbidden_words

HOWS = st.sampled_from(["all", "every_kth", "random", "worst_looking"])
SCALES = st.sampled_from(["pct10", "pct10", "bp10", "zeck10"])
CROPS = st.sampled_from(["tomato", "peanut", "okra", "sweet_potato", "pepper", "strawberry"])
quick = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))


@st.composite
def gardens(draw):
    """A bed or two, each with some checks, of any scale and any way of choosing."""
    records = []
    for n in range(draw(st.integers(0, 2))):
        own, planted = id_of(n, 0x50), id_of(n, 0x51)
        key, code = draw(CROPS), draw(st.sampled_from(["", "HR: Mi", "VFN"]))
        records += [bed(own), planting(planted, own, crop=key, crop_key=key, resistance_code=code)]
        for k in range(draw(st.integers(0, 3))):
            records += draw(checks(10 * n + k, planted))
        records += [draw(samples(n, own)), draw(labs(n))]
    return records


@st.composite
def samples(draw, n, own):
    days = st.none() | st.integers(1, 28).map("2031-07-{:02d}".format)
    sent = draw(days)
    doc = {
        "bed": own,
        "code": "K7M2H",
        "purpose": "predict",
        "lab_profile": draw(st.none() | st.integers(0, 2).map(lambda k: id_of(k, 0x1AB))),
        "moisture": draw(st.none() | st.sampled_from(MOISTURES)),
        "lifted_at": draw(days.map(lambda day: day and f"{day}T12:00:00.000Z")),
        "parcel": sent and {"sent_on": sent, "arrived_on": draw(st.sampled_from([None, sent]))},
    }
    return record("soil_sample", id_of(n, 0x5A), **doc)


@st.composite
def labs(draw, n):
    working = draw(st.lists(st.integers(0, 6), unique=True))
    return record("lab_profile", id_of(n, 0x1AB), name="Soil room", working_days=working)


@st.composite
def checks(draw, n, planted):
    scale, checked = draw(SCALES), id_of(n, 0x60)
    day = f"203{draw(st.integers(0, 1))}-0{draw(st.integers(1, 9))}-1{draw(st.integers(0, 9))}"
    stood = draw(st.none() | st.integers(1, 40))
    made = check(checked, planted, draw(HOWS), checked_on=day, gall_scale=scale)
    made["doc"]["n_plants_stood"] = stood
    return [made, *(draw(ratings(at, n, checked)) for at in range(draw(st.integers(0, 12))))]


@st.composite
def ratings(draw, at, n, checked):
    state = draw(st.sampled_from(["rated"] * 6 + ["dead", "missing"]))
    grade = draw(st.integers(0, 10)) if state == "rated" else None
    made = rating(at, grade, own=checked, scale=draw(SCALES), state=state)
    made["id"] = id_of(at, 0x1000 + n)
    made["doc"]["place"]["plant"] = draw(st.none() | st.integers(1, 8))
    made["doc"]["look_alike"] = draw(st.none() | st.sampled_from(["unsure", "crown_gall"]))
    return made


JUNK = st.recursive(
    st.none() | st.booleans() | st.integers(-3, 3000) | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner),
    max_leaves=8,
)


def sentences(told):
    lines = [*told["lines"], *(one for own in told["beds"] for one in own["lines"])]
    for one in lines:
        yield one["words"]
        yield one["how_sure"]
        yield from one["settle"]
        yield from (reason["words"] for reason in one["because"])


def sources(told):
    for own in [told, *told["beds"]]:
        for one in own["lines"]:
            yield from one["sources"]
            yield from (key for reason in one["because"] for key in reason["sources"])


@quick
@given(gardens(), st.randoms())
def test_the_order_of_the_records_changes_no_byte(records, chance):
    first = json.dumps(brief(records), sort_keys=True, allow_nan=False)
    chance.shuffle(records)
    assert json.dumps(brief(records), sort_keys=True, allow_nan=False) == first


@quick
@given(gardens())
def test_no_line_promises_what_nobody_knows(records):
    for words in sentences(brief(records)):
        assert forbidden_words(words) == [], words
        assert "free of" not in words and "{" not in words and "None" not in words


@quick
@given(gardens())
def test_every_line_is_about_something_a_screen_knows(records):
    told = brief(records)
    lines = [*told["lines"], *(one for own in told["beds"] for one in own["lines"])]
    known = {"roots", "pattern", "species", "sample", "next", "watch"}
    assert {one["about"] for one in lines} <= known


@quick
@given(gardens())
def test_every_source_leads_to_a_reference(records):
    assert set(sources(brief(records))) <= set(TABLES["references"])


@quick
@given(gardens())
def test_an_interval_holds_its_mean_and_stays_on_the_scale(records):
    for own in brief(records)["beds"]:
        roots = own["roots"]
        if roots and roots["interval"]:
            low, high = roots["interval"]
            assert 0 <= low <= roots["mean"] <= high <= 10


@quick
@given(gardens())
def test_a_hint_never_names_fewer_than_two_species(records):
    found = [own["species"] for own in brief(records)["beds"] if own["species"]]
    assert all(len(one["consistent_with"]) >= 2 for one in found)


@quick
@given(
    st.lists(
        st.fixed_dictionaries(
            {},
            optional={
                "id": JUNK | st.just(CHECK),
                "kind": st.sampled_from([*KINDS, "weather"]) | JUNK,
                "deleted": st.booleans() | JUNK,
                "doc": JUNK | st.dictionaries(st.sampled_from(["bed", "planting", "name"]), JUNK),
            },
        ),
        max_size=6,
    ),
    st.sampled_from(range(6)),
)
@example([{"id": CHECK, "kind": ["bed"], "doc": {}}], 0)
def test_bad_records_are_never_an_error_and_spoil_nothing(junk, at):
    records = dug(1, 2, 3)
    told = brief([*records[:at], *junk, *records[at:]])
    assert json.dumps(told, allow_nan=False)


@pytest.mark.parametrize("field", ["place", "reading", "rated_at", "root_check"])
@quick
@given(value=JUNK)
def test_a_rating_with_a_broken_part_is_left_out(field, value):
    records = [*dug(1, 2, 3), rating(7, 9)]
    records[-1]["doc"][field] = value
    (own,) = brief(records)["beds"]
    assert own["roots"]["n_rated"] == 3


def test_one_id_given_twice_counts_once_whatever_the_order():
    one, other = rating(7, 9), rating(7, 2)
    for pair in ([one, other], [other, one]):
        (own,) = brief([*dug(1, 2, 3), *pair])["beds"]
        assert (own["roots"]["n_rated"], own["roots"]["highest"]) == (4, 9)


def test_an_entry_of_an_unknown_kind_is_passed_over():
    assert brief([*dug(1), record("weather", CHECK, rain_mm=3)]) == brief(dug(1))
