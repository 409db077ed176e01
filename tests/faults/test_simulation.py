import pytest
from django.conf import settings

from gardens.models import RECORD_MODELS, Conflict, JournalEntry
from tests.faults.counts import FIRST_SEED, TIMES, Counts, tell
from tests.faults.invariants import check_everything
from tests.faults.planted import PLANTED
from tests.faults.season import Size, run
from tests.faults.simulated import PULL_FAULTS, PUSH_FAULTS, forget_everything

# The rule is the same code on both; PostgreSQL is asked for its locks and types, not for chance.
IS_SQLITE = settings.DATABASES["default"]["ENGINE"].endswith("sqlite3")
SEEDS = range(FIRST_SEED, FIRST_SEED + (6 if IS_SQLITE else 1) * TIMES)
SIZE = Size() if IS_SQLITE else Size(steps=100)
SMALL = Size(devices=3, steps=60)


@pytest.mark.parametrize("restoring", [False, True], ids=["", "with restored backups"])
@pytest.mark.parametrize("seed", SEEDS)
def test_nothing_is_lost_on_a_bad_line(grower, seed, restoring):
    counts = Counts()
    check_everything(*run(grower, seed, SIZE, restoring=restoring, counts=counts))
    tell("simulation, restored" if restoring else "simulation", counts)


@pytest.mark.skipif(not IS_SQLITE, reason="the dice are the same on every database")
def test_the_simulation_meets_every_fault_and_conflicts_tombstones_and_repeats(grower):
    counts = Counts()
    run(grower, 0, restoring=True, counts=counts)
    faults = {*PUSH_FAULTS, *PULL_FAULTS} - {"none"}
    assert min(counts[fault] for fault in faults | {"restores", "healed"}) > 0
    assert Conflict.objects.count() > 3
    assert RECORD_MODELS["bed"].objects.filter(deleted=True).exists()
    assert JournalEntry.objects.filter(status="conflict").exists()


@pytest.mark.parametrize("fault", PLANTED)
def test_the_simulation_sees_a_planted_fault_within_ten_seeds(grower, monkeypatch, fault):
    places, name, instead = PLANTED[fault]
    for place in places:
        monkeypatch.setattr(place, name, instead)
    with pytest.raises(AssertionError):
        for seed in range(10):
            check_everything(*run(grower, seed, SMALL, restoring=fault == "any history"))
            forget_everything()
