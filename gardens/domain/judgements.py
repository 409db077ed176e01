"""Values somebody judged, read from the one table where they can be changed.

Not for measured or published values: those carry a source in their own tables.
"""

from collections.abc import Mapping

from gardens.domain.errors import DomainError

Table = Mapping[str, Mapping[str, object]]


def judged(table: Table, key: str) -> float:
    """One judged value.

    Parameters
    ----------
    table : Mapping
        Content of ``fixtures/judgements.json``.
    key : str
        Its name.

    Returns
    -------
    float
        The value [unit and range as its row says].

    Raises
    ------
    DomainError
        ``unknown_judgement``; ``judgement_out_of_range`` when a changed value leaves its range.

    Examples
    --------
    >>> judged({"least_plants": {"value": 8, "range": [3, 30]}}, "least_plants")
    8.0
    """
    if key not in table:
        raise DomainError("unknown_judgement", key=key)
    row = table[key]
    value, bounds = row["value"], row["range"]
    assert isinstance(value, int | float) and isinstance(bounds, list)
    if not bounds[0] <= value <= bounds[1]:
        raise DomainError("judgement_out_of_range", key=key, min=bounds[0], max=bounds[1])
    return float(value)
