from django.conf import settings

from tests.faults.counts import TIMES, Counts, tell
from tests.faults.programs import run_programs

IS_SQLITE = settings.DATABASES["default"]["ENGINE"].endswith("sqlite3")
N_PROGRAMS = (200 if IS_SQLITE else 10) * TIMES


def test_no_program_of_faults_loses_anything(grower):
    counts = Counts()
    run_programs(grower, N_PROGRAMS, counts)
    tell("programs", counts)
    assert counts["restores"] > N_PROGRAMS / 10
