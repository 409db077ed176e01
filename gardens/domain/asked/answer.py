"""What a question is asked of, and what its answer looks like before it travels.

Not for any one question.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from gardens.domain.asked.given import Given
from gardens.domain.briefing.gathered import Bed, Gathered
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.errors import DomainError
from gardens.domain.geometry import area_cm2, corners

Row = dict[str, object]
Places = dict[str, object]


@dataclass(frozen=True)
class Asked:
    """One question with all it can be answered from."""

    given: Given
    garden: Gathered
    tables: Mapping[str, Any]
    teller: Teller
    today: date

    def bed(self, name: str = "bed") -> Bed | None:
        """The bed that was chosen.

        Parameters
        ----------
        name : str
            Name of a field of kind ``bed``.

        Returns
        -------
        Bed or None
            None when none was chosen.
        """
        chosen = self.given.text(name)
        return next((bed for bed in self.garden.beds if bed.id == chosen), None)

    def area_m2(self) -> float:
        """Ground asked about: the chosen bed's, else the number of square metres given.

        Returns
        -------
        float
            [m2, > 0]

        Raises
        ------
        DomainError
            ``asked_no_ground`` on the field ``area_m2`` when neither was given.
        """
        bed = self.bed()
        if bed is not None:
            shape = bed.doc["shape"]
            assert isinstance(shape, Mapping)
            return area_cm2(corners(shape)) / 10_000
        found = self.given.maybe("area_m2")
        if found is None:
            raise DomainError("asked_no_ground", field="area_m2")
        return found


@dataclass(frozen=True)
class Answer:
    """Lines to read, rows to compare, and places to walk to in a bed.

    ``rows`` are made with `row`, ``places`` with `places`; both are empty for most questions.
    """

    lines: tuple[Line, ...]
    rows: tuple[Row, ...] = ()
    places: Places | None = field(default=None)


def row(
    name: str, cells: Mapping[str, str], sources: tuple[str, ...] = (), caution: bool = False
) -> Row:
    """One thing among several to compare.

    Parameters
    ----------
    name : str
        What it is.
    cells : Mapping
        What is known of it, label by label, in the order shown.
    sources : tuple of str
        Keys of the references.
    caution : bool
        Whether it can hurt somebody.

    Returns
    -------
    dict
        Plain values, as they travel.
    """
    told = [{"label": label, "words": words} for label, words in cells.items() if words]
    return {"name": name, "cells": told, "sources": list(sources), "caution": caution}


def places(bed: Bed, points: tuple[tuple[int, int], ...]) -> Places:
    """Places in a bed to be drawn and numbered.

    Parameters
    ----------
    bed : Bed
        The bed.
    points : tuple of (int, int)
        Any number, in the order to walk, from the corner of the bed [cm, cm].

    Returns
    -------
    dict
        Plain values, as they travel.
    """
    return {"bed": bed.id, "points_cm": [list(point) for point in points]}
