"""One line of the briefing: a sentence, how sure it is, why, and what would settle it.

The sentences stand in ``fixtures/verdicts.json``; here they are only filled in. Not for
deciding which line is due.
"""

import json
import string
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from gardens.domain.judgements import Table
from gardens.domain.said import Said

Line = dict[str, object]
Made = TypeVar("Made")
WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]
# A change between two checks is told with the roots of the bed.
_ABOUT = {"change": "roots"}
MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]


@dataclass(frozen=True)
class Because:
    """A reason, with the keys of its sources."""

    words: str
    sources: tuple[str, ...] = ()


class _Filling(string.Formatter):
    """Fills in numbers with their noun (``{n:plant|plants}``) and days as people say them."""

    def format_field(self, value: object, format_spec: str) -> str:
        if isinstance(value, date):
            return as_said(value)
        if "|" in format_spec:
            one, many = format_spec.split("|")
            return f"{value} {one if value == 1 else many}"
        return str(super().format_field(value, format_spec))


_FILLING = _Filling()


def as_said(day: date) -> str:
    """A day as people say it.

    Parameters
    ----------
    day : date
        Any day.

    Returns
    -------
    str
        E.g. ``7 November 2031``.

    Examples
    --------
    >>> as_said(date(2031, 11, 7))
    '7 November 2031'
    """
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def with_weekday(day: date) -> str:
    """A day of this season as people say it, with its weekday and without its year.

    Parameters
    ----------
    day : date
        Any day.

    Returns
    -------
    str
        E.g. ``Friday 7 November``.

    Examples
    --------
    >>> with_weekday(date(2031, 11, 7))
    'Friday 7 November'
    """
    return f"{WEEKDAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1]}"


def filled(words: str, params: Mapping[str, object]) -> str:
    """A sentence with its numbers in place.

    Parameters
    ----------
    words : str
        With ``{name}``, ``{name:.1f}`` or ``{name:one|many}`` where a value belongs.
    params : Mapping
        The values by name.

    Returns
    -------
    str
        The sentence.

    Examples
    --------
    >>> filled("{n:plant|plants}, mean {mean:.1f}", {"n": 1, "mean": 2})
    '1 plant, mean 2.0'
    """
    return _FILLING.vformat(words, (), params)


class Teller:
    """Makes lines from the table of verdicts and the table of judged values.

    Parameters
    ----------
    tables : Mapping
        Content of every table of ``fixtures`` by the stem of its name.
    """

    def __init__(self, tables: Mapping[str, object]) -> None:
        verdicts, judgements = tables["verdicts"], tables["judgements"]
        assert isinstance(verdicts, Mapping) and isinstance(judgements, Mapping)
        self._tables = tables
        self._verdicts: Mapping[str, Mapping[str, object]] = verdicts
        self.judgements: Table = judgements
        self.rules = json.dumps(judgements, sort_keys=True)
        self._read: dict[str, object] = {}

    def once(self, name: str, make: Callable[[], Made]) -> Made:
        """What is read or worked out once, and asked for again while one answer is made.

        Parameters
        ----------
        name : str
            Its own name.
        make : callable
            Makes it.

        Returns
        -------
        object
            The same each time.
        """
        if name not in self._read:
            self._read[name] = make()
        found: Made = self._read[name]  # type: ignore[assignment]
        return found

    def line(
        self,
        code: str,
        *,
        by: str | None = None,
        because: Iterable[Because] = (),
        settle: Iterable[str] = (),
        **params: object,
    ) -> Line:
        """One line.

        Parameters
        ----------
        code : str
            Key of the table of verdicts.
        by : str or None
            Day until which it can be done.
        because : iterable of Because
            Reasons beside those of the table.
        settle : iterable of str
            What would settle it, beside what the table says.
        **params : object
            Values for the sentence.

        Returns
        -------
        dict
            Plain values, as they travel.
        """
        row = self._verdicts[code]
        told = [*(_because(one, params) for one in _rows(row, "because")), *because]
        sources = {key for one in told for key in one.sources}
        return {
            "about": _ABOUT.get(str(row["about"]), row["about"]),
            "code": code,
            "words": filled(str(row["words"]), params),
            "how_sure": filled(str(row["how_sure"]), params),
            "because": [{"words": one.words, "sources": list(one.sources)} for one in told],
            "settle": [filled(one, params) for one in (*_texts(row, "settle"), *settle)],
            "by": by,
            "sources": sorted(sources),
            "assumptions": [self._assumption(key) for key in _texts(row, "assumptions")],
        }

    def say(
        self, said: Said, *more: Said, by: str | None = None, because: Iterable[Because] = ()
    ) -> Line:
        """One line from a code of the core; further ones become its reasons.

        Parameters
        ----------
        said : Said
            What the line says.
        *more : Said
            What belongs to it.
        by : str or None
            Day until which it can be done.
        because : iterable of Because
            Reasons beside those of the table.

        Returns
        -------
        dict
            Plain values, as they travel.
        """
        told = [because for one in more for because in self._reasons(one)]
        settle = [
            filled(words, one.params)
            for one in more
            for words in _texts(self._verdicts[one.code], "settle")
        ]
        return self.line(said.code, by=by, because=[*told, *because], settle=settle, **said.params)

    def words(self, code: str, **params: object) -> str:
        """One sentence by itself.

        Parameters
        ----------
        code : str
            Key of the table of verdicts.
        **params : object
            Values for the sentence.

        Returns
        -------
        str
            Filled in.
        """
        return filled(str(self._verdicts[code]["words"]), params)

    def reasons(self, said: Said) -> list[dict[str, object]]:
        """What belongs to a line, as it travels by itself.

        Parameters
        ----------
        said : Said
            A reason.

        Returns
        -------
        list of dict
            Its words, then what they rest on, each with the keys of its sources.
        """
        return [{"words": one.words, "sources": list(one.sources)} for one in self._reasons(said)]

    def _reasons(self, said: Said) -> list[Because]:
        row = self._verdicts[said.code]
        words = Because(filled(str(row["words"]), said.params))
        return [words, *(_because(one, said.params) for one in _rows(row, "because"))]

    def table(self, name: str) -> Mapping[str, Mapping[str, object]]:
        """A table with named entries.

        Parameters
        ----------
        name : str
            Stem of its file in ``fixtures``.

        Returns
        -------
        Mapping
            As it was handed in.
        """
        found = self._tables[name]
        assert isinstance(found, Mapping)
        return found

    def rows(self, name: str) -> Sequence[Mapping[str, object]]:
        """A table that is a list of rows.

        Parameters
        ----------
        name : str
            Stem of its file in ``fixtures``.

        Returns
        -------
        sequence of Mapping
            As it was handed in.
        """
        found = self._tables[name]
        assert isinstance(found, Sequence)
        return found

    def _assumption(self, key: str) -> dict[str, object]:
        row = self.judgements[key]
        return {"key": key, **{name: row[name] for name in ("value", "unit", "meaning")}}


def _because(row: Mapping[str, object], params: Mapping[str, object]) -> Because:
    return Because(filled(str(row["words"]), params), tuple(_texts(row, "sources")))


def _rows(row: Mapping[str, object], name: str) -> Sequence[Mapping[str, object]]:
    found = row.get(name, [])
    assert isinstance(found, Sequence)
    return found


def _texts(row: Mapping[str, object], name: str) -> list[str]:
    found = row.get(name, [])
    assert isinstance(found, Sequence)
    return [str(one) for one in found]
