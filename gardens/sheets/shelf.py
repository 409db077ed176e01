"""The records of one garden as they travel, found by kind and id.

A record is ``{"id", "kind", "deleted", "doc"}``. Something that is not there is a
``DomainError``: ``not_found`` for what was asked for, ``sheet_incomplete`` for what it rests on.
Not for printing them.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from gardens.domain.errors import DomainError
from gardens.domain.records import with_defaults
from gardens.sheets.values import Units

Doc = Mapping[str, Any]
PRINTED = (
    "garden",
    "bed",
    "planting",
    "root_check",
    "gall_rating",
    "lab_profile",
    "soil_sample",
)


class Shelf:
    """The records of one garden, found by kind and id.

    Parameters
    ----------
    records : iterable of Mapping
        Any number, in any order, deleted ones too; kinds no sheet prints are passed over.
    """

    def __init__(self, records: Iterable[Mapping[str, Any]]) -> None:
        self._docs: dict[str, dict[str, Doc]] = {kind: {} for kind in PRINTED}
        self._deleted: set[str] = set()
        for one in records:
            if one["kind"] in self._docs:
                self._docs[one["kind"]][one["id"]] = with_defaults(one["kind"], one["doc"])
                if one["deleted"]:
                    self._deleted.add(one["id"])

    def all(self, kind: str) -> list[tuple[str, Doc]]:
        """Every record of a kind that is not deleted.

        Parameters
        ----------
        kind : str
            One of ``PRINTED``.

        Returns
        -------
        list of (str, Mapping)
            Id and document, in the order of the ids.
        """
        found = self._docs[kind].items()
        return sorted(((each, doc) for each, doc in found if each not in self._deleted), key=_id)

    def find(self, kind: str, each: str | None) -> Doc | None:
        """One record that is not deleted.

        Parameters
        ----------
        kind : str
            One of ``PRINTED``.
        each : str or None
            Its id.

        Returns
        -------
        Mapping or None
            Its document.
        """
        return None if each is None or each in self._deleted else self._docs[kind].get(each)

    def asked(self, kind: str, each: str, asked_by: str) -> Doc:
        """What somebody asked for.

        Parameters
        ----------
        kind : str
            One of ``PRINTED``.
        each : str
            Its id.
        asked_by : str
            Name of the argument that holds the id.

        Returns
        -------
        Mapping
            Its document.

        Raises
        ------
        DomainError
            ``not_found`` when it is not there or deleted.
        """
        found = self.find(kind, each)
        if found is None:
            raise DomainError("not_found", field=asked_by, id=each)
        return found

    def needed(self, kind: str, each: str, **where: str) -> Doc:
        """What a sheet rests on, deleted or not.

        Parameters
        ----------
        kind : str
            One of ``PRINTED``.
        each : str
            Its id.
        **where : str
            What a sentence needs to say which record lacks it.

        Returns
        -------
        Mapping
            Its document.

        Raises
        ------
        DomainError
            ``sheet_incomplete`` when it is not there.
        """
        # A deleted bed still had its name and shape when the roots were dug.
        found = self._docs[kind].get(each)
        if found is None:
            raise DomainError("sheet_incomplete", **where, missing=kind)
        return found

    def garden(self) -> Doc:
        """The garden itself.

        Returns
        -------
        Mapping
            Its document.

        Raises
        ------
        DomainError
            ``sheet_incomplete`` when it is not there.
        """
        for doc in self._docs["garden"].values():
            return doc
        raise DomainError("sheet_incomplete", missing="garden")


def places_of(points: Sequence[Sequence[int]]) -> tuple[tuple[int, int], ...]:
    """Positions as sheets take them.

    Parameters
    ----------
    points : sequence of (int, int)
        Any number, from the corner of the bed [cm, cm].

    Returns
    -------
    tuple of (int, int)
        The same.
    """
    return tuple((x, y) for x, y in points)


def units_of(garden: Doc) -> Units:
    """Units a garden is measured in.

    Parameters
    ----------
    garden : Mapping
        Its document.

    Returns
    -------
    {"metric", "us"}
        Metric unless it says otherwise.
    """
    return "us" if garden["units"] == "us" else "metric"


def _id(one: tuple[str, Doc]) -> str:
    return one[0]
