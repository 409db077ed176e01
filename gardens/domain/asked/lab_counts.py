"""A lab's number: converted with the original kept, its interval, and what it is set beside.

Not for a finding of none: ``lab_none`` says what that leaves open.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from gardens.domain.asked.answer import Answer, Asked
from gardens.domain.asked.lab_checks import (
    Checks,
    checks_of,
    contradiction_lines,
    evidence_line_of,
    record_lines,
)
from gardens.domain.asked.lab_levels import level_rows, levels_of
from gardens.domain.asked.lab_none import cores_of, lab_none
from gardens.domain.asked.own_unit import exact
from gardens.domain.briefing.bags import Bag
from gardens.domain.briefing.lines import Line
from gardens.domain.briefing.soil_levels import Levels, beside_lines
from gardens.domain.count_interval import (
    Examined,
    counted_from_report,
    density_interval,
    pooled_k,
)
from gardens.domain.errors import DomainError
from gardens.domain.findings import SoilCount
from gardens.domain.judgements import judged
from gardens.domain.posterior import MOST
from gardens.domain.said import Said, figure
from gardens.domain.units import PER_100_CM3, Unit, convert_count, read_unit

# More than any soil is known to hold [per 100 cm3]: a slip in the unit.
TOO_MANY = 100_000
STAGES: Mapping[str, str] = {
    "j2": "hatched young (J2)",
    "eggs": "eggs",
    "both": "eggs and hatched young",
    "unknown": "nematodes, stage not stated",
}


@dataclass(frozen=True)
class Report:
    """What the lab wrote.

    ``value`` [per 100 cm3, > 0] is None for a count per weight of root; ``flag`` is set when
    weight was turned into volume; ``volume_cm3`` [cm3, > 0] is the soil it looked at.
    """

    count: float
    unit_text: str
    unit: Unit
    stage: str
    value: float | None
    flag: str | None
    volume_cm3: float | None
    n_cores: int | None

    @property
    def has_eggs(self) -> bool:
        """Whether eggs were counted."""
        return self.stage in ("eggs", "both")


def lab_number(asked: Asked) -> Answer:
    """What a lab's number says.

    Parameters
    ----------
    asked : Asked
        With ``count`` and maybe ``unit`` as on the report, ``stage``, ``volume_cm3`` [cm3],
        ``n_cores`` [cores] and ``crop``; the rest is taken from the records of ``bed``.

    Returns
    -------
    Answer
        What contradicts it first; then the number, its interval, the levels, all checks
        together. None recovered when the count is of none.
    """
    if asked.given.number("count") == 0:
        return lab_none(asked)
    checks = checks_of(asked)
    report = _read(asked, checks.bag)
    lines = contradiction_lines(checks, asked, "some", report.volume_cm3)
    if report.value is None:
        lines.append(asked.teller.say(Said("count_in_roots", _as_written(report))))
        return Answer((*lines, *record_lines(checks, asked)))
    levels = levels_of(asked, checks.bag)
    bed, told = _interval(report, asked)
    lines += [_converted(report, asked), *told]
    if report.has_eggs:
        lines.append(asked.teller.line("count_with_eggs"))
    else:
        lines += beside_lines(levels, bed, asked.teller)
        lines += _evidence(report, checks, asked, levels)
    lines += [*record_lines(checks, asked), asked.teller.line("count_local_first")]
    return Answer(tuple(lines), level_rows(levels, asked, None if report.has_eggs else bed))


def _read(asked: Asked, bag: Bag | None) -> Report:
    text = asked.given.text("unit") or _reporting_unit(bag)
    if not text:
        raise DomainError("asked_no_count_unit", field="unit")
    unit = read_unit(text)
    if unit is None:
        raise DomainError("asked_count_unit_unread", field="unit")
    count, value, flag = asked.given.number("count"), None, None
    if unit.basis != "root_weight":
        found = convert_count(count, unit, PER_100_CM3, asked.teller.judgements)
        value, flag = found.value, found.flag
        if value > TOO_MANY:
            raise DomainError("asked_count_too_high", field="unit", most=f"{TOO_MANY:,}")
    stage, volume = asked.given.text("stage"), asked.given.maybe("volume_cm3")
    return Report(count, text, unit, stage, value, flag, volume, cores_of(asked, bag))


def _reporting_unit(bag: Bag | None) -> str:
    return "" if bag is None or bag.lab is None else str(bag.lab["reporting_unit"])


def _as_written(report: Report) -> dict[str, object]:
    unit = report.unit_text
    per = unit if unit.lower().lstrip().startswith("per") else f"({unit})"
    return {"count": exact(report.count), "stage": STAGES[report.stage], "unit": per}


def _converted(report: Report, asked: Asked) -> Line:
    code = "count_same" if report.unit == PER_100_CM3 else "count_converted"
    if report.flag is not None:
        code = "count_by_weight"
    assert report.value is not None
    density = judged(asked.teller.judgements, "soil_bulk_density_g_per_cm3")
    told = {"value": figure(report.value), "density": density, **_as_written(report)}
    return asked.teller.say(Said(code, told))


def counted(report: Report) -> int:
    """Nematodes the lab must have counted.

    Parameters
    ----------
    report : Report
        With ``value`` and ``volume_cm3``.

    Returns
    -------
    int
        Worked back from the report [nematodes, >= 1].

    Raises
    ------
    DomainError
        ``asked_less_than_one_counted`` on the field ``volume_cm3``.
    """
    assert report.value is not None and report.volume_cm3 is not None
    found = counted_from_report(report.value, 100, Examined(report.volume_cm3, 1.0))
    if found < 1:
        raise DomainError("asked_less_than_one_counted", field="volume_cm3")
    return found


def _interval(report: Report, asked: Asked) -> tuple[tuple[float, float], list[Line]]:
    """What the bed may hold [J2 per 100 cm3], and the line that says so; none for mere eggs."""
    assert report.value is not None
    rules = asked.teller.judgements
    poor, good = (judged(rules, f"assay_efficiency_{how}") for how in ("low", "high"))
    low = high = report.value
    numbers: dict[str, object] = {}
    code = "count_no_volume"
    if report.volume_cm3 is not None:
        n, k = counted(report), judged(rules, "soil_cores_clumping_k")
        all_out = Examined(report.volume_cm3, 1.0)
        low, high = density_interval(n, all_out, pooled_k(report.n_cores, k))
        code = "count_interval" if report.n_cores else "count_interval_no_cores"
        code = "count_luck_alone" if report.has_eggs else code
        numbers = {"n": n, "volume_cm3": f"{report.volume_cm3:g}", "n_cores": report.n_cores}
        numbers |= dict(zip(("low", "high"), outward(low, high), strict=True))
    bed = (low / good, high / poor)
    told = dict(zip(("bed_low", "bed_high"), outward(*bed), strict=True))
    shares = {"poor": round(100 * poor), "good": round(100 * good)}
    if report.has_eggs and report.volume_cm3 is None:
        return bed, []
    return bed, [asked.teller.say(Said(code, {**numbers, **told, **shares}))]


def outward(low: float, high: float) -> tuple[str, str]:
    """Ends of an interval to two figures, rounded outward.

    Parameters
    ----------
    low, high : float
        [any unit, > 0]

    Returns
    -------
    (str, str)
        Never narrower than they are.

    Examples
    --------
    >>> outward(9.6725, 47.8455), outward(0.034, 1234)
    (('9.6', '48'), ('0.034', '1,300'))
    """
    return _two_figures(low, math.floor), _two_figures(high, math.ceil)


def _two_figures(value: float, whole: Callable[[float], int]) -> str:
    step = 10.0 ** (math.floor(math.log10(value)) - 1)
    shown = float(f"{whole(round(value / step, 9)) * step:.6g}")
    return f"{shown:,.0f}" if shown >= 100 else f"{shown:g}"


def _evidence(report: Report, checks: Checks, asked: Asked, levels: Levels) -> list[Line]:
    """All checks joined; not where soil or cores are not known, nor beyond what is weighed."""
    if report.volume_cm3 is None or report.n_cores is None or (report.value or 0) > MOST:
        return []
    soil = SoilCount(counted(report), report.volume_cm3, report.n_cores, checks.handled.grade)
    return [evidence_line_of(checks, asked, soil, level) for level in levels.ends]


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"lab_number": lab_number}
