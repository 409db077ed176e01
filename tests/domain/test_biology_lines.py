import pytest

from gardens.domain.biology_lines import (
    host_lines,
    latin_names,
    lift_line,
    nitrogen_line,
    packet_line,
    species_lines,
)
from gardens.domain.briefing.lines import Teller
from gardens.domain.clues import Seen, clues_of
from gardens.domain.heat import read_heat_sums
from gardens.domain.host_table import SPECIES, read_plants
from gardens.domain.hosts import across_species
from gardens.domain.rates import nitrogen_carried
from gardens.domain.resistance import read_packet
from gardens.domain.species import hint
from gardens.domain.trap_crops import lift_trap_crop_by


@pytest.fixture(scope="module")
def names(table):
    return latin_names(table("species"))


@pytest.fixture(scope="module")
def teller(table):
    return Teller({"verdicts": table("verdicts"), "judgements": table("judgements")})


def words(teller, said):
    return teller.line(said.code, **said.params)["words"]


def hinted(table, *seen):
    judgements = table("judgements")
    return hint(clues_of(seen, (), table("species_evidence"), judgements), judgements)


def test_the_species_hint_never_says_more_than_consistent_with(table, names, teller):
    told = [
        words(teller, one)
        for one in species_lines(hinted(table, Seen("strawberry", (4, 5))), names)
    ]
    assert told == ["What galled and what did not are consistent with M. hapla and M. incognita."]


def test_no_clue_lists_every_species(table, names, teller):
    (said,) = species_lines(hinted(table), names)
    assert said.code == "species_no_clue"
    assert all(name in words(teller, said) for name in names.values())


def test_galled_resistant_tomato_leads_to_identification_and_the_authority(table, names, teller):
    seen = Seen("tomato", (7, 8), resistant=True, soil_highest_celsius=24)
    said = species_lines(hinted(table, seen), names)
    assert [one.code for one in said] == [
        "species_hint", "species_identify", "species_may_be_regulated"
    ]  # fmt: skip
    assert "plant-health authority" in words(teller, said[-1])


@pytest.mark.parametrize(
    ("printed", "code"),
    [("IR: M", "packet_stated"), ("VFN", "packet_assumed"), ("", "packet_not_stated")],
)
def test_a_packet_is_told(printed, code, table, names, teller):
    said = packet_line(read_packet(printed, "tomato", table("resistance_codes")), names)
    assert said.code == code
    assert ("M. arenaria" in words(teller, said)) == (code != "packet_not_stated")


def test_every_species_asked_about_is_in_one_line_on_a_plant(table, names, teller):
    for plant in read_plants(table("host_status")):
        found = across_species(plant, SPECIES)
        told = " ".join(words(teller, one) for one in host_lines("It", found, SPECIES, names))
        assert all(told.count(name) == 1 for name in names.values()), plant.key


def test_a_trap_crop_and_a_dressing_are_told(table, teller):
    sums, judgements = read_heat_sums(table("heat_sums")), table("judgements")
    for celsius, code, month in ((26.0, "lift_heat", "June"), (12.0, "lift_longest_days", "July")):
        said = lift_line(lift_trap_crop_by(sums, [celsius] * 60, "2031-06-01", judgements))
        assert said.code == code and f"{month} 2031" in words(teller, said)
    much, little = (nitrogen_line(nitrogen_carried(grams, 3, 17)) for grams in (1953, 100))
    assert "nitrate" in words(teller, much) and "within" in words(teller, little)
