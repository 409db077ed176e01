import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import ImageChops

from gardens.domain.errors import DomainError
from gardens.domain.lab_composites import FILLS
from gardens.sheets.form_fill import fill_form
from gardens.sheets.form_pdf import open_form
from gardens.sheets.form_read import read_form
from gardens.sheets.form_values import value_of
from tests.sheets import made_forms, paper
from tests.sheets.things_to_print import EMPTY, FULL, PARCEL


def match(field, fill, row=1, when="", words=""):
    return {"field": field, "fill": fill, "row": row, "when": when, "words": words}


def spot(fill, x_pt=100, y_pt=102, page=1, when="", words=""):
    place = {"page": page, "x_pt": x_pt, "y_pt": y_pt, "width_pt": 200, "size_pt": 11}
    return place | {"fill": fill, "row": 1, "when": when, "words": words}


MATCHED = [
    match("Grower name", "grower_name"),
    match("email", "grower_email"),
    match("Sample ID 1", "sample_code"),
    match("Sample ID 2", "sample_code", 2),
    match("cores", "n_cores"),
    match("Treatments", "treatments"),
    match("chk_species", "tests_wanted", when="species_id"),
    match("chk_eggs", "tests_wanted", when="egg_count"),
    match("Purpose", "purpose", when="diagnose", words="Diagnostic"),
    match("Purpose", "purpose", when="predict", words="Predictive"),
    match("Irrigated", "irrigated", when="yes", words="Y"),
    match("Irrigated", "irrigated", when="no", words="N"),
]


def filled(matches=MATCHED, data=None, parcel=PARCEL, spots=()):
    form = {"fields": list(matches), "spots": list(spots)}
    return fill_form(data or made_forms.fillable(), form, parcel)


def values(pdf):
    return {name: one.get("/V") for name, one in paper.reader(pdf).get_fields().items()}


def box(field, data=None):
    found = read_form(data or made_forms.fillable())["fields"]
    return next(one["box"] for one in found if one["field"] == field)


def changed_boxes(before, after, dpi=100):
    """Where two renderings of one page differ, as one box in points; None for nowhere."""
    one, other = (paper.pictures(each, dpi=dpi)[0] for each in (before, after))
    return ImageChops.difference(one, other), 72 / dpi


def test_a_form_is_filled_field_by_field():
    assert values(filled()) == {
        "Grower name": "Zsófia Kőműves-Ağaoğlu",
        "email": "zsofia@example.org",
        "Sample ID 1": "K7M2-H",
        "Sample ID 2": "A2B3-C",
        "cores": "20",
        "Treatments": "Compost, 3 kg per m², 4 Mar 2031; Mustard meal, 200 g per m², 10 Apr 2031",
        "Lab use only": "L-77",
        "chk_species": "/Yes",
        "chk_eggs": "/Off",
        "Purpose": "D",
        "Irrigated": "/Y",
    }


def test_what_was_filled_is_seen_where_it_stands_and_nothing_else_changed():
    difference, points = changed_boxes(made_forms.fillable(), filled())
    seen = difference.point(lambda value: 255 if value > 60 else 0)
    for name in (
        "Grower name",
        "Sample ID 1",
        "Sample ID 2",
        "Treatments",
        "chk_species",
        "Purpose",
    ):
        left, top, right, bottom = (round(side / points) for side in box(name))
        assert seen.crop((left, top, right, bottom)).getbbox(), name
        seen.paste(0, (left - 1, top - 1, right + 2, bottom + 2))
    for name in ("email", "cores", "Purpose"):
        seen.paste(0, tuple(round(side / points) for side in box(name)))
    irrigated = tuple(round(side / points) for side in box("Irrigated"))
    assert seen.crop(irrigated).getbbox()
    seen.paste(0, irrigated)
    assert seen.getbbox() is None


def test_a_reader_of_another_make_sees_what_was_filled():
    said = paper.flowing(filled())
    for words in ("Zsófia Kőműves-Ağaoğlu", "K7M2-H", "A2B3-C", "Diagnostic", "Mustard meal"):
        assert words in said
    assert "Predictive" not in said


def test_every_sign_of_a_name_is_drawn_with_an_embedded_font():
    # Helvetica in a form has no ő, ű, ğ; poppler reads the drawing back with ours.
    found = paper.fonts(filled([match("Grower name", "grower_name")]))
    assert any("DejaVuSansCondensed" in name and embedded == "yes" for name, embedded, _ in found)
    page = paper.reader(filled([match("Grower name", "grower_name")])).pages[0]
    drawn = page["/Annots"][0].get_object()["/AP"]["/N"]
    fonts = drawn["/Resources"]["/Font"]
    assert any("/ToUnicode" in fonts[name].get_object() for name in fonts)


def test_a_form_stays_one_that_can_be_changed():
    again = filled([match("cores", "words", words="31")], data=filled())
    assert values(again)["cores"] == "31"
    assert values(again)["Grower name"] == "Zsófia Kőműves-Ağaoğlu"
    assert "/NeedAppearances" not in paper.reader(filled()).trailer["/Root"]["/AcroForm"]


def test_what_nobody_knows_stays_as_the_lab_left_it():
    assert filled(parcel=EMPTY) is not None
    left = values(filled(parcel=EMPTY))
    assert (left["Purpose"], left["Lab use only"], left["chk_species"]) == ("P", "L-77", "/Off")


