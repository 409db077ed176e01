import json
from collections import Counter
from datetime import UTC, datetime
from io import StringIO

import pytest
from django.contrib.auth import authenticate
from django.core.management import call_command

from gardens.domain import records
from gardens.models import RECORD_MODELS, Blob, Garden, JournalEntry
from gardens.selectors.briefing import brief
from gardens.services.demo import DEMO_USERNAME, RECORDS, kept_password, load_demo, make_password

PASSWORD = "a-wall-and-four-figs"
NOW = datetime(2026, 11, 24, 9, 0, tzinfo=UTC)
CONTENT = json.loads(RECORDS.read_text(encoding="utf-8"))
SETS = [(item["kind"], item["set"]) for item in CONTENT["mutations"]]
DOCUMENTED = {
    "garden": 1,
    "bed": 6,
    "planting": 16,
    "root_check": 13,
    "gall_rating": 76,
    "photo": 5,
    "lab_profile": 1,
    "soil_sample": 2,
    "assay_report": 1,
    "paper": 0,
    "conflict": 0,
}

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def data_in_a_folder_of_its_own(settings, tmp_path):
    settings.DATA_DIR, settings.PHOTOS_DIR = tmp_path, tmp_path / "photos"


def ratings():
    return [values for kind, values in SETS if kind == "gall_rating"]


def test_every_record_is_one_a_phone_could_have_sent():
    for kind, values in SETS:
        assert records.checked_set(kind, values, creating=True)


def test_no_record_names_another_that_is_not_in_the_garden():
    kinds = {item["id"]: item["kind"] for item in CONTENT["mutations"]}
    subjects = [("photo", {"of": photo["of"]}) for photo in CONTENT["photos"]]
    for kind, values in SETS + subjects:
        for wanted, other in records.references(kind, values):
            assert kinds[other] == wanted


def test_every_grade_is_0_to_10_and_a_trace_is_never_grade_0():
    for reading in (rating["reading"] for rating in ratings()):
        if reading["state"] == "rated":
            assert 0 <= reading["grade"] <= 10
            assert reading["grade"] >= 1 or not reading["trace_only"]
        else:
            assert reading["grade"] is None and not reading["trace_only"]


def test_every_rating_stands_on_the_plant_it_names():
    sets = {item["id"]: item["set"] for item in CONTENT["mutations"]}
    for rating in ratings():
        place = rating["place"]
        plants = sets[sets[rating["root_check"]]["planting"]]["plants"]
        assert plants[place["plant"] - 1] == [place["x_cm"], place["y_cm"]]


def test_loading_stores_what_is_documented():
    loaded = load_demo(now=NOW, password=PASSWORD)

    stored = {kind: model.objects.count() for kind, model in RECORD_MODELS.items()}
    assert stored == DOCUMENTED | {"held": 0}
    assert (loaded.n_records, loaded.n_photos) == (sum(DOCUMENTED.values()), 5)
    assert Blob.objects.count() == 5
    assert authenticate(username=DEMO_USERNAME, password=PASSWORD) is not None


def test_the_journal_numbers_every_record_once():
    load_demo(now=NOW, password=PASSWORD)

    garden = Garden.objects.get()
    numbers = list(garden.journal.order_by("seq").values_list("seq", flat=True))
    assert numbers == list(range(1, garden.head + 1))
    assert Counter(garden.journal.values_list("status", flat=True)).keys() == {"applied"}


def told():
    """What is known of the demo garden the day after its last entry."""
    load_demo(now=NOW, password=PASSWORD)
    return brief(Garden.objects.get(), NOW.date().isoformat())


def test_the_demo_shows_a_hint_of_species_from_what_galled_and_what_did_not():
    hints = [bed["species"] for bed in told()["beds"] if bed["species"]]
    assert hints
    for hint in hints:
        assert len(hint["consistent_with"]) >= 2
        assert any(one["because"] for one in hint["consistent_with"])
        words = " ".join(hint["why"])
        assert "has no galls" in words and "is galled" in words


def test_the_demo_shows_a_map_of_hot_spots_with_ground_where_nobody_dug():
    maps = [bed["surface"] for bed in told()["beds"] if bed["surface"]]
    drawn = [one for one in maps if one["gate"] == "open"]
    assert any({"full", "pale", "hatch"} <= set(one["ground"]) for one in drawn)


def test_the_demo_shows_a_line_about_the_whole_garden():
    (line,) = told()["lines"]
    assert line["code"] == "beds_worked_last"
    assert "Rain barrel bed last" in line["words"]


def test_loading_twice_changes_nothing():
    load_demo(now=NOW, password=PASSWORD)
    before = list(JournalEntry.objects.order_by("seq").values())
    head = Garden.objects.get().mark

    out = StringIO()
    call_command("load_demo", stdout=out)

    assert load_demo(now=NOW, password=PASSWORD) is None
    assert list(JournalEntry.objects.order_by("seq").values()) == before
    assert Garden.objects.get().mark == head
    assert "nothing changed" in out.getvalue()


def test_every_demo_makes_a_password_of_its_own_and_keeps_it_for_its_owner(tmp_path):
    one, other = tmp_path / "one", tmp_path / "other"
    for folder in (one, other):
        folder.mkdir()
        assert kept_password(folder) is None
    assert make_password(one) != make_password(other)
    assert kept_password(one) != kept_password(other)
    assert len(kept_password(one).replace("-", "")) == 12
    assert (one / "demo_password").stat().st_mode & 0o777 == 0o600


def test_the_printed_password_is_the_one_that_was_kept_and_signs_in(tmp_path):
    out = StringIO()
    call_command("load_demo", stdout=out)

    password = kept_password(tmp_path)
    assert f'the password "{password}"' in out.getvalue()
    assert authenticate(username=DEMO_USERNAME, password=password) is not None
