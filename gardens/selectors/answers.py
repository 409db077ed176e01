"""The answer to one question of a grower, from the stored records of a garden.

Not for answering: the core does.
"""

from collections.abc import Mapping
from typing import Any

from gardens.domain.asked import ask
from gardens.domain.roles import OWNER
from gardens.models import Garden
from gardens.selectors.briefing import told_records
from gardens.selectors.tables import all_tables


def answer(
    garden: Garden, question: str, typed: Mapping[str, str], today: str, role: str = OWNER
) -> dict[str, Any]:
    """Return what a question comes to; ``DomainError`` when there is no such question."""
    return ask(question, typed, told_records(garden, role), all_tables(), today)
