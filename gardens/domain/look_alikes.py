"""What is mistaken for root-knot, how to tell it, and what was noted in a check.

Not for identifying a nematode: a look-alike only says that a swelling may be something else.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.errors import DomainError

Table = Sequence[Mapping[str, object]]


@dataclass(frozen=True)
class LookAlike:
    """One thing that is taken for root-knot; ``sources`` are keys of the references."""

    key: str
    name: str
    tell_tale: str
    sources: tuple[str, ...]
    from_memory: bool


@dataclass(frozen=True)
class Noted:
    """A look-alike and the number of plants it was noted on [plants, >= 1]."""

    look_alike: LookAlike
    n_plants: int


def look_alike(key: str, table: Table) -> LookAlike:
    """One row of the table.

    Parameters
    ----------
    key : str
        As in ``gall_rating.look_alike``.
    table : sequence of Mapping
        Content of ``fixtures/look_alikes.json``.

    Returns
    -------
    LookAlike
        With how to tell it.

    Raises
    ------
    DomainError
        ``unknown_look_alike``.
    """
    for row in table:
        if row["key"] == key:
            also = row["also"]
            assert isinstance(also, Sequence)
            sources = (str(row["source"]), *(str(one) for one in also))
            told = str(row["name"]), str(row["tell_tale"])
            return LookAlike(key, *told, sources, bool(row["from_memory"]))
    raise DomainError("unknown_look_alike", key=key)


def look_alikes_noted(keys: Iterable[str | None], table: Table) -> tuple[Noted, ...]:
    """Look-alikes noted in one root check, the most frequent first.

    Parameters
    ----------
    keys : iterable of str or None
        ``gall_rating.look_alike`` of each plant, any number.
    table : sequence of Mapping
        Content of ``fixtures/look_alikes.json``.

    Returns
    -------
    tuple of Noted
        Empty when nobody noted one. Of equally frequent ones in the order of the table.

    Raises
    ------
    DomainError
        ``unknown_look_alike``.
    """
    counts = Counter(key for key in keys if key is not None)
    order = [str(row["key"]) for row in table]
    found = [Noted(look_alike(key, table), n) for key, n in counts.items()]
    return tuple(sorted(found, key=lambda one: (-one.n_plants, order.index(one.look_alike.key))))
