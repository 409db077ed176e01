import dataclasses
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from gardens.domain.crop_history import CropGrown, CropHistory
from gardens.sheets.sample_page import area_of
from gardens.sheets.submission import submission_sheet
from gardens.sheets.values import Lab
from tests.sheets import paper
from tests.sheets.things_to_print import (
    BLANK,
    CORNER_BED,
    EMPTY,
    FULL,
    GROWER,
    LAB,
    LINK,
    PARCEL,
    SIXTY,
)

# What labs commonly ask for, gathered from the instructions of nine labs and extension
# services (fields read, layouts not used), as this parcel answers it.
ASKED = [
    "Zsófia Kőműves-Ağaoğlu",
    "12 Willow Lane, Lower Valley",
    "+00 555 0100",
    "zsofia@example.org",
    "Hillside plot, Lower Valley",
    "Bags 2",
    "Example Soil Laboratory",
    "1 Sample Street, Testtown",
    "Account number A-0042",
    "Report as juveniles per 100 cm³ of soil",
    "Working days Mon–Fri",
    "Sent on 4 Aug 2031",
    "Two bags, label outside.",
    "Bag K7M2-H",
    "Sample 1 of 2 in this parcel",
    "Lifted 3 Aug 2031, 09:30 (Africa/Accra)",
    "Hours by the clock of Africa/Accra.",
    "part of it, 2.4 m²",
    "Cores mixed 20",
    "Depth 0–20 cm",
    "☒ just moist",
    "Soil temp. 24.5 °C",
    "Soil sandy loam",
    "Irrigated ☒ yes ☐ no",
    "Roots in bag ☒ yes ☐ no",
    "☐ good growth ☒ poor growth",
    "☒ find the cause",
    "☒ nematode count ☒ species ☐ nematodes in roots ☐ egg count",
    "Crop now Okra, Red Lantern, 2 May 2031, still standing",
    "Tomato, Harvest Bell (packet says VFFN), 1 May 2030 to 1 Oct 2030",
    "Carrot, 10 Jan 2030 to 20 Apr 2030",
    "Onion, 1 Oct 2031",
    "Wilts at noon; fruit < 4 cm & pale",
    "☒ patches",
    "Seen since",
    "Compost, 3 kg per m², 4 Mar 2031",
    "Mustard meal, 200 g per m², 10 Apr 2031",
    "The neighbour sees the same.",
    "Living samples: open on arrival.",
    "Lifted Packed Handed over Received",
    "Signature",
    "Lab no.",
]


@pytest.fixture(scope="module", params=["a4", "letter"])
def parcel(request):
    return submission_sheet(PARCEL, request.param)


@pytest.fixture(scope="module")
def said(parcel):
    return " ".join(page.extract_text() for page in paper.reader(parcel).pages)


@pytest.mark.parametrize("answer", ASKED)
def test_every_field_a_lab_asks_for_is_answered(answer, parcel, said):
    ordered = " ".join(said.split())
    assert answer in paper.flowing(parcel) or answer in ordered


def test_there_is_one_page_for_the_parcel_and_one_for_each_bag(parcel):
    pages = [page.extract_text() for page in paper.reader(parcel).pages]
    assert len(pages) == 3
    assert "K7M2-H" in pages[0] and "A2B3-C" in pages[0]
    assert "K7M2-H" in pages[1] and "A2B3-C" not in pages[1]
    assert "A2B3-C" in pages[2] and "K7M2-H" not in pages[2]


@pytest.mark.parametrize("n_words", range(0, 90, 6))
@pytest.mark.parametrize("size", ["a4", "letter"])
def test_the_lines_for_the_labs_remarks_never_spill_onto_a_page_of_their_own(size, n_words):
    lab = dataclasses.replace(LAB, parcel_wishes="gently " * n_words)
    printed = submission_sheet(dataclasses.replace(PARCEL, lab=lab), size)
    pages = [page.extract_text() for page in paper.reader(printed).pages]
    assert all("Bag" in page for page in pages)
    assert len(pages) == 3