def test_a_box_the_file_does_not_draw_is_drawn():
    data = made_forms.without_drawn_boxes(made_forms.fillable())
    pdf = filled([match("chk_species", "tests_wanted", when="species_id")], data=data)
    difference, points = changed_boxes(data, pdf)
    left, top, right, bottom = (side / points for side in box("chk_species", data))
    assert difference.crop((int(left), int(top), int(right), int(bottom))).getbbox()
    assert values(pdf)["chk_species"] == "/Yes"


def test_the_same_parcel_fills_the_same_bytes():
    assert filled() == filled()


def test_a_flat_form_gets_text_where_it_was_tapped():
    pdf = filled([], made_forms.flat(), spots=[spot("grower_name")])
    # The line to write on is drawn 738 points from below, 103.9 from the top.
    words = paper.run("pdftotext", pdf, "-bbox")
    found = re.search(r'xMin="([\d.]+)" yMin="([\d.]+)" [^>]*yMax="([\d.]+)">Zs', words)
    left, top, bottom = (float(one) for one in found.groups())
    assert left == pytest.approx(102, abs=0.5)
    assert top < 95 and 102 <= bottom <= 106


@pytest.mark.parametrize("degrees", [0, 90, 180, 270])
def test_a_turned_page_is_written_on_as_it_is_shown(degrees):
    data = made_forms.turned(made_forms.flat(), degrees)
    pdf = filled([], data, spots=[spot("words", 200, 300, words="HERE")])
    difference, points = changed_boxes(data, pdf)
    left, top, right, bottom = (side * points for side in difference.getbbox())
    assert 198 <= left <= 204 and top >= 285 and bottom <= 305
    assert right - left > 1.5 * (bottom - top)


def test_a_spot_is_ticked_only_for_its_value():
    ticks = [
        spot("tests_wanted", when="species_id"),
        spot("tests_wanted", when="egg_count", y_pt=200),
    ]
    said = [one[1].strip() for one in paper.letters(filled([], made_forms.flat(), spots=ticks))]
    assert said.count("✗") == 1


def test_a_field_that_is_gone_is_named():
    with pytest.raises(DomainError, match="form_field_gone") as refused:
        filled([match("Old field", "grower_name")])
    assert refused.value.params["name"] == "Old field"
    with pytest.raises(DomainError, match="form_field_gone"):
        filled([], made_forms.flat(), spots=[spot("grower_name", page=2)])


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"", "form_damaged"),
        (b"%PDF-1.7\n", "form_damaged"),
        (made_forms.fillable()[:2000], "form_damaged"),
        (made_forms.encrypted(made_forms.fillable()), "form_encrypted"),
        (made_forms.with_xfa(made_forms.fillable()), "form_xfa"),
        (made_forms.flat(n_pages=41), "form_too_long"),
    ],
)
def test_a_file_that_cannot_be_filled_is_refused_with_its_reason(data, code):
    with pytest.raises(DomainError, match=code):
        read_form(data)


def test_a_form_is_read_with_places_and_guesses():
    told = read_form(made_forms.fillable())
    assert told["kind"] == "fields"
    assert told["pages"] == [{"width_pt": 595.28, "height_pt": 841.89}]
    found = {one["field"]: one for one in told["fields"]}
    assert found["Grower name"]["box"] == [150.0, 81.89, 350.0, 101.89]
    assert found["Purpose"]["options"] == ["Diagnostic", "Predictive"]
    assert found["Sample ID 2"]["guess"] == {"fill": "sample_code", "row": 2, "when": ""}
    assert found["chk_eggs"]["guess"] == {"fill": "tests_wanted", "row": 1, "when": "egg_count"}
    assert found["Lab use only"]["guess"] is None
    assert read_form(made_forms.flat())["kind"] == "flat"


def test_a_turned_page_is_read_as_it_is_shown():
    told = read_form(made_forms.turned(made_forms.fillable(), 90))
    assert told["pages"] == [{"width_pt": 841.89, "height_pt": 595.28}]
    # The field 740 to 760 from below and 150 to 350 from the left, turned clockwise.
    assert told["fields"][0]["box"] == [740, 150, 760, 350]


@pytest.mark.parametrize("fill", [one for one in FILLS if one != "words"])
def test_every_value_can_be_written_for_a_full_and_for_an_empty_parcel(fill):
    assert value_of(fill, 1, PARCEL).shown or fill in ("sent_on", "cultivar_now")
    assert value_of(fill, 40, PARCEL).shown == "" or fill in _OF_PARCEL
    assert "None" not in value_of(fill, 1, EMPTY).shown


_OF_PARCEL = {
    "grower_name",
    "grower_address",
    "grower_phone",
    "grower_email",
    "garden_name",
    "garden_place",
    "lab_name",
    "account_number",
    "n_samples",
    "sent_on",
}


def test_long_text_gets_smaller_and_is_stored_whole():
    long = replace(FULL, treatments="\n".join(f"treatment {n}" for n in range(60)))
    pdf = filled([match("cores", "treatments")], parcel=replace(PARCEL, samples=(long,)))
    assert values(pdf)["cores"].startswith("treatment 0; treatment 1")


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 15_000), st.binary(min_size=1, max_size=12))
def test_a_spoilt_file_is_refused_or_read_and_nothing_else(at, junk):
    data = made_forms.fillable()
    spoilt = data[:at] + junk + data[at + len(junk) :]
    try:
        open_form(spoilt)
        fill_form(spoilt, {"fields": [], "spots": [spot("grower_name")]}, PARCEL)
        read_form(spoilt)
    except DomainError as refused:
        assert refused.code.startswith("form_")
