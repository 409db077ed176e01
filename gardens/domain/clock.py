"""The clock a garden goes by: the day and the hour a moment has there.

Not for what time it is now: whoever asks says so.
"""

from datetime import date, datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError


def zone_of(name: str) -> ZoneInfo:
    """Return the zone of a garden's ``time_zone``.

    Parameters
    ----------
    name : str
        A name of the IANA time zone database; any other text means UTC, on the phone too.

    Returns
    -------
    ZoneInfo

    Examples
    --------
    >>> zone_of("Asia/Kolkata").key, zone_of("Nowhere/Land").key
    ('Asia/Kolkata', 'UTC')
    """
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        # A phone may send any text here; a day in UTC is better than none.
        return ZoneInfo("UTC")


def hour_there(zone: ZoneInfo, moment: str) -> datetime:
    """Return a moment as the garden's clock shows it.

    Parameters
    ----------
    zone : ZoneInfo
        From `zone_of`.
    moment : str
        ISO 8601 in UTC, as records hold it.

    Returns
    -------
    datetime

    Examples
    --------
    >>> hour_there(zone_of("Asia/Kolkata"), "2031-08-03T20:00:00.000Z").isoformat()
    '2031-08-04T01:30:00+05:30'
    """
    return datetime.fromisoformat(moment).astimezone(zone)


def day_there(zone: ZoneInfo, moment: str) -> date:
    """Return the day a moment has on the garden's clock.

    Parameters
    ----------
    zone : ZoneInfo
        From `zone_of`.
    moment : str
        ISO 8601 in UTC, as records hold it.

    Returns
    -------
    date

    Examples
    --------
    >>> day_there(zone_of("Pacific/Pago_Pago"), "2031-08-03T10:30:00.000Z").isoformat()
    '2031-08-02'
    """
    return hour_there(zone, moment).date()
