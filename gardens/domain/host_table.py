"""The host table as plain values: plants, species, and what is written of each pair.

Not for reading an answer off: `gardens.domain.hosts` does that, with its doubts.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

# From what holds numbers down to what builds them up; "host" is a host of unstated degree.
LEVELS = ("antagonistic", "none_found", "resistant", "poor", "moderate", "host", "good")
SPECIES = ("Mi", "Mj", "Ma", "Mh", "Me", "Mfl")


@dataclass(frozen=True)
class Loss:
    """Yield lost to one species at the highest density of one trial [%, 0..100]."""

    loss_percent: float
    setting: str
    source: str


@dataclass(frozen=True)
class HostCell:
    """What is written of one plant and one species, on both axes.

    ``levels`` are all that sources give, from the lowest to the highest of `LEVELS`;
    ``losses`` are trials of how much the plant suffers, none where that is not known.
    """

    levels: tuple[str, ...]
    conflict: bool
    from_memory: bool
    trap: bool
    losses: tuple[Loss, ...]


@dataclass(frozen=True)
class Plant:
    """One row of the host table; ``form`` and ``gene`` tell kinds of one crop apart."""

    key: str
    crop: str
    name: str
    kind: str
    form: str
    gene: str | None
    cells: Mapping[str, HostCell]
    source: tuple[str, ...]
    from_memory: bool
    note: str


def read_plants(table: Iterable[Mapping[str, object]]) -> tuple[Plant, ...]:
    """The plants of the host table.

    Parameters
    ----------
    table : iterable of Mapping
        Content of ``fixtures/host_status.json``.

    Returns
    -------
    tuple of Plant
        One for each row, in the order of the table.
    """
    return tuple(_plant(row) for row in table)


def _plant(row: Mapping[str, object]) -> Plant:
    cells, source = row["species"], row["source"]
    assert isinstance(cells, Mapping) and isinstance(source, Sequence)
    return Plant(
        key=str(row["key"]),
        crop=str(row["crop"]),
        name=str(row["name"]),
        kind=str(row["kind"]),
        form=str(row["form"]),
        gene=None if row["gene"] is None else str(row["gene"]),
        cells={species: _cell(cell) for species, cell in cells.items()},
        source=tuple(str(key) for key in source),
        from_memory=bool(row["from_memory"]),
        note=str(row["note"]),
    )


def _cell(cell: Mapping[str, object]) -> HostCell:
    levels, losses = cell["levels"], cell.get("tolerance", ())
    assert isinstance(levels, Sequence) and isinstance(losses, Sequence)
    return HostCell(
        levels=tuple(sorted(levels, key=LEVELS.index)),
        conflict=bool(cell["conflict"]),
        from_memory=bool(cell["from_memory"]),
        trap=bool(cell.get("trap", False)),
        losses=tuple(Loss(one["loss_percent"], one["setting"], one["source"]) for one in losses),
    )


def plant_of_crop(plants: Iterable[Plant], crop_key: str, gene: str | None = None) -> Plant | None:
    """The row of a crop, of its resistant kind when a gene is named.

    Parameters
    ----------
    plants : iterable of Plant
        Any number of rows.
    crop_key : str
        Key of ``fixtures/crops.json``.
    gene : str or None
        Key of ``fixtures/resistance_genes.json``; None for a kind without stated resistance.

    Returns
    -------
    Plant or None
        None when the table has no such row: then nothing is known, not "no host".
    """
    rows = [plant for plant in plants if plant.crop == crop_key and plant.crop]
    return next((plant for plant in rows if plant.gene == gene), None)
