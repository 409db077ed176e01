"""Questions about heat, time and numbers: which there are, and what answers each.

Not for answering them.
"""

from collections.abc import Callable, Mapping

from gardens.domain.asked.answer import Answer, Asked
from gardens.domain.asked.generations import generation_days
from gardens.domain.asked.harvest import harvest_lost
from gardens.domain.asked.paying import treatment_pays
from gardens.domain.asked.season_plan import season_with_crop
from gardens.domain.asked.starving import starving
from gardens.domain.asked.trap import trap_crop_out_by

ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {
    "trap_crop_out": trap_crop_out_by,
    "generation_days": generation_days,
    "starving": starving,
    "season_with_crop": season_with_crop,
    "harvest_lost": harvest_lost,
    "treatment_pays": treatment_pays,
}
