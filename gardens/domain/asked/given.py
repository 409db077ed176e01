"""What a person gave in answer to a question's boxes, by the name of the box.

Not for reading text: ``boxes`` does.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date


@dataclass(frozen=True)
class Given:
    """The answers a person gave, by the name of the field; one left empty is not in it."""

    values: Mapping[str, object] = field(default_factory=dict)

    def has(self, name: str) -> bool:
        """Whether something was given.

        Parameters
        ----------
        name : str
            Name of a field.

        Returns
        -------
        bool
            False for a box left empty.
        """
        return name in self.values

    def number(self, name: str) -> float:
        """The number given in a field that must be filled, or that starts filled.

        Parameters
        ----------
        name : str
            Name of a field of kind ``number``, ``length``, ``area`` or ``warmth``.

        Returns
        -------
        float
            [the unit of the field]
        """
        found = self.values[name]
        assert isinstance(found, float)
        return found

    def maybe(self, name: str) -> float | None:
        """The number given, if one was.

        Parameters
        ----------
        name : str
            Name of a field of kind ``number``, ``length``, ``area`` or ``warmth``.

        Returns
        -------
        float or None
            [the unit of the field]; None for an empty box.
        """
        return self.number(name) if name in self.values else None

    def text(self, name: str) -> str:
        """The words, the choice or the key given; empty when none was.

        Parameters
        ----------
        name : str
            Name of a field of kind ``text``, ``choice``, ``row`` or ``bed``.

        Returns
        -------
        str
            As typed, without blanks at its ends.
        """
        return str(self.values.get(name, ""))

    def day(self, name: str) -> date:
        """The day given in a field that must be filled.

        Parameters
        ----------
        name : str
            Name of a field of kind ``day``.

        Returns
        -------
        date
            The day.
        """
        found = self.values[name]
        assert isinstance(found, date)
        return found

    def keys(self, name: str) -> tuple[str, ...]:
        """The keys chosen from a list, or none.

        Parameters
        ----------
        name : str
            Name of a field of kind ``rows``.

        Returns
        -------
        tuple of str
            Any number, in the order of the table.
        """
        found = self.values.get(name, ())
        assert isinstance(found, tuple)
        return found

    def numbers(self, name: str) -> tuple[float, ...]:
        """The row of numbers given, or none.

        Parameters
        ----------
        name : str
            Name of a field of kind ``numbers``.

        Returns
        -------
        tuple of float
            Any number of them, in the order typed [the unit of the field].
        """
        found = self.values.get(name, ())
        assert isinstance(found, tuple)
        return found
