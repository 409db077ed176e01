from tests.domain.asking import asked, codes, words
from tests.domain.briefed import BED, bed


def test_a_layer_is_told_in_litres_cubic_feet_and_weight():
    # Cornell's rule for compost: 100 square feet, 1 inch deep, are 0.31 cubic yards.
    answer = asked("compost_layer", area_m2=9.290304, depth_cm=2.54)
    said = words(answer, "amount_layer")
    assert "236 litres (8.3 cubic feet, 0.31 cubic yards)" in said
    assert "about 139 to 168 kg" in said


def test_the_layer_over_a_chosen_bed_takes_its_area():
    # 1.2 m by 3 m, 5 cm deep: 180 litres, by hand.
    answer = asked("compost_layer", [bed()], bed=BED, depth_cm=5, bag_litres=40)
    assert "180 litres" in words(answer, "amount_layer")
    assert words(answer, "amount_bags") == "5 bags of 40 litres, with 20 litres left over."
    assert codes(answer) == ["amount_layer", "amount_bags"]
