from dataclasses import replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

from gardens.sheets.packing_slip import packing_slip
from gardens.sheets.pots_sheet import pots_sheet
from gardens.sheets.submission import submission_sheet
from tests.sheets import paper
from tests.sheets.things_to_print import FULL, PARCEL, POTS

ACCRA = ZoneInfo("Africa/Accra")
HANDED = replace(
    FULL,
    packed_at=datetime(2031, 8, 3, 10, 5, tzinfo=ACCRA),
    handed_over_at=datetime(2031, 8, 4, 8, 0, tzinfo=ACCRA),
    handed_over_to="the morning van",
    arrived_on=date(2031, 8, 5),
    extracted_on=date(2031, 8, 6),
)


def test_a_slip_says_to_open_on_arrival_and_lists_every_bag():
    said = paper.flowing(packing_slip(PARCEL, "a4"))
    assert "open on arrival" in said and "2 bags of living soil" in said
    assert "K7M2-H" in said and "A2B3-C" in said


def test_a_slip_knows_whose_hands_the_bags_went_through():
    said = paper.flowing(packing_slip(replace(PARCEL, samples=(HANDED,)), "letter"))
    for words in (
        "Lifted 3 Aug 2031, 09:30",
        "Packed 3 Aug 2031, 10:05",
        "Handed over 4 Aug 2031, 08:00 the morning van",
        "Received 5 Aug 2031",
        "Extracted 6 Aug 2031",
    ):
        assert words in said


def test_what_bags_do_not_agree_on_is_left_to_the_pen():
    said = paper.flowing(packing_slip(replace(PARCEL, samples=(HANDED, FULL)), "a4"))
    assert "Lifted 3 Aug 2031, 09:30" in said and "morning van" not in said


def test_every_bag_of_a_slip_has_a_code_a_scanner_reads():
    other = replace(FULL, code="R4THB", link="https://garden.example/samples/other")
    (page,) = paper.pictures(packing_slip(replace(PARCEL, samples=(FULL, other)), "a4"))
    assert {text for text, _ in paper.scanned(page)} == {FULL.link, other.link}


def test_the_soil_that_is_asked_for_stands_on_the_sample_s_page():
    asked = replace(PARCEL, samples=(replace(FULL, extract_cm3_asked=250),))
    assert "Please extract at least 250 cm³" in paper.flowing(submission_sheet(asked, "a4"))
    assert "Please extract" not in paper.flowing(submission_sheet(PARCEL, "a4"))


def test_a_pots_sheet_says_what_to_do_and_when():
    pdf = pots_sheet(POTS, "a4")
    said = paper.flowing(pdf)
    # 2.1 litres in three pots and a blank; 21 to 25 days at 22 to 28 °C (Stirling 2025).
    assert "fill 700 cm³ into each pot; pot 4 with bought potting mix" in said
    assert "Wash and count from 25 Jul 2031, by 12 Aug 2031" in said
    assert "22 to 28 °C" in said and "no proof that there are none" in said
    assert paper.scanned(paper.pictures(pdf)[0])[0][0] == POTS.link


def test_a_pots_sheet_has_a_line_for_every_pot():
    said = paper.text(pots_sheet(replace(POTS, n_pots=20, blank_pot=None), "letter"))
    assert said.count("the bed's") >= 20 and "potting mix" not in said
