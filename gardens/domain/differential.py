"""The differential host test: which published rows a set of test plants agrees with.

Not an identification: rows overlap, populations differ from their rows, and most rows here
are from memory.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.errors import DomainError

HOSTS = ("cotton", "tobacco", "pepper", "watermelon", "peanut", "tomato")


@dataclass(frozen=True)
class AgreeingRow:
    """One published row that nothing speaks against.

    ``agrees_on`` are the test plants that say the same; ``n_open`` counts those the row or
    the garden leaves open.
    """

    key: str
    species: str
    race: str
    agrees_on: tuple[str, ...]
    n_open: int
    source: tuple[str, ...]
    from_memory: bool


def agreeing_rows(
    galled: Mapping[str, bool], rows: Iterable[Mapping[str, object]]
) -> tuple[AgreeingRow, ...]:
    """Published rows that a set of test plants does not contradict.

    Parameters
    ----------
    galled : Mapping
        For each of `HOSTS` that was grown: did it gall? Any number of them.
    rows : iterable of Mapping
        The ``rows`` of ``fixtures/differential_hosts.json``.

    Returns
    -------
    tuple of AgreeingRow
        The rows with most plants in agreement first; none when every row is contradicted.

    Raises
    ------
    DomainError
        ``unknown_test_plant``; ``test_plants_not_infected`` when tomato did not gall, for then
        no row can be read.

    Notes
    -----
    Pepper without galls never counts against a row: isolates of *M. arenaria* bred on it
    without galling it.

    References
    ----------
    differential_hosts_memory, floridensis_2022_tables, rutter_2019_enterolobii

    Examples
    --------
    >>> row = {"key": "h", "species": "Mh", "race": "", "source": ["s"], "from_memory": True,
    ...     "galls": {"watermelon": "no", "peanut": "yes", "tomato": "yes"}}
    >>> [one.species for one in agreeing_rows({"peanut": True, "tomato": True}, [row])]
    ['Mh']
    >>> agreeing_rows({"watermelon": True, "tomato": True}, [row])
    ()
    """
    unknown = sorted(set(galled) - set(HOSTS))
    if unknown:
        raise DomainError("unknown_test_plant", plants=unknown)
    if galled.get("tomato") is False:
        raise DomainError("test_plants_not_infected")
    found = [one for one in (_agreeing(galled, row) for row in rows) if one is not None]
    return tuple(sorted(found, key=lambda one: (-len(one.agrees_on), one.key)))


def _agreeing(galled: Mapping[str, bool], row: Mapping[str, object]) -> AgreeingRow | None:
    published, source = row["galls"], row["source"]
    assert isinstance(published, Mapping) and isinstance(source, Sequence)
    agrees_on = []
    for host, did in galled.items():
        said = published.get(host, "either")
        if said == "either" or (host == "pepper" and not did):
            continue
        if (said == "yes") != did:
            return None
        agrees_on.append(host)
    return AgreeingRow(
        key=str(row["key"]),
        species=str(row["species"]),
        race=str(row["race"]),
        agrees_on=tuple(agrees_on),
        n_open=len(HOSTS) - len(agrees_on),
        source=tuple(source),
        from_memory=bool(row["from_memory"]),
    )
