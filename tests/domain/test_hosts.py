import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardens.domain.errors import DomainError
from gardens.domain.host_table import LEVELS, SPECIES, HostCell, Plant, plant_of_crop, read_plants
from gardens.domain.hosts import across_species, suitability, tolerance, weeds_cancel


@pytest.fixture(scope="module")
def plants(table):
    return read_plants(table("host_status"))


def one(plants, key):
    (found,) = [plant for plant in plants if plant.key == key]
    return found


def test_the_table_holds_more_than_a_hundred_plants_and_weeds_too(plants):
    assert len(plants) >= 100
    assert len({plant.key for plant in plants}) == len(plants)
    assert sum(plant.kind == "weed" for plant in plants) >= 20


def test_every_plant_but_the_weeds_is_a_crop_of_the_list(plants, table):
    known = {crop["key"] for crop in table("crops")}
    assert {plant.crop for plant in plants if plant.kind != "weed"} == known
    assert not any(plant.crop for plant in plants if plant.kind == "weed")


def test_every_cell_has_a_source_or_says_it_is_from_memory(plants):
    for plant in plants:
        for species, cell in plant.cells.items():
            assert species in SPECIES
            assert plant.source or plant.from_memory or cell.from_memory, plant.key
            assert set(cell.levels) <= set(LEVELS)


def test_nothing_but_a_trap_or_a_loss_stands_in_a_cell_without_levels(plants):
    for plant in plants:
        for cell in plant.cells.values():
            assert cell.levels or cell.conflict or cell.trap or cell.losses, plant.key


@pytest.mark.parametrize(
    ("key", "species", "answer"),
    [
        ("tomato_mi1", "Mi", "resistant"),  # holds incognita, not enterolobii
        ("tomato_mi1", "Me", "good"),
        ("signet_marigold", "Mh", "good"),  # a host of all four
        ("french_marigold", "Mi", "antagonistic"),
        ("japanese_millet", "Mi", "good"),  # opposite by species
        ("japanese_millet", "Me", "none_found"),
        ("iron_clay_cowpea", "Me", "good"),
        ("hairy_vetch", "Ma", "good"),
        ("cereal_rye", "Mh", "none_found"),
        ("strawberry", "Mh", "good"),
        ("weed_lambsquarters", "Ma", "good"),
        ("broccoli", "Mi", "range"),
    ],
)
def test_the_table_says_what_its_sources_say(key, species, answer, plants):
    assert suitability(one(plants, key), species).answer == answer


@pytest.mark.parametrize(
    ("key", "species"),
    [("pepper", "Mj"), ("pepper", "Mfl"), ("zucchini", "Mi"), ("cabbage", "Ma"),
     ("peanut", "Ma"), ("watermelon", "Mh"), ("weed_yellow_nutsedge", "Mi")],
)  # fmt: skip
def test_where_sources_disagree_the_answer_is_uncertain(key, species, plants):
    found = suitability(one(plants, key), species)
    assert (found.answer, found.feeds) == ("uncertain", None)


def test_pepper_bred_on_without_galls_keeps_its_high_level(plants):
    assert suitability(one(plants, "pepper"), "Ma").levels == ("good",)


@given(st.lists(st.sampled_from(LEVELS), max_size=4), st.booleans())
def test_a_conflict_is_never_averaged(levels, conflict):
    levels = tuple(sorted(set(levels), key=LEVELS.index))
    cell = HostCell(levels, conflict, False, False, ())
    found = suitability(Plant("x", "x", "X", "crop", "", None, {"Mi": cell}, (), False, ""), "Mi")
    assert found.levels == levels
    assert (found.answer == "uncertain") == conflict
    assert found.answer in {*levels, "range", "uncertain", "not_known"}


def test_an_empty_cell_is_not_known_and_never_a_good_sign(plants):
    vetch = one(plants, "hairy_vetch")
    assert suitability(vetch, "Mh").answer == "not_known"
    assert suitability(vetch, "Mh").feeds is None
    assert across_species(one(plants, "showy_crotalaria"), ["Mi", "Mh"]).answer == "not_known"


def test_for_several_species_the_worst_comes_first(plants):
    millet = one(plants, "japanese_millet")
    assert across_species(millet, ["Mi", "Me"]).feeds == ("Mi",)
    assert across_species(millet, ["Me"]).answer == "feeds_none_listed"
    assert across_species(one(plants, "pepper"), ["Mj", "Mfl"]).answer == "uncertain"
    assert across_species(millet, []).answer == "not_known"


def test_a_species_of_no_table_is_refused(plants):
    with pytest.raises(DomainError, match="unknown_species"):
        suitability(plants[0], "Mf")


@pytest.mark.parametrize(
    ("key", "species", "band"),
    [
        ("eggplant", "Mi", "suffers_heavily"),  # 5 % of the yield was left
        ("cabbage", "Mh", "suffers_lightly"),  # 9 % lost at 18,000 a kg
        ("cauliflower", "Mh", "suffers"),  # 24 %
        ("southern_pea", "Mi", "suffers_lightly"),  # 12 % at most
        ("tomato_mi1", "Mi", "suffers"),  # resistant is not undamaged
        ("lettuce", "Mj", "not_known"),
    ],
)
def test_how_much_a_plant_suffers_is_told_apart(key, species, band, plants, table):
    assert tolerance(one(plants, key), species, table("judgements")) == band


def test_a_crop_of_the_list_is_found_with_and_without_its_gene(plants):
    assert plant_of_crop(plants, "tomato").form == "susceptible"
    assert plant_of_crop(plants, "tomato", "mi1").key == "tomato_mi1"
    assert plant_of_crop(plants, "potato", "mi1") is None
    assert plant_of_crop(plants, "") is None


def test_weeds_above_their_line_cancel_a_fallow(table):
    judgements = table("judgements")
    assert [weeds_cancel(cover, judgements) for cover in (0, 10, 10.1)] == [False, False, True]
    assert weeds_cancel(None, judgements) is None
