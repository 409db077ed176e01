"""A lab that found none: how many there may still be, and what would settle it.

None recovered is never nothing there. Not for a number: ``lab_counts`` reads those.
"""

from collections.abc import Callable, Mapping

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.lab_checks import (
    Checks,
    checks_of,
    contradiction_lines,
    evidence_line_of,
    record_lines,
)
from gardens.domain.asked.lab_levels import level_rows, levels_of
from gardens.domain.briefing.bags import Bag
from gardens.domain.briefing.lines import Line
from gardens.domain.briefing.sample_plan import days_bare
from gardens.domain.briefing.soil_levels import beside_lines
from gardens.domain.findings import SoilCount
from gardens.domain.judgements import judged
from gardens.domain.none_recovered import none_recovered
from gardens.domain.said import Said


def lab_none(asked: Asked) -> Answer:
    """What it says that the lab found none.

    Parameters
    ----------
    asked : Asked
        With ``volume_cm3`` [cm3], ``n_cores`` [cores] and ``crop``, each maybe; the rest is
        taken from the records of ``bed``.

    Returns
    -------
    Answer
        What contradicts it first; then the bound, the levels, all checks together. A finding
        that the roots contradict is set beside no level.
    """
    checks = checks_of(asked)
    volume, n_cores = asked.given.maybe("volume_cm3"), cores_of(asked, checks.bag)
    said = none_recovered(asked.teller.judgements, volume, n_cores)
    against = contradiction_lines(checks, asked, "none", volume)
    lines = [
        *against,
        asked.teller.say(said),
        *record_lines(checks, asked),
        *_late_lines(checks, asked),
    ]
    rows, bed = _written(said), None if against else _may_hold(said)
    if against:
        lines.append(asked.teller.line("none_not_set_beside"))
    elif bed is not None and volume is not None and n_cores is not None:
        soil = SoilCount(0, volume, n_cores, checks.handled.grade)
        lines += _level_lines(checks, asked, bed, soil)
    lines.append(asked.teller.line("none_pot_test"))
    levels = levels_of(asked, checks.bag)
    return Answer(tuple(lines), (*rows, *level_rows(levels, asked, bed)))


def cores_of(asked: Asked, bag: Bag | None) -> int | None:
    """Cores that were mixed: as typed, else as noted with the bag.

    Parameters
    ----------
    asked : Asked
        With ``n_cores``, or nothing.
    bag : Bag or None
        The bag in the records.

    Returns
    -------
    int or None
        [cores, >= 1]; None when nobody noted them.
    """
    typed = asked.given.maybe("n_cores")
    if typed is not None:
        return round(typed)
    return None if bag is None else bag.n_cores


def _level_lines(
    checks: Checks, asked: Asked, bed: tuple[float, float], soil: SoilCount
) -> list[Line]:
    """Beside the published levels, and all checks joined for the lowest of them."""
    levels = levels_of(asked, checks.bag)
    return [
        *beside_lines(levels, bed, asked.teller),
        evidence_line_of(checks, asked, soil, levels.ends[0]),
    ]


def _bound(said: Said, name: str) -> int:
    found = said.params[name]
    assert isinstance(found, int)
    return found


def _may_hold(said: Said) -> tuple[float, float] | None:
    """From hardly any to the bound of a poor extraction [J2 per 100 cm3]."""
    return (0.0, _bound(said, "bound_if_poor")) if "bound_if_poor" in said.params else None


def _written(said: Said) -> tuple[Row, ...]:
    if "bound" not in said.params:
        return ()
    cells = {
        "If the lab gets a middling share out": f"< {_bound(said, 'bound')} per 100 cm³",
        "If it gets a poor share out": f"< {_bound(said, 'bound_if_poor')} per 100 cm³",
    }
    return (row("How to write it down", cells, ("negative_binomial",)),)


def _late_lines(checks: Checks, asked: Asked) -> list[Line]:
    """Soil lifted long after the last crop, when few are left to count."""
    if checks.bed is None or checks.bag is None or checks.bag.lifted_on is None:
        return []
    days = days_bare(checks.bed, checks.bag.lifted_on)
    if days is None or days <= judged(asked.teller.judgements, "soil_late_days"):
        return []
    return [asked.teller.line("none_lifted_late", days=days)]


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"lab_none": lab_none}
