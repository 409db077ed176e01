"""How warm the soil is, day by day, from one temperature or a row of them that was typed.

Not for what lives in it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from gardens.domain.asked.answer import Asked
from gardens.domain.errors import DomainError
from gardens.domain.judgements import judged
from gardens.domain.said import Said
from gardens.domain.trap_crops import daily_from_monthly

COLDEST, WARMEST = -10, 50
LONGEST_DAYS = 1096
MONTHS = 12


@dataclass(frozen=True)
class SoilHeat:
    """Mean soil temperature of each day [degrees C, -10..50] from ``from_on`` on.

    ``steady`` is set when one temperature was given for all days; ``open_ended`` when the row
    only ends because it has to end somewhere.
    """

    daily: tuple[float, ...]
    from_on: date
    said: Said
    steady: float | None
    open_ended: bool


def read_heat(asked: Asked, from_on: date) -> SoilHeat:
    """The soil temperatures of a question.

    Parameters
    ----------
    asked : Asked
        With ``soil_celsius`` [degrees C], or ``soil_row`` in ``row_unit``: twelve are monthly
        means, any other number one for each day.
    from_on : date
        The first day counted.

    Returns
    -------
    SoilHeat
        From the row where both were given.

    Raises
    ------
    DomainError
        ``asked_no_temperature`` or ``asked_out_of_range``, each with its field.
    """
    row = _row_celsius(asked)
    if row:
        return _of_row(row, from_on)
    steady = asked.given.maybe("soil_celsius")
    if steady is None:
        raise DomainError("asked_no_temperature", field="soil_celsius")
    said = Said("heat_from_steady", {"celsius": steady, "fahrenheit": steady * 1.8 + 32})
    return SoilHeat((steady,) * LONGEST_DAYS, from_on, said, steady, open_ended=True)


def _row_celsius(asked: Asked) -> tuple[float, ...]:
    row = asked.given.numbers("soil_row")
    if asked.given.text("row_unit") == "fahrenheit":
        row = tuple((each - 32) / 1.8 for each in row)
    if not all(COLDEST <= each <= WARMEST for each in row):
        raise DomainError(
            "asked_out_of_range", field="soil_row", low=COLDEST, high=WARMEST, unit=" °C"
        )
    return row


def _of_row(row: Sequence[float], from_on: date) -> SoilHeat:
    if len(row) == MONTHS:
        daily = daily_from_monthly(row, from_on.isoformat(), LONGEST_DAYS)
        return SoilHeat(daily, from_on, Said("heat_from_months"), None, open_ended=True)
    said = Said("heat_from_days", {"n": len(row)})
    return SoilHeat(tuple(row), from_on, said, None, open_ended=False)


def hotter_than_the_line(asked: Asked, daily: Sequence[float]) -> bool:
    """Whether any day is hotter than the straight line of degree-days goes.

    Parameters
    ----------
    asked : Asked
        The question.
    daily : sequence of float
        Any number of days [degrees C].

    Returns
    -------
    bool
        By the judged end of the line.
    """
    return max(daily) > judged(asked.teller.judgements, "heat_top_celsius")
