import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardens.domain.clues import FACTS, Seen, clues_of
from gardens.domain.differential import agreeing_rows
from gardens.domain.errors import DomainError
from gardens.domain.species import FORMS, hint

NONE, CLEAR, HEAVY = (0, 0, 0), (0, 2, 3), (6, 7, 8)
EVERY = set(FORMS.values())


@pytest.fixture(scope="module")
def tables(table):
    return table("species_evidence"), table("judgements")


@pytest.fixture(scope="module")
def hinted(tables):
    evidence, judgements = tables

    def ask(*seen, facts=()):
        return hint(clues_of(seen, facts, evidence, judgements), judgements)

    return ask


def listed(found):
    return [one.species for one in found.consistent_with]


def test_without_a_clue_every_species_remains(hinted):
    found = hinted(Seen("tomato", HEAVY))
    assert set(listed(found)) == EVERY
    assert (found.tells, found.identify, found.may_be_regulated) == (False, False, False)


def test_galled_strawberry_speaks_for_hapla(hinted):
    found = hinted(Seen("strawberry", CLEAR))
    assert listed(found)[0] == "Mh"
    assert len(found.consistent_with) == 2


def test_galled_peanut_speaks_for_arenaria_and_hapla(hinted):
    assert set(listed(hinted(Seen("peanut", CLEAR)))) >= {"Mh", "Ma"}


def test_peanut_without_galls_counts_only_beside_galled_tomato(hinted):
    assert not hinted(Seen("peanut", NONE)).tells
    found = hinted(Seen("peanut", NONE), Seen("tomato", CLEAR))
    assert found.tells and listed(found)[-1] != "Mh"
    assert "Mh" in {one.species for one in found.less_consistent}


def test_two_plants_without_galls_are_too_few_to_count(hinted):
    assert not hinted(Seen("peanut", (0, 0)), Seen("tomato", CLEAR)).tells


def test_pepper_without_galls_says_nothing_and_tells_why(hinted):
    found = hinted(Seen("pepper", NONE))
    assert not found.tells
    assert [clue.key for clue in found.clues] == ["pepper_not_galled"]
    assert "floridensis_2022_tables" in found.clues[0].source


def test_resistant_tomato_galled_in_cool_soil_asks_for_identification(hinted):
    found = hinted(Seen("tomato", HEAVY, resistant=True, soil_highest_celsius=25))
    assert found.identify and found.may_be_regulated
    assert set(listed(found)) == {"Me", "Mfl", "Mh"}


@pytest.mark.parametrize("warmest", [None, 27.5, 31])
def test_resistant_tomato_galled_in_hot_or_unknown_soil_says_nothing_of_species(warmest, hinted):
    found = hinted(Seen("tomato", HEAVY, resistant=True, soil_highest_celsius=warmest))
    assert not found.tells and not found.identify and found.clues


def test_a_galled_sweet_potato_that_resists_incognita_asks_for_identification(hinted):
    found = hinted(Seen("sweet_potato", CLEAR, resistant=True))
    assert found.identify and listed(found)[0] == "Me"


def test_a_heavily_galled_collard_speaks_against_enterolobii(hinted):
    found = hinted(Seen("collard", HEAVY))
    weight = {one.species: one.weight for one in (*found.consistent_with, *found.less_consistent)}
    assert weight["Me"] == min(weight.values())


def test_a_fact_nobody_knows_is_refused(hinted):
    with pytest.raises(DomainError, match="unknown_fact"):
        hinted(facts=["full_moon"])


seen_crops = st.lists(
    st.builds(
        Seen,
        st.sampled_from(
            ["tomato", "pepper", "peanut", "strawberry", "watermelon", "cucumber", "carrot",
             "sweet_potato", "collard", "iron_clay_cowpea", "okra"]
        ),
        st.sampled_from([NONE, CLEAR, HEAVY, (), (1,)]),
        st.booleans(),
        st.none() | st.floats(0, 45),
    ),
    max_size=8,
)  # fmt: skip


@given(seen_crops, st.sets(st.sampled_from(FACTS)))
def test_two_species_are_always_listed_and_none_is_ever_sure(hinted, tables, crops, facts):
    found = hinted(*crops, facts=facts)
    everyone = (*found.consistent_with, *found.less_consistent)
    assert len(found.consistent_with) >= 2
    assert {one.species for one in everyone} == EVERY
    assert max(one.weight for one in everyone) <= 0.9 + 1e-9
    assert sum(one.weight for one in everyone) == pytest.approx(1)


@given(st.permutations([Seen("peanut", NONE), Seen("tomato", CLEAR), Seen("sweet_potato", CLEAR)]))
def test_the_order_of_crops_changes_nothing(hinted, crops):
    assert hinted(*crops) == hinted(*sorted(crops, key=lambda one: one.crop_key))


def test_every_form_in_the_evidence_is_weighed(tables):
    evidence, judgements = tables
    for row in evidence:
        assert set(row["raises"]) | set(row["lowers"]) <= set(FORMS)
        assert not set(row["raises"]) & set(row["lowers"])
        assert row["confidence"] == "none" or f"species_odds_{row['confidence']}" in judgements
        assert set(row["facts"]) <= set(FACTS)


def test_every_crop_in_the_evidence_is_on_the_list(tables, table):
    known = {crop["key"] for crop in table("crops")}
    asked = {crop for row in tables[0] for need in row["needs"] for crop in need["crops"]}
    assert asked <= known


@pytest.fixture(scope="module")
def rows(table):
    return table("differential_hosts")["rows"]


def test_incognita_1_agrees_with_its_own_row(rows):
    # Seen confirmations: incognita neither galled nor bred on NC95 tobacco, javanica did both.
    grown = {"cotton": False, "tobacco": False, "pepper": True, "watermelon": True,
             "peanut": False, "tomato": True}  # fmt: skip
    assert [one.key for one in agreeing_rows(grown, rows)] == ["incognita_1"]
    assert "javanica" in {one.key for one in agreeing_rows({"tobacco": True}, rows)}


def test_watermelon_and_peanut_tell_hapla_from_arenaria_1(rows):
    found = agreeing_rows({"peanut": True, "watermelon": False, "tomato": True}, rows)
    assert [one.species for one in found] == ["Mh"]
    found = agreeing_rows({"peanut": True, "watermelon": True, "tomato": True}, rows)
    assert [one.species for one in found] == ["Ma"]


def test_pepper_without_galls_counts_against_no_row(rows):
    assert len(agreeing_rows({"pepper": False}, rows)) == len(rows)


def test_test_plants_that_caught_nothing_are_not_read(rows):
    with pytest.raises(DomainError, match="test_plants_not_infected"):
        agreeing_rows({"tomato": False, "peanut": False}, rows)
    with pytest.raises(DomainError, match="unknown_test_plant"):
        agreeing_rows({"okra": True}, rows)
