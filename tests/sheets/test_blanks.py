import dataclasses

import pytest

from gardens.domain.crop_history import CropHistory
from gardens.sheets.blanks import blanks
from gardens.sheets.submission import submission_sheet
from gardens.sheets.values import Grower, Lab
from tests.sheets import paper
from tests.sheets.things_to_print import EMPTY, FULL, GROWER, LAB, PARCEL

ONE = dataclasses.replace(PARCEL, samples=(FULL,))


def of_sample(**changed):
    parcel = dataclasses.replace(PARCEL, samples=(dataclasses.replace(FULL, **changed),))
    return blanks(parcel, ["bag"])["samples"]["bag"]


def of_grower(**changed):
    return blanks(dataclasses.replace(ONE, grower=dataclasses.replace(GROWER, **changed)), ["bag"])


def test_a_parcel_with_every_answer_has_no_empty_line():
    assert blanks(ONE, ["bag"]) == {"grower": [], "lab": [], "samples": {"bag": []}}


@pytest.mark.parametrize(
    ("changed", "label"),
    [
        ({"lifted_at": None}, "Lifted"),
        ({"n_cores": None}, "Cores mixed"),
        ({"core_places": ()}, "Cores on the sketch"),
        ({"depth": None}, "Depth"),
        ({"moisture": None}, "Moisture"),
        ({"soil_temperature_celsius": None}, "Soil temp."),
        ({"soil": " "}, "Soil"),
        ({"irrigated": None}, "Irrigated"),
        ({"has_roots": None}, "Roots in bag"),
        ({"crops": CropHistory((), ())}, "Crop now"),
        ({"symptom": ""}, "Symptoms"),
        ({"symptom_pattern": None}, "Pattern"),
        ({"tests_wanted": ()}, "Tests wanted"),
        ({"treatments": "\n"}, "Treatments"),
        ({"next_crop": "", "next_crop_on": None}, "Next crop, day"),
    ],
)
def test_an_answer_that_is_missing_is_named_as_on_the_sheet(changed, label):
    assert of_sample(**changed) == [label]
    parcel = dataclasses.replace(PARCEL, samples=(dataclasses.replace(FULL, **changed),))
    if label != "Cores on the sketch":
        assert label in paper.flowing(submission_sheet(parcel, "a4"))


def test_a_no_and_a_zero_are_answers():
    assert of_sample(irrigated=False, has_roots=False, soil_temperature_celsius=0.0) == []


def test_one_way_to_reach_the_grower_is_enough():
    assert of_grower(phone="")["grower"] == []
    assert of_grower(email="")["grower"] == []
    assert of_grower(phone="", email="")["grower"] == ["Phone", "E-mail"]
    assert of_grower(name="", address="")["grower"] == ["Name", "Address"]


def test_without_a_lab_its_lines_are_not_asked_for_one_by_one():
    assert blanks(dataclasses.replace(ONE, lab=None), ["bag"])["lab"] == ["Lab"]
    lab = dataclasses.replace(LAB, address="", account_number="", phone="")
    assert blanks(dataclasses.replace(ONE, lab=lab), ["bag"])["lab"] == [
        "Address",
        "Account number",
    ]
    assert blanks(dataclasses.replace(ONE, lab=Lab()), ["bag"])["lab"][0] == "Lab"


def test_nothing_known_names_what_a_person_can_fill_and_what_is_always_left_to_the_pen_not():
    found = blanks(EMPTY, [str(each) for each, _ in enumerate(EMPTY.samples)])
    assert found["grower"] == ["Name", "Address", "Phone", "E-mail", "Garden"]
    assert {"Seen since", "Kept so far", "Spot"}.isdisjoint(found["samples"]["0"])
    assert len(found["samples"]["0"]) == 15
    assert Grower() == EMPTY.grower
