"""The words and measures printed on the sheets, in English.

Not for the screens, which have their own catalogue, nor for any verdict.
"""

from collections.abc import Mapping
from datetime import date, datetime

from gardens.domain.crop_history import CropGrown
from gardens.sheets.values import Units

LANGUAGE = "en"

PURPOSES = {
    "diagnose": "find the cause",
    "predict": "know before planting",
    "check_worked": "see if a treatment worked",
}
MOISTURES = {
    "dust_dry": "dust-dry",
    "just_moist": "just moist",
    "wet": "wet",
    "soaked": "soaked",
}
PATTERNS = {
    "patches": "patches",
    "rows": "along rows",
    "low_spots": "low spots",
    "everywhere": "everywhere",
    "none_seen": "none seen",
}
SPOTS = {"good_spot": "good growth", "poor_spot": "poor growth"}
TESTS = {
    "nematode_count": "nematode count",
    "species_id": "species",
    "root_extraction": "nematodes in roots",
    "egg_count": "egg count",
}
YES_NO = {True: "yes", False: "no"}
CHOSEN = {
    "all": "every plant dug",
    "every_kth": "every {k}th plant in digging order",
    "worst_looking": "the worst-looking plants",
    "random": "plants drawn at random",
}
# Spelt out here: the names strftime gives change with the computer's settings.
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")

_CM_PER_INCH = 2.54
_CM2_PER_SQUARE_FOOT = 929.0304


def day(value: date | None) -> str:
    """Day as ``3 Aug 2031``, the same to every reader; nothing for none.

    Parameters
    ----------
    value : date or None
        A day.

    Returns
    -------
    str
        May be empty.
    """
    return f"{value.day} {MONTHS[value.month - 1]} {value.year}" if value else ""


def hour(value: datetime | None) -> str:
    """Day and hour as ``3 Aug 2031, 09:30``; nothing for none.

    Parameters
    ----------
    value : datetime or None
        A moment, in local time.

    Returns
    -------
    str
        May be empty.
    """
    return f"{day(value)}, {value:%H:%M}" if value else ""


def clock(value: datetime | None) -> str:
    """Whose clock an hour was read from, as the time zone database calls the place.

    Parameters
    ----------
    value : datetime or None
        A moment, in local time.

    Returns
    -------
    str
        E.g. ``Pacific/Auckland``; may be empty.
    """
    if value is None:
        return ""
    return str(getattr(value.tzinfo, "key", None) or value.tzname() or "")


def length(cm: float, units: Units) -> str:
    """Length in the grower's units; 1 in is 2.54 cm.

    Parameters
    ----------
    cm : float
        [cm, >= 0]
    units : {"metric", "us"}
        To write it in.

    Returns
    -------
    str
        With its unit.

    Examples
    --------
    >>> length(20, "metric"), length(20, "us"), length(60.96, "us")
    ('20 cm', '8 in', '2 ft')
    """
    if units == "metric":
        return f"{cm:.0f} cm"
    inches = round(cm / _CM_PER_INCH)
    return f"{inches} in" if inches % 12 else f"{inches // 12} ft"


def depth(value: Mapping[str, int] | None, units: Units) -> str:
    """Depth from and to, in the grower's units.

    Parameters
    ----------
    value : Mapping or None
        A checked ``soil_sample.depth``.
    units : {"metric", "us"}
        To write it in.

    Returns
    -------
    str
        With its unit; may be empty.
    """
    if value is None:
        return ""
    if units == "metric":
        return f"{value['from_cm']}–{value['to_cm']} cm"
    low, high = (value[end] / _CM_PER_INCH for end in ("from_cm", "to_cm"))
    return f"{low:.0f}–{high:.0f} in"


def area(cm2: float, units: Units) -> str:
    """Area in the grower's units; 1 ft² is 929.0304 cm².

    Parameters
    ----------
    cm2 : float
        [cm2, >= 0]
    units : {"metric", "us"}
        To write it in.

    Returns
    -------
    str
        With its unit.

    Examples
    --------
    >>> area(36000, "metric"), area(36000, "us")
    ('3.6 m²', '39 ft²')
    """
    if units == "us":
        return f"{cm2 / _CM2_PER_SQUARE_FOOT:.0f} ft²"
    return f"{cm2 / 10_000:.1f} m²"


def temperature(celsius: float | None, units: Units) -> str:
    """Soil temperature in the grower's units; nothing for none.

    Parameters
    ----------
    celsius : float or None
        [°C]
    units : {"metric", "us"}
        To write it in.

    Returns
    -------
    str
        With its unit; may be empty.
    """
    if celsius is None:
        return ""
    return f"{round(celsius, 1):g} °C" if units == "metric" else f"{celsius * 9 / 5 + 32:.0f} °F"


def iso_day(text: str | None) -> str:
    """``2031-08-03`` as ``3 Aug 2031``.

    Parameters
    ----------
    text : str or None
        ``YYYY-MM-DD``.

    Returns
    -------
    str
        May be empty.
    """
    return day(date.fromisoformat(text)) if text else ""


def crop(grown: CropGrown) -> str:
    """Crop, cultivar and the resistance code as printed on the packet.

    Parameters
    ----------
    grown : CropGrown
        The crop.

    Returns
    -------
    str
        One line.

    Examples
    --------
    >>> crop(CropGrown("Tomato", "Redstart", "VFN", "2031-05-02", None))
    'Tomato, Redstart (packet says VFN)'
    """
    named = ", ".join(part for part in (grown.crop, grown.cultivar) if part)
    code = f" (packet says {grown.resistance_code})" if grown.resistance_code else ""
    return named + code


def crop_with_days(grown: CropGrown) -> str:
    """Crop and the days it stood.

    Parameters
    ----------
    grown : CropGrown
        The crop.

    Returns
    -------
    str
        One line.
    """
    until = f" to {iso_day(grown.to_on)}" if grown.to_on else ", still standing"
    return f"{crop(grown)}, {iso_day(grown.from_on)}{until}"


def chosen(value: Mapping[str, object]) -> str:
    """How the plants of a check were chosen.

    Parameters
    ----------
    value : Mapping
        A checked ``root_check.chosen``.

    Returns
    -------
    str
        A few words.
    """
    k = value["every_k"]
    if value["how"] == "every_kth" and k in (2, 3):
        return f"every {'second' if k == 2 else 'third'} plant in digging order"
    return CHOSEN[str(value["how"])].format(k=k)


def working_days(days: tuple[int, ...]) -> str:
    """Days of the week a lab works, as ``Mon–Fri`` or ``Mon, Wed``.

    Parameters
    ----------
    days : tuple of int
        Any number of days [0 = Monday, 0..6].

    Returns
    -------
    str
        May be empty.
    """
    found = sorted(days)
    if len(found) > 2 and found == list(range(found[0], found[-1] + 1)):
        return f"{WEEKDAYS[found[0]]}–{WEEKDAYS[found[-1]]}"
    return ", ".join(WEEKDAYS[each] for each in found)
