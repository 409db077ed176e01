"""The questions about a soil sample and its lab, from the bed to the report.

Only the list: each is answered in a module of its own.
"""

from collections.abc import Callable, Mapping

from gardens.domain.asked import (
    lab_bags,
    lab_cores,
    lab_counts,
    lab_days,
    lab_none,
    lab_sizes,
)
from gardens.domain.asked.answer import Answer, Asked

ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {
    **lab_cores.ANSWERED,
    **lab_sizes.ANSWERED,
    **lab_days.ANSWERED,
    **lab_bags.ANSWERED,
    **lab_counts.ANSWERED,
    **lab_none.ANSWERED,
}
