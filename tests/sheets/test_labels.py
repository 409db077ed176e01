from dataclasses import replace

import pytest

from gardens.domain import codes
from gardens.domain.errors import DomainError
from gardens.sheets.label_sheets import LABEL_SHEETS, label_sheet, sheets_told
from gardens.sheets.labels import labels
from tests.sheets import paper
from tests.sheets.things_to_print import FULL, PARCEL

MM = 72 / 25.4


def coded(n):
    first = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
    data = [f"{first[i % 30]}7M{first[i // 30]}" for i in range(n)]
    return [one + codes.check_character(one) for one in data]


def parcel(n):
    samples = [
        replace(FULL, code=code, link=f"https://garden.example/samples/{code}") for code in coded(n)
    ]
    return replace(PARCEL, samples=tuple(samples))


EVERY = pytest.mark.parametrize("key", LABEL_SHEETS)


@EVERY
def test_labels_lie_on_their_sheet_without_touching(key):
    sheet = label_sheet(key)
    wide, high = (side / MM for side in paper.SIZES[sheet.paper])
    assert sheet.pitch_x_mm >= sheet.width_mm and sheet.pitch_y_mm >= sheet.height_mm
    right = sheet.left_mm + (sheet.n_across - 1) * sheet.pitch_x_mm + sheet.width_mm
    bottom = sheet.top_mm + (sheet.n_down - 1) * sheet.pitch_y_mm + sheet.height_mm
    assert right <= wide + 0.5 and bottom <= high + 0.5
    assert all(one["key"] in LABEL_SHEETS for one in sheets_told())


@EVERY
def test_every_label_of_a_full_sheet_is_read_by_a_scanner(key):
    n = label_sheet(key).n_labels
    (page,) = paper.pictures(labels(parcel(n), label_sheet(key)), dpi=200)
    found = {text for text, _ in paper.scanned(page)}
    assert found == {f"https://garden.example/samples/{code}" for code in coded(n)}


@EVERY
def test_every_code_is_printed_with_the_check_sign_that_fits(key):
    said = paper.text(labels(parcel(3), label_sheet(key)))
    assert [code for code in coded(3) if codes.as_printed(code) not in said] == []
    assert all(codes.is_right(code) for code in coded(3))


@EVERY
def test_nothing_of_a_label_is_outside_of_it(key):
    sheet = label_sheet(key)
    high = paper.SIZES[sheet.paper][1]
    for _, said, size, x, y in paper.letters(labels(parcel(sheet.n_labels), sheet)):
        if "Cut along" in said or "outside of the bag" in said:
            continue
        across = (x / MM - sheet.left_mm) % sheet.pitch_x_mm
        down = ((high - y) / MM - sheet.top_mm) % sheet.pitch_y_mm
        assert 0 <= across <= sheet.width_mm
        assert size / MM * 0.7 <= down <= sheet.height_mm


def test_printing_begins_at_the_first_label_that_is_left():
    sheet = label_sheet("letter_67x25")
    pdf = labels(parcel(3), sheet, first=29)
    assert len(paper.reader(pdf).pages) == 2
    assert paper.reader(pdf).pages[1].extract_text().count("-") == 1


@pytest.mark.parametrize("first", [0, 31, -1])
def test_a_label_that_is_not_on_the_sheet_is_refused(first):
    with pytest.raises(DomainError, match="no_such_label"):
        labels(parcel(1), label_sheet("letter_67x25"), first=first)


def test_an_unknown_sheet_is_refused():
    with pytest.raises(DomainError, match="unknown_label_sheet"):
        label_sheet("a5")


def test_the_same_parcel_prints_the_same_bytes():
    assert labels(PARCEL, label_sheet("a4_strip")) == labels(PARCEL, label_sheet("a4_strip"))


def test_fonts_are_embedded_and_no_text_is_below_eleven_points():
    pdf = labels(PARCEL, label_sheet("a4_99x57"))
    assert {embedded for _, embedded, _ in paper.fonts(pdf)} == {"yes"}
    assert min(size for _, _, size, _, _ in paper.letters(pdf)) >= 10.9


def test_a_strip_says_how_to_keep_a_label_readable():
    assert "outside of the bag" in paper.flowing(labels(PARCEL, label_sheet("a4_strip")))


def test_a_long_name_of_a_lab_takes_the_lines_that_are_left():
    lab = replace(PARCEL.lab, name="Soil room of the northern coast and of its islands")
    long = replace(parcel(1), lab=lab)
    said = paper.text(labels(long, label_sheet("a4_99x57"))).split()
    assert " ".join(said).endswith(f"to {lab.name}")
    (narrow,) = [" ".join(paper.text(labels(long, label_sheet("letter_67x25"))).split())]
    assert narrow.endswith("…")
