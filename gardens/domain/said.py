"""One thing to say: a code and its numbers, rounded as they are shown.

Not for wording: the sentence for a code lives in ``fixtures/verdicts.json``.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Said:
    """A sentence to come, by its code, with the values that fill it."""

    code: str
    params: Mapping[str, object] = field(default_factory=dict)


def together(words: Iterable[str]) -> str:
    """Words of a list as they are said.

    Parameters
    ----------
    words : iterable of str
        One or more.

    Returns
    -------
    str
        With commas and an "and".

    Examples
    --------
    >>> together(["leek"]), together(["leek", "okra", "kale"])
    ('leek', 'leek, okra and kale')
    """
    told = list(words)
    return told[0] if len(told) == 1 else f"{', '.join(told[:-1])} and {told[-1]}"


def capital(words: str) -> str:
    """Words that begin with a capital; the rest stays.

    Parameters
    ----------
    words : str
        Any number of them.

    Returns
    -------
    str
        E.g. ``Good host``.

    Examples
    --------
    >>> capital("good host of M. hapla")
    'Good host of M. hapla'
    """
    return words[:1].upper() + words[1:]


def shown(value: float) -> float:
    """Value to one decimal, never minus nothing.

    Parameters
    ----------
    value : float
        [any unit]

    Returns
    -------
    float
        [same unit]

    Examples
    --------
    >>> shown(3.1667), shown(-0.04)
    (3.2, 0.0)
    """
    return round(value, 1) + 0.0


def shown_low(value: float) -> float:
    """Lower end of an interval to one decimal, never higher than it is.

    Parameters
    ----------
    value : float
        [any unit]

    Returns
    -------
    float
        [same unit]

    Examples
    --------
    >>> shown_low(0.0721), shown_low(-1.188)
    (0.0, -1.2)
    """
    return math.floor(round(value * 10, 6)) / 10 + 0.0


def shown_high(value: float) -> float:
    """Upper end of an interval to one decimal, never lower than it is.

    Parameters
    ----------
    value : float
        [any unit]

    Returns
    -------
    float
        [same unit]

    Examples
    --------
    >>> shown_high(5.5231)
    5.6
    """
    return math.ceil(round(value * 10, 6)) / 10 + 0.0


def percent(share: float) -> int:
    """Share as a whole percentage.

    Parameters
    ----------
    share : float
        [1, 0..1]

    Returns
    -------
    int
        [%, 0..100]; 0 and 100 only for exactly none and all.

    Examples
    --------
    >>> percent(0.4345), percent(0.001), percent(0.999), percent(0)
    (43, 1, 99, 0)
    """
    if share in (0, 1):
        return int(100 * share)
    return min(99, max(1, round(100 * share)))


def figure(value: float, digits: int = 3, *, down: bool = False) -> str:
    """A number with no more figures than it deserves.

    Parameters
    ----------
    value : float
        [any unit, >= 0]
    digits : int
        Figures that count [1, 1..6].
    down : bool
        Whether it may only get smaller, as an upper limit must.

    Returns
    -------
    str
        Without an exponent, thousands parted by commas.

    Examples
    --------
    >>> figure(1234.5), figure(0.30864, 2), figure(2.0), figure(5.69, 2, down=True)
    ('1,230', '0.31', '2', '5.6')
    """
    if value == 0:
        return "0"
    places = digits - 1 - math.floor(math.log10(value))
    scaled = value * 10.0**places
    whole = math.floor(scaled + 1e-9) if down else round(scaled)
    text = f"{whole / 10.0**places:,.{max(0, places)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
