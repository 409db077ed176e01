"""What goes into the soil: how much of it, with which evidence and which cautions.

Not for answering: one module for each thing does that.
"""

from collections.abc import Callable, Mapping

from gardens.domain.asked import compost, cover_crop, dressing, nitrogen, tried, typed_rate
from gardens.domain.asked.answer import Answer, Asked

ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {
    **compost.ANSWERED,
    **tried.ANSWERED,
    **dressing.ANSWERED,
    **typed_rate.ANSWERED,
    **nitrogen.ANSWERED,
    **cover_crop.ANSWERED,
}