def test_a_phone_reads_the_qr_of_each_bag_from_paper(parcel):
    pages = paper.pictures(parcel, dpi=150)
    assert [[text for text, _ in paper.scanned(page)] for page in pages] == [
        [],
        [FULL.link],
        [BLANK.link],
    ]


def test_the_qr_is_25_mm_wide(parcel):
    (_, wide) = paper.scanned(paper.pictures(parcel, dpi=254)[1])[0]
    # 254 dpi is ten pixels to the millimetre; the reader is true to about a module.
    assert wide == pytest.approx(250, abs=8)


def test_the_qr_of_a_poor_copy_still_reads():
    pages = paper.pictures(submission_sheet(PARCEL, "a4"), dpi=80)
    faded = pages[1].point(lambda ink: 90 + ink * 0.5)
    assert [text for text, _ in paper.scanned(faded)] == [LINK]


def test_what_is_not_known_leaves_room_to_write():
    said = paper.flowing(submission_sheet(EMPTY, "letter"))
    for label in ("Name", "Address", "Account number", "Lifted", "Crop now", "Treatments"):
        assert label in said
    assert "☒" in said  # the purpose and the roots are known
    assert "☐ dust-dry ☐ just moist ☐ wet ☐ soaked" in said
    assert len(paper.reader(submission_sheet(EMPTY, "letter")).pages) == 2


def test_growers_who_measure_in_feet_read_feet():
    said = paper.flowing(submission_sheet(dataclasses.replace(PARCEL, units="us"), "letter"))
    # 20 cm / 2.54 = 7.9 in; 24 000 cm² / 929.03 = 25.8 ft²; 24.5 °C = 76.1 °F.
    for measure in ("0–8 in", "part of it, 26 ft²", "76 °F"):
        assert measure in said
    assert "cm" not in said.replace("cm³", "").replace("4 cm", "")


def test_a_name_of_sixty_characters_stays_beside_the_qr():
    page = paper.pictures(submission_sheet(PARCEL, "a4"), dpi=100)[1]
    assert [text for text, _ in paper.scanned(page)] == [LINK]
    assert len(SIXTY) == 60


def long_winded():
    wide = "W" * 80
    crop = CropGrown(wide, wide, "X" * 40, "2030-05-02", "2030-09-09")
    sample = dataclasses.replace(
        FULL,
        bed_name=wide,
        soil="m " * 100,
        symptom="x\n" * 250,
        treatments="y\n" * 500,
        note="again " * 600,
        crops=CropHistory((crop,) * 3, (crop,) * 9),
        next_crop=wide,
        core_places=tuple((i % 120, 2 * i) for i in range(200)),
    )
    grower = dataclasses.replace(GROWER, name=wide, address="a\n" * 150, email="e" * 254)
    lab = Lab(name="L" * 120, address="b " * 150, parcel_wishes="w\n" * 500, email="f" * 254)
    return dataclasses.replace(PARCEL, grower=grower, lab=lab, samples=(sample,))


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_the_longest_texts_a_record_may_hold_stay_on_the_pages(size):
    printed = submission_sheet(long_winded(), size)
    assert "and 3 earlier" in paper.flowing(printed)
    assert paper.text(printed).count("again") == 600
    for picture in paper.pictures(printed, dpi=50):
        assert paper.ink_in_margins(picture, 17) == 0


def test_signs_no_font_has_break_nothing():
    odd = dataclasses.replace(FULL, bed_name="bed \x07 豆 🌱 \u202e", symptom="a\tb\r\nc")
    said = paper.flowing(submission_sheet(dataclasses.replace(PARCEL, samples=(odd,)), "a4"))
    assert "a b; c" in said


def test_forty_bags_fit_in_one_parcel():
    bags = dataclasses.replace(PARCEL, samples=(FULL, BLANK) * 20)
    printed = submission_sheet(bags, "a4")
    assert "Sample 40 of 40 in this parcel" in paper.flowing(printed)


def test_the_part_a_sample_stands_for_is_hatched_and_its_cores_crossed():
    plain = dataclasses.replace(FULL, part=None, core_places=())
    shaded, bare = (
        paper.pictures(submission_sheet(dataclasses.replace(PARCEL, samples=(each,)), "a4"))[1]
        for each in (FULL, plain)
    )
    assert "hatched: this sample" in paper.text(submission_sheet(PARCEL, "a4"))
    bed = (40, 250, 480, 800)
    dark = [sum(page.crop(bed).histogram()[:128]) for page in (shaded, bare)]
    assert dark[0] > 1.5 * dark[1]


