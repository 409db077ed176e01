import pytest

from tests.domain.asking import asked, cells, codes, words
from tests.domain.briefed import BED, TABLES, bed, planting

CROPS = sorted({one["crop"] for one in TABLES["host_status"] if one["kind"] == "crop"})


def because(answer, code):
    (line,) = [one for one in answer["lines"] if one["code"] == code]
    return " ".join(one["words"] for one in line["because"])


def packet(letters, crop="tomato", **typed):
    return asked("packet_letters", letters=letters, crop=crop, **typed)


def test_codes_of_the_trade_are_read_with_their_level():
    # Code lists of the International Seed Federation, and its definitions of June 2012.
    answer = packet("HR: ToMV, V / IR: Ma, Mi, Mj")
    assert words(answer, "packet_stated").endswith("M. arenaria, M. incognita and M. javanica.")
    assert "intermediate resistance: restricts the pest" in because(answer, "packet_stated")
    assert words(answer, "packet_kept_as_text") == "Not read, kept as text: ToMV, V."
    held = cells(answer, "M. incognita, M. javanica and M. arenaria")
    assert held["The packet"] == "Intermediate resistance (IR)"


def test_what_is_not_stated_is_never_susceptible():
    answer = packet("")
    assert "Not stated is not susceptible" in words(answer, "packet_not_stated")
    assert cells(answer, "M. floridensis")["The packet"] == "Not stated, so it may be either"
    assert not any(code.startswith("packet_heat") for code in codes(answer))


def test_the_old_letter_is_read_on_tomato_as_an_assumption():
    # From memory: N of V, F, N strings stands for the three common species on tomato.
    answer = packet("VFN")
    assert codes(answer)[0] == "packet_assumed"
    held = cells(answer, "M. incognita, M. javanica and M. arenaria")
    assert held["The packet"] == "Usually meant by the old letter N, not stated"


@pytest.mark.parametrize("crop", ["", "pepper"])
def test_the_old_letter_is_not_read_on_anything_else(crop):
    answer = packet("VFN", crop)
    assert codes(answer)[:3] == ["packet_not_stated", "packet_kept_as_text", "packet_old_letter"]


def test_a_letter_that_may_mean_another_species_stays_text():
    # From memory: Mf may stand for M. fallax, never for M. floridensis.
    answer = packet("IR: Mf, Mh", "pepper")
    assert words(answer, "packet_stated").endswith("M. hapla.")
    assert "Mh: M. hapla (from memory, not confirmed)." in because(answer, "packet_stated")
    assert "M. fallax" in because(answer, "packet_kept_as_text")


def test_one_umbrella_letter_stands_for_three_species():
    held = cells(packet("IR: M"), "M. incognita, M. javanica and M. arenaria")
    assert held["The packet"] == "Intermediate resistance (IR)"


def test_a_gene_that_fails_is_told_beside_the_letters():
    # Hajihassani and others 2019: every M. hapla population bred on pepper with the N gene.
    answer = packet("HR: Mi", "pepper")
    assert cells(answer, "M. hapla and M. floridensis")["Gene N (pepper)"] == "Does not hold it"
    assert "Sources disagree" in cells(answer, "N (pepper)")["In heat"]
    assert cells(answer, "N (pepper)")["Strains that break it"] == "Known."


def test_a_gene_on_which_reports_disagree_is_uncertain():
    # Swanson and others 1984: M. javanica bred on southern peas with Rk that held M. incognita.
    answer = packet("", "southern_pea")
    told = cells(answer, "M. javanica")["Gene Rk, Rk2, rk3, rki (southern pea)"]
    assert told == "Uncertain: reported to hold it and to fail"


def test_what_a_gene_does_from_memory_says_so():
    told = cells(packet("IR: Mi"), "M. hapla")["Gene Mi-1"]
    assert told == "Does not hold it (from memory, not confirmed)"


@pytest.mark.parametrize(
    ("soil", "code"),
    [("28", "packet_heat_above"), ("27", "packet_heat_within"), ("", "packet_heat")],
)
def test_soil_warmer_than_the_warning_is_told(soil, code):
    # Seed descriptions, as the trade quotes them: resistance weakens above about 27 °C (81 °F).
    answer = packet("IR: Mi", soil_celsius=soil)
    assert "27 °C (81 °F)" in words(answer, code)


def test_a_bed_lends_the_letters_of_its_newest_crop():
    records = [bed(), planting(crop="Tomato", crop_key="tomato", resistance_code="IR: Mi")]
    answer = asked("packet_letters", records, bed=BED)
    assert words(answer, "packet_stated").endswith("M. incognita.")
    other = asked("packet_letters", records, bed=BED, crop="pepper")
    assert codes(other)[0] == "packet_not_stated"


def test_letters_without_a_crop_say_nothing_of_genes():
    answer = asked("packet_letters", letters="IR: Mi")
    assert "packet_no_crop" in codes(answer)
    assert [row for row in answer["rows"] if row["name"].startswith("Mi-")] == []


@pytest.mark.parametrize("crop", CROPS)
def test_every_crop_is_answered(crop):
    assert asked("packet_letters", letters="HR: Ma / IR: Mj", crop=crop)["wrong"] == []
