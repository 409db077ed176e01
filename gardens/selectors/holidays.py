"""The public holidays of the countries a garden's labs are in, as plain days.

The phone has no such list: it keeps the days of the last briefing.
"""

from collections.abc import Iterable
from datetime import date, timedelta
from functools import lru_cache

import holidays

_BEFORE, _AHEAD = timedelta(days=30), timedelta(days=400)


def holidays_of(countries: Iterable[str], today: date) -> dict[str, list[str]]:
    """Return days from a month ago to a year ahead; a country without a list is left out."""
    known = holidays.list_supported_countries()
    return {
        country: [
            day
            for year in range(today.year - 1, today.year + 3)
            for day in _days(country, year)
            if (today - _BEFORE).isoformat() <= day <= (today + _AHEAD).isoformat()
        ]
        for country in sorted(set(countries))
        if country in known
    }


@lru_cache(maxsize=64)
def _days(country: str, year: int) -> tuple[str, ...]:
    found = holidays.country_holidays(country, years=year)
    return tuple(sorted(day.isoformat() for day in found if day.year == year))
