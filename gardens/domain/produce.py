"""Damage on what is eaten: roots, tubers and pods, scored apart from the grades of the roots.

Never mixed into a grade: a forked carrot may carry few galls, and a galled root may carry fine
pods.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gardens.domain.bounded import Interval
from gardens.domain.incidence import wilson_interval


@dataclass(frozen=True)
class ProduceDamage:
    """Pieces looked at and pieces damaged [pieces, >= 0], over the plants they came from.

    ``share`` [1, 0..1] is None when nothing was looked at. ``interval`` is there only when each
    plant gave one piece: pieces of one plant share its luck and are no separate witnesses.
    ``signs`` are the words written down, each once, in the order they were first written.
    """

    n_plants: int
    n_examined: int
    n_damaged: int
    share: float | None
    interval: Interval | None
    signs: tuple[str, ...]


def produce_damage(parts: Sequence[Mapping[str, object] | None]) -> ProduceDamage:
    """Sum up the produce damage noted in one root check.

    Parameters
    ----------
    parts : sequence of Mapping or None
        Checked ``gall_rating.produce_damage`` of each plant, any number; None where nobody
        looked.

    Returns
    -------
    ProduceDamage
        All plants together.

    Notes
    -----
    Damage can also come from stones, flies, rot or frost, and on tubers it can appear in store.

    References
    ----------
    wilson_1927

    Examples
    --------
    >>> found = produce_damage([{"n_examined": 8, "n_damaged": 2, "signs": "forked"}, None])
    >>> found.n_plants, found.share, found.interval
    (1, 0.25, None)
    """
    seen = [part for part in parts if part is not None]
    examined = [_whole(part["n_examined"]) for part in seen]
    n_examined, n_damaged = sum(examined), sum(_whole(part["n_damaged"]) for part in seen)
    signs = (str(part.get("signs", "")).strip() for part in seen)
    return ProduceDamage(
        n_plants=len(seen),
        n_examined=n_examined,
        n_damaged=n_damaged,
        share=n_damaged / n_examined if n_examined else None,
        interval=wilson_interval(n_damaged, n_examined) if set(examined) == {1} else None,
        signs=tuple(dict.fromkeys(sign for sign in signs if sign)),
    )


def _whole(value: object) -> int:
    assert isinstance(value, int)
    return value
