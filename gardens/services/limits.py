"""How often and how much a phone or a garden may do, counted in the database.

So every process and every thread counts together, and a restart forgets nothing.
"""

from datetime import datetime
from uuid import UUID

from django.conf import settings
from django.db import connection

from gardens.models import Allowance
from gardens.services.turns import in_turn

DAY_S = 24 * 3600


class SlowDown(Exception):
    """It was too often or too much; ``wait_s`` says when it may go on."""

    def __init__(self, wait_s: int) -> None:
        super().__init__(wait_s)
        self.wait_s = wait_s


def spend(*, deed: str, subject: UUID, amount: int, now: datetime) -> None:
    """Count one time of a deed and its amount; raises ``SlowDown`` when that was too much.

    One statement counts and asks, so that two requests at once cannot both be the last one.
    """
    limit = settings.ALLOWANCES[deed]
    second = int(now.timestamp())
    short, long = second // limit["window_s"], second // DAY_S
    with in_turn(briefly=True):
        n_times, total = _count(deed, subject, short, long, amount)
    if total > limit["most_a_day"]:
        raise SlowDown(DAY_S - second % DAY_S)
    if n_times > limit["most_times"]:
        raise SlowDown(limit["window_s"] - second % limit["window_s"])


def _count(deed: str, subject: UUID, short: int, long: int, amount: int) -> tuple[int, int]:
    """Both databases know this statement; Django's own words for it need two."""
    table = connection.ops.quote_name(Allowance._meta.db_table)
    key = Allowance._meta.get_field("subject").get_db_prep_value(subject, connection)
    with connection.cursor() as cursor:
        cursor.execute(
            f"INSERT INTO {table} AS had"
            " (deed, subject, short_window, n_times, long_window, amount)"
            " VALUES (%s, %s, %s, 1, %s, %s)"
            " ON CONFLICT (deed, subject) DO UPDATE SET"
            " n_times = CASE WHEN had.short_window = excluded.short_window"
            " THEN had.n_times + 1 ELSE 1 END,"
            " amount = CASE WHEN had.long_window = excluded.long_window"
            " THEN had.amount + excluded.amount ELSE excluded.amount END,"
            " short_window = excluded.short_window, long_window = excluded.long_window"
            " RETURNING n_times, amount",
            [deed, key, short, long, amount],
        )
        n_times, total = cursor.fetchone()
    return n_times, total
