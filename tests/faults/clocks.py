"""Clocks of phones: right, wrong by a day, an hour or a decade, and jumping about."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from random import Random

NOW = datetime(2031, 6, 14, 12, tzinfo=UTC)
WRONG: tuple[Callable[[Random], datetime], ...] = (
    lambda dice: NOW,
    lambda dice: NOW - timedelta(days=1),
    lambda dice: NOW + timedelta(hours=1),
    lambda dice: NOW + timedelta(days=3652),
    lambda dice: datetime(1970, 1, 1, tzinfo=UTC),
    lambda dice: datetime(2099, 12, 31, tzinfo=UTC),
    lambda dice: NOW + timedelta(seconds=dice.randint(-(10**9), 10**9)),
)


def text(moment: datetime) -> str:
    """Return a moment as the wire writes it."""
    return moment.strftime("%Y-%m-%dT%H:%M:%S.000Z")
