"""The rules a single value from outside must pass, each a small function.

Not for values made of several parts (see ``composites.py``) nor for which record has which
field (see ``kinds.py``). A rule answers the value to keep or raises ``Refusal``.
"""

import math
import re
from collections.abc import Callable, Collection
from datetime import UTC, date, datetime

Rule = Callable[[object], object]

NAME_LENGTH = 80
NOTE_LENGTH = 4000
PHONE_LENGTH = 40
EMAIL_LENGTH = 254

_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_MOMENT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,3})?Z")
_ID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
_EARLIEST, _LATEST = date(1900, 1, 1), date(2199, 12, 31)


class Refusal(Exception):
    """A value a rule will not take; whoever knows the field turns it into a RecordError."""

    def __init__(self, reason: str, **params: object) -> None:
        super().__init__(reason)
        self.reason = reason
        self.params = params


def as_shown(name: object) -> str:
    """Start of a name from outside, in signs that any answer can carry.

    Parameters
    ----------
    name : object
        Anything a device sent as a name.

    Returns
    -------
    str
        At most 40 signs [before escaping], ASCII only.
    """
    return str(name)[:40].encode("ascii", "backslashreplace").decode("ascii")


def text(most: int, least: int = 0) -> Rule:
    """Text of ``least`` to ``most`` characters, well formed and without NUL.

    Parameters
    ----------
    most : int
        Longest [characters, >= least].
    least : int
        Shortest, blanks at the ends apart [characters, >= 0].

    Returns
    -------
    Rule
        Answers the text as it is.
    """

    def rule(value: object) -> str:
        if not isinstance(value, str):
            raise Refusal("not_text")
        if "\x00" in value or any("\ud800" <= sign <= "\udfff" for sign in value):
            raise Refusal("broken_text")
        if len(value) > most:
            raise Refusal("too_long", max=most, length=len(value))
        if len(value.strip()) < least:
            raise Refusal("empty")
        return value

    return rule


def matching(pattern: str, reason: str) -> Rule:
    """Text that fits a pattern from end to end.

    Parameters
    ----------
    pattern : str
        Regular expression.
    reason : str
        Key of the sentence for text that does not fit.

    Returns
    -------
    Rule
        Answers the text as it is.
    """
    compiled = re.compile(pattern)

    def rule(value: object) -> str:
        if not isinstance(value, str):
            raise Refusal("not_text")
        if not compiled.fullmatch(value):
            raise Refusal(reason)
        return value

    return rule


def whole(least: int, most: int) -> Rule:
    """Whole number from ``least`` to ``most``; true and 3.0 are not whole numbers here.

    Parameters
    ----------
    least, most : int
        Bounds, both taken [1, within 64 bits].

    Returns
    -------
    Rule
        Answers the number.
    """

    def rule(value: object) -> int:
        if type(value) is not int:
            raise Refusal("not_whole", min=least, max=most)
        if not least <= value <= most:
            raise Refusal("out_of_range", min=least, max=most)
        return value

    return rule


def number(least: float, most: float) -> Rule:
    """Number from ``least`` to ``most``, whole or not, never NaN.

    Parameters
    ----------
    least, most : float
        Bounds, both taken [1, finite].

    Returns
    -------
    Rule
        Answers the number.
    """

    def rule(value: object) -> int | float:
        if not isinstance(value, int | float) or isinstance(value, bool):
            raise Refusal("not_number", min=least, max=most)
        if not least <= value <= most or not math.isfinite(value):
            raise Refusal("out_of_range", min=least, max=most)
        return value

    return rule


def flag(value: object) -> bool:
    """True or false, and nothing that only looks like it.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    bool
        The same.
    """
    if not isinstance(value, bool):
        raise Refusal("not_yes_or_no")
    return value


def one_of(choices: Collection[str]) -> Rule:
    """One of a closed list of words.

    Parameters
    ----------
    choices : collection of str
        One or more words.

    Returns
    -------
    Rule
        Answers the word.
    """

    def rule(value: object) -> str:
        if not isinstance(value, str) or value not in choices:
            raise Refusal("not_a_choice", choices=sorted(choices))
        return value

    return rule


def maybe(rule: Rule) -> Rule:
    """Null, or what the rule takes.

    Parameters
    ----------
    rule : Rule
        For a value that is there.

    Returns
    -------
    Rule
        Answers None or what the rule answers.
    """

    def optional(value: object) -> object:
        return None if value is None else rule(value)

    return optional


def list_of(rule: Rule, least: int, most: int, *, differing: bool = False) -> Rule:
    """List of ``least`` to ``most`` values, each taken by the rule.

    Parameters
    ----------
    rule : Rule
        For each value.
    least, most : int
        How many there may be [1, >= 0].
    differing : bool
        Whether no value may come twice.

    Returns
    -------
    Rule
        Answers a new list of kept values.
    """

    def whole_list(value: object) -> list[object]:
        if not isinstance(value, list):
            raise Refusal("not_a_list")
        if not least <= len(value) <= most:
            raise Refusal("wrong_count", min=least, max=most, count=len(value))
        kept = [rule(each) for each in value]
        if differing and len(set(kept)) != len(kept):
            raise Refusal("said_twice")
        return kept

    return whole_list


def day(value: object) -> str:
    """A day that exists, as YYYY-MM-DD, from 1900 to 2199.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    str
        The same.
    """
    if not isinstance(value, str) or not _DAY.fullmatch(value):
        raise Refusal("not_a_day")
    try:
        found = date.fromisoformat(value)
    except ValueError:
        raise Refusal("not_a_day") from None
    if not _EARLIEST <= found <= _LATEST:
        raise Refusal("not_a_day")
    return value


def moment(value: object) -> str:
    """A moment in UTC; kept with exactly three decimals, ``2031-05-04T09:30:00.000Z``.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    str
        The moment with three decimals and Z.
    """
    if not isinstance(value, str) or not _MOMENT.fullmatch(value):
        raise Refusal("not_a_moment")
    day(value[:10])
    try:
        found = datetime.fromisoformat(value[:-1]).replace(tzinfo=UTC)
    except ValueError:
        raise Refusal("not_a_moment") from None
    return found.isoformat(timespec="milliseconds").replace("+00:00", "Z")


def identifier(value: object) -> str:
    """A UUID in small letters, of any version.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    str
        The same.
    """
    if not isinstance(value, str) or not _ID.fullmatch(value):
        raise Refusal("not_an_id")
    return value
