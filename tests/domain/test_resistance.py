import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardens.domain.resistance import gene_against, read_genes, read_packet, stated_against


@pytest.fixture(scope="module")
def read(table):
    codes = table("resistance_codes")
    return lambda printed, crop="tomato": read_packet(printed, crop, codes)


def stated(packet):
    return [(one.code, one.level) for one in packet.stated]


@pytest.mark.parametrize(
    ("printed", "found"),
    [
        ("IR: Ma, Mi, Mj", [("Ma", "IR"), ("Mi", "IR"), ("Mj", "IR")]),
        ("HR: Fol:0,1 / V IR: Ma/Mi/Mj", [("Ma", "IR"), ("Mi", "IR"), ("Mj", "IR")]),
        ("HR MA MI MJ", [("Ma", "HR"), ("Mi", "HR"), ("Mj", "HR")]),
        ("V (HR) M (IR)", [("M", "IR")]),
        ("Mi", [("Mi", None)]),
        ("Me HR, Mh IR", [("Me", "HR"), ("Mh", "IR")]),
        ("VFN", [("N", None)]),
        ("VFFNT Hybrid", [("N", None)]),
        ("V, F, N", [("N", None)]),
    ],
)
def test_codes_of_seed_packets_are_read(printed, found, read):
    assert stated(read(printed)) == found


@pytest.mark.parametrize(
    "printed",
    ["", "   ", "Mf", "Mc IR", "ToMV TSWV", "N", "hr: ma mi", "not Mi", "susceptible: M", "TMV"],
)
def test_what_is_not_a_known_code_is_never_read_as_one(printed, read):
    packet = read(printed)
    assert packet.stated == ()
    assert {stated_against(packet, s) for s in ("Mi", "Mfl")} == {"not_stated"}


def test_the_old_letter_is_read_for_tomato_only_and_as_an_assumption(read):
    assert stated_against(read("VFN"), "Mi") == "assumed"
    assert read("VFN").stated[0].species == ("Ma", "Mi", "Mj")
    assert read("VFN", "pepper").kept_as_text == ("VFN",)
    assert read("VFN", "").stated == ()


def test_mf_is_kept_as_text_and_never_means_floridensis(read, table):
    assert read("IR: Mf").kept_as_text == ("Mf",)
    codes = table("resistance_codes")
    species = {s for row in [*codes["pests"], codes["old_letter"]] for s in row["species"]}
    assert "Mf" not in species and "Mfl" not in species


def test_the_weaker_level_counts_where_two_are_printed(read):
    assert stated_against(read("HR: Mi IR: M"), "Mi") == "IR"
    assert stated_against(read("HR: Mi IR: M"), "Mh") == "not_stated"


@given(st.text(max_size=40), st.sampled_from(["tomato", "pepper", ""]))
def test_whatever_is_printed_is_kept(read, printed, crop):
    packet = read(printed, crop)
    assert packet.printed == printed
    assert all(text in printed for text in packet.kept_as_text)
    assert {one.level for one in packet.stated} <= {"HR", "IR", None}


@pytest.mark.parametrize(
    ("gene", "species", "answer"),
    [
        ("mi1", "Me", "broken"),
        ("mi1", "Mfl", "broken"),
        ("mi1", "Mi", "holds_until_virulent"),
        ("n_pepper", "Mh", "broken"),
        ("rk_cowpea", "Mj", "uncertain"),
        ("rma_peanut", "Ma", "holds"),
        ("mj_cucumber", "Me", "not_known"),
    ],
)
def test_what_breaks_a_gene_is_told(gene, species, answer, table):
    (found,) = [one for one in read_genes(table("resistance_genes")) if one.key == gene]
    assert gene_against(found, species) == answer


def test_heat_on_the_pepper_gene_is_told_from_both_sides(table):
    (gene,) = [one for one in read_genes(table("resistance_genes")) if one.key == "n_pepper"]
    assert gene.conflict and "disagree" in gene.heat


def test_every_gene_of_a_plant_in_the_host_table_is_known(table):
    known = {gene.key for gene in read_genes(table("resistance_genes"))}
    assert {row["gene"] for row in table("host_status") if row["gene"]} <= known