def test_an_l_shaped_bed_is_drawn_with_its_own_area():
    corner = dataclasses.replace(BLANK, shape=CORNER_BED, core_places=((20, 20), (250, 80)))
    said = paper.flowing(submission_sheet(dataclasses.replace(EMPTY, samples=(corner,)), "a4"))
    # 300 × 100 + 140 × 60 = 38 400 cm².
    assert "whole bed, 3.8 m²" in said
    assert "bed 3.8 m², × 2 cores" in said


def test_labs_with_odd_working_days_have_them_listed():
    parcel = dataclasses.replace(PARCEL, lab=dataclasses.replace(LAB, working_days=(4, 0, 2)))
    assert "Mon, Wed, Fri" in paper.flowing(submission_sheet(parcel, "a4"))


@pytest.mark.parametrize(
    ("part", "named"),
    [
        ((0, 0, 120, 210), "top half, 2.5 m²"),
        ((0, 210, 120, 210), "bottom half, 2.5 m²"),
        ((0, 0, 60, 420), "left half, 2.5 m²"),
        ((60, 0, 60, 420), "right half, 2.5 m²"),
        ((0, 0, 60, 210), "part of it, 1.3 m²"),
        ((10, 0, 110, 210), "part of it, 2.3 m²"),
    ],
)
def test_a_half_is_named_as_the_bed_is_drawn(part, named):
    sides = dict(zip(("x_cm", "y_cm", "width_cm", "length_cm"), part, strict=True))
    sample = dataclasses.replace(FULL, part=sides)
    parcel = dataclasses.replace(PARCEL, samples=(sample,))
    assert f"Stands for {named}" in paper.flowing(submission_sheet(parcel, "a4"))


def test_the_half_of_an_odd_side_is_still_a_half():
    shape = {"type": "rectangle", "width_cm": 121, "length_cm": 301}
    for top, long in ((151, 150), (150, 151)):
        sides = {"x_cm": 0, "y_cm": top, "width_cm": 121, "length_cm": long}
        sample = dataclasses.replace(FULL, shape=shape, part=sides, core_places=())
        assert area_of(sample, "metric").startswith("bottom half, ")


def test_roots_nobody_spoke_of_are_boxes_to_tick_and_no_answer_in_the_list():
    said = paper.flowing(submission_sheet(EMPTY, "a4"))
    assert "Roots in bag ☐ yes ☐ no" in said
    assert "Hours by" not in said
    for answer, ticked in ((True, "☒ yes ☐ no"), (False, "☐ yes ☒ no")):
        sample = dataclasses.replace(BLANK, has_roots=answer)
        parcel = dataclasses.replace(EMPTY, samples=(sample,))
        assert f"Roots in bag {ticked}" in paper.flowing(submission_sheet(parcel, "a4"))


def test_the_longest_zone_name_is_printed_whole():
    at = datetime(2031, 8, 3, 9, 30, tzinfo=ZoneInfo("America/Argentina/ComodRivadavia"))
    parcel = dataclasses.replace(PARCEL, samples=(dataclasses.replace(FULL, lifted_at=at),))
    assert "(America/Argentina/ComodRivadavia)" in paper.flowing(submission_sheet(parcel, "a4"))


@pytest.mark.parametrize(
    "email",
    [
        "zsofia@example.org",
        "z.koemueves-agaoglu@growers.example",
        "n" * 24 + "@" + "n" * 20 + ".example",
    ],
)
def test_an_address_for_mail_breaks_nowhere_but_before_its_at(email):
    grower = dataclasses.replace(GROWER, email=email)
    sheet = submission_sheet(dataclasses.replace(PARCEL, grower=grower), "a4")
    words = paper.reader(sheet).pages[0].extract_text().split()
    name, _, host = email.partition("@")
    assert email in words or {name, f"@{host}"} <= set(words)
