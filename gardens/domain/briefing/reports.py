"""What a laboratory wrote, read: every count beside per 100 cm3, the original kept.

Not for what it means for the bed (see ``soil``). Counts of different stages, methods and labs
stay apart whatever their unit.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from gardens.domain.briefing.bags import Bag, journey_of
from gardens.domain.briefing.gathered import Doc, Entry
from gardens.domain.briefing.lines import Teller
from gardens.domain.count_interval import (
    Examined,
    Interval,
    counted_from_report,
    density_interval,
    pooled_k,
)
from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged
from gardens.domain.none_recovered import none_recovered
from gardens.domain.said import Said, figure
from gardens.domain.transit import Handling, handling
from gardens.domain.units import PER_100_CM3, Converted, Unit, convert_count, read_unit

ROOT_KNOT = "root_knot"
OTHER = "other"
EGG_STAGES = ("eggs", "eggs_and_j2")
STAGES: Mapping[str, str] = {
    "j2": "hatched young (J2)",
    "eggs": "eggs",
    "eggs_and_j2": "eggs and hatched young",
    "adults": "adults",
    "all_stages": "all stages",
    "not_said": "nematodes, stage not stated",
}


@dataclass(frozen=True)
class Finding:
    """One line of a report.

    ``value`` [per 100 cm3, > 0] is None where none was recovered, nothing was counted or the
    unit cannot be turned into soil; ``interval`` is the luck of the cores around it; ``bound``
    [per 100 cm3, > 0] the most there may be where none was recovered.
    """

    doc: Doc
    row: Mapping[str, object]
    converted: Converted | None
    interval: Interval | None
    bound: int | None

    @property
    def value(self) -> float | None:
        """The count per 100 cm3 of soil."""
        return None if self.converted is None else self.converted.value

    @property
    def has_eggs(self) -> bool:
        """Whether eggs were counted."""
        return self.doc["stage"] in EGG_STAGES

    @property
    def original(self) -> str:
        """What the lab wrote, number and unit."""
        per = str(self.doc["per"]).strip()
        per = f" per {per.removeprefix('per ')}" if per else ""
        if self.doc["result"] == "counted":
            return f"{float(str(self.doc['count'])):,.10g}{per}"
        return "none recovered" if self.doc["result"] == "none_recovered" else "seen, not counted"

    @property
    def words(self) -> str:
        """The finding per 100 cm3, as it is shown."""
        if self.converted is not None:
            about = "about " if self.converted.flag else ""
            return f"{about}{figure(self.converted.value)} per 100 cm³"
        return self.original if self.bound is None else f"<{self.bound} per 100 cm³"


@dataclass(frozen=True)
class Report:
    """One letter of a lab about one bag.

    ``volume_cm3`` [cm3, > 0] is the soil it looked at, ``counted_share`` of the extract
    [1, above 0..1]; ``lab`` its name, empty when nobody said.
    """

    id: str
    doc: Doc
    bag: Bag
    lab: str
    method: str
    reported_on: date
    volume_cm3: float | None
    counted_share: float
    handled: Handling
    findings: tuple[Finding, ...]

    @property
    def series(self) -> str:
        """Lab and method: counts of one series may stand on one line."""
        return f"{self.lab.strip().casefold()}|{self.method.strip().casefold()}"

    @property
    def root_knot(self) -> Finding | None:
        """What it says of root-knot: some before none, then hatched young in soil."""
        own = [one for one in self.findings if one.doc["taxon"] == ROOT_KNOT]
        own.sort(
            key=lambda one: (
                one.doc["result"] == "none_recovered",  # no young beside eggs is not "none"
                one.has_eggs,
                one.value is None and one.bound is None,
            )
        )
        return own[0] if own else None

    @property
    def sign(self) -> str | None:
        """``"some"`` or ``"none"`` of root-knot, None where the report is silent."""
        own = [one.doc["result"] for one in self.findings if one.doc["taxon"] == ROOT_KNOT]
        if not own:
            return None
        return "none" if all(one == "none_recovered" for one in own) else "some"


def read_report(entry: Entry, bag: Bag, labs: Mapping[str, Doc], teller: Teller) -> Report:
    """A report from its record.

    Parameters
    ----------
    entry : Entry
        An assay report.
    bag : Bag
        The bag it is about.
    labs : Mapping
        Documents of the lab profiles, by id.
    teller : Teller
        Has the tables.

    Returns
    -------
    Report
        What cannot be turned into a number per 100 cm3 stays as it was written.

    References
    ----------
    nist_inch_pound, by_hand, negative_binomial
    """
    doc, rules = entry.doc, teller.judgements
    reported_on = date.fromisoformat(str(doc["reported_on"]))
    lab = labs.get(str(doc["lab_profile"])) or bag.lab
    volume, share = _examined(doc["examined"], rules)
    found = doc["found"]
    assert isinstance(found, list)
    table = {str(row["key"]): row for row in teller.rows("other_nematodes")}
    return Report(
        id=entry.id,
        doc=doc,
        bag=bag,
        lab=str(lab["name"]) if lab else "",
        method=str(doc["method"]),
        reported_on=reported_on,
        volume_cm3=volume,
        counted_share=share,
        handled=handling(journey_of(bag, rules, reported_on), rules),
        findings=tuple(
            _finding(one, table.get(str(one["taxon"]), table[OTHER]), volume, share, bag, rules)
            for one in found
        ),
    )


def _examined(value: object, rules: Table) -> tuple[float | None, float]:
    """Soil the lab looked at [cm3], None where it cannot be read, and the share counted."""
    if not isinstance(value, Mapping):
        return None, 1.0
    percent = value["counted_pct"]
    share = 1.0 if percent is None else float(percent) / 100
    unit = read_unit(str(value["soil"]))
    if unit is None or unit.basis == "root_weight":
        return None, share
    if unit.basis == "volume":
        return unit.amount, share
    return unit.amount / judged(rules, "soil_bulk_density_g_per_cm3"), share


def _finding(
    doc: Doc,
    row: Mapping[str, object],
    volume: float | None,
    share: float,
    bag: Bag,
    rules: Table,
) -> Finding:
    converted = _converted(doc, rules)
    interval, bound = None, None
    if doc["taxon"] == ROOT_KNOT and converted is not None and volume is not None:
        examined = Examined(volume, 1.0, share)
        n = max(1, counted_from_report(converted.value, 100, examined))
        k = pooled_k(bag.n_cores, judged(rules, "soil_cores_clumping_k"))
        interval = density_interval(n, examined, k)
    if doc["taxon"] == ROOT_KNOT and doc["result"] == "none_recovered":
        bound = _bound(doc, none_recovered(rules, volume, bag.n_cores, share))
    return Finding(doc, row, converted, interval, bound)


def _bound(doc: Doc, said: Said) -> int | None:
    found = said.params.get("bound")
    # What share of eggs a lab gets out is not known, so none of them has a bound.
    return found if isinstance(found, int) and doc["stage"] not in EGG_STAGES else None


def _converted(doc: Doc, rules: Table) -> Converted | None:
    count, unit = doc["count"], read_unit(str(doc["per"]))
    if not isinstance(count, int | float) or unit is None or not _is_soil(unit):
        return None
    try:
        found = convert_count(count, unit, PER_100_CM3, rules)
    except DomainError:
        return None
    return found if math.isfinite(found.value) and found.value > 0 else None


def _is_soil(unit: Unit) -> bool:
    return unit.basis != "root_weight"


def report_told(report: Report) -> dict[str, object]:
    """A report as it travels.

    Parameters
    ----------
    report : Report
        From `read_report`.

    Returns
    -------
    dict
        Plain values.
    """
    lifted = report.bag.lifted_on
    return {
        "assay_report": report.id,
        "soil_sample": report.bag.id,
        "bag": report.bag.code,
        "lab": report.lab,
        "method": report.method,
        "reported_on": report.reported_on.isoformat(),
        "lifted_on": lifted.isoformat() if lifted else None,
        "grade": report.handled.grade,
        "series": report.series,
        "findings": [_finding_told(one) for one in report.findings],
    }


def _finding_told(one: Finding) -> dict[str, object]:
    low, high = one.interval or (None, None)
    by_weight = one.converted is not None and one.converted.flag is not None
    return {
        "taxon": one.doc["taxon"],
        "name": one.row["name"],
        "sort": one.row["sort"],
        "about": one.row["about"],
        "stage": STAGES[str(one.doc["stage"])],
        "as_written": one.doc["as_written"],
        "original": one.original,
        "words": one.words,
        "value": one.value,
        "low": low,
        "high": high,
        "bound": one.bound,
        "sources": [one.row["source"]],
        "assumed": "The weight of dry soil was assumed." if by_weight else "",
    }


def series_told(reports: tuple[Report, ...]) -> list[dict[str, object]]:
    """Root-knot counts, one series for each lab and method, never joined.

    Parameters
    ----------
    reports : tuple of Report
        Of one bed, by day.

    Returns
    -------
    list of dict
        Plain values; counts with eggs, and of root weight, are in no series.
    """
    found: dict[str, dict[str, object]] = {}
    for report in reports:
        one = report.root_knot
        if one is None or one.has_eggs or (one.value is None and one.bound is None):
            continue
        about: dict[str, object] = {"key": report.series, "lab": report.lab}
        series = found.setdefault(report.series, about | {"method": report.method, "points": []})
        points = series["points"]
        assert isinstance(points, list)
        points.append(_point(report, one))
    return list(found.values())


def _point(report: Report, one: Finding) -> dict[str, object]:
    low, high = one.interval or (None, None)
    return {
        "assay_report": report.id,
        "on": (report.bag.lifted_on or report.reported_on).isoformat(),
        "value": one.value,
        "low": low,
        "high": high,
        "bound": one.bound,
    }
