"""An invented grower with an invented lab, two beds and a root check."""

import json
from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from gardens.domain.crop_history import CropGrown, crop_history
from gardens.domain.galling import Reading
from gardens.domain.scales import read_scale
from gardens.sheets.values import (
    BedMap,
    Grower,
    Lab,
    Mark,
    PotsSheet,
    RatingForm,
    Sample,
    Submission,
)

SCALES = json.loads(
    (Path(__file__).resolve().parents[2] / "fixtures" / "scales.json").read_text("utf-8")
)
PCT10 = read_scale("pct10", SCALES)

LONG_BED = {"type": "rectangle", "width_cm": 120, "length_cm": 420}
CORNER_BED = {
    "type": "outline",
    "points_cm": [[0, 0], [300, 0], [300, 100], [140, 100], [140, 160], [0, 160]],
}
SIXTY = "Long bed by the łąka fence, őű ağaç piñón übergroß, sixty ch"
LINK = "https://garden.example/samples/01890a5d-ac96-774b-bcce-b302099a8057"

OKRA = CropGrown("Okra", "Red Lantern", "", "2031-05-02", None)
CROPS = crop_history(
    [
        OKRA,
        CropGrown("Carrot", "", "", "2030-01-10", "2030-04-20"),
        CropGrown("Tomato", "Harvest Bell", "VFFN", "2030-05-01", "2030-10-01"),
    ],
    "2031-08-03",
)

FULL = Sample(
    code="K7M2H",
    link=LINK,
    bed_name=SIXTY,
    shape=LONG_BED,
    purpose="diagnose",
    soil="sandy loam",
    part={"x_cm": 0, "y_cm": 100, "width_cm": 120, "length_cm": 200},
    lifted_at=datetime(2031, 8, 3, 9, 30, tzinfo=ZoneInfo("Africa/Accra")),
    n_cores=20,
    core_places=tuple((15 + 30 * (i % 4), 110 + 40 * (i // 4)) for i in range(20)),
    depth={"from_cm": 0, "to_cm": 20},
    moisture="just_moist",
    soil_temperature_celsius=24.5,
    has_roots=True,
    good_or_poor="poor_spot",
    symptom="Wilts at noon; fruit < 4 cm & pale",
    symptom_pattern="patches",
    irrigated=True,
    treatments="Compost, 3 kg per m², 4 Mar 2031\nMustard meal, 200 g per m², 10 Apr 2031",
    crops=CROPS,
    next_crop="Onion",
    next_crop_on=date(2031, 10, 1),
    tests_wanted=("nematode_count", "species_id"),
    note="The neighbour sees the same.",
)
BLANK = Sample(
    code="A2B3C", link=LINK[:-1] + "8", bed_name="Corner", shape=CORNER_BED, purpose="predict"
)

GROWER = Grower(
    name="Zsófia Kőműves-Ağaoğlu",
    address="12 Willow Lane\nLower Valley",
    phone="+00 555 0100",
    email="zsofia@example.org",
    garden_name="Hillside plot",
    garden_place="Lower Valley",
)
LAB = Lab(
    name="Example Soil Laboratory",
    address="1 Sample Street, Testtown",
    phone="+00 555 0199",
    email="soil@example.org",
    account_number="A-0042",
    reporting_unit="juveniles per 100 cm³ of soil",
    working_days=(0, 1, 2, 3, 4),
    parcel_wishes="Two bags, label outside.",
)
PARCEL = Submission(grower=GROWER, lab=LAB, samples=(FULL, BLANK), sent_on=date(2031, 8, 4))
EMPTY = Submission(grower=Grower(), lab=None, samples=(BLANK,))

PLANTS = tuple((30 + 60 * column, 25 + 45 * row) for row in range(9) for column in range(2))


def mark(number, grade=None, state="rated", gall_scale="pct10"):
    x, y = PLANTS[number - 1]
    return Mark(x_cm=x, y_cm=y, plant=number, reading=Reading(state, grade, gall_scale))


MAP = BedMap(
    garden_name="Hillside plot",
    bed_name=SIXTY,
    shape=LONG_BED,
    crop=OKRA,
    checked_on=date(2031, 8, 3),
    scale=PCT10,
    chosen={"how": "every_kth", "every_k": 3},
    marks=(
        *(
            mark(number, grade)
            for number, grade in zip((1, 4, 7, 10, 13, 16), (0, 1, 1, 2, 3, 5), strict=True)
        ),
        mark(2, state="missing"),
        mark(3, state="dead"),
    ),
    plants=PLANTS,
    n_plants_stood=12,
    rater="Mara",
    note="Roots washed in a bucket.",
    link=LINK,
)
FORM = RatingForm(
    garden_name="Hillside plot",
    bed_name=SIXTY,
    shape=LONG_BED,
    crop=OKRA,
    scale=PCT10,
    plants=PLANTS,
)
POTS = PotsSheet(
    garden_name="Hillside plot",
    bed_name=SIXTY,
    crop="Tomato, Red Lantern",
    n_pots=4,
    blank_pot=4,
    soil_cm3_per_pot=700,
    sown_on=date(2031, 7, 1),
    ready_from_on=date(2031, 7, 25),
    ready_to_on=date(2031, 8, 12),
    link="https://garden.example/plantings/01890a5d-ac96-774b-bcce-b302099a8058",
    bag_code="K7M2H",
)
