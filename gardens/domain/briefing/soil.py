"""What all checks of a bed say of its soil together: roots, reports, pot tests, history.

What contradicts something comes first. Not for one lab number that was typed under a question.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from gardens.domain.briefing import remembered
from gardens.domain.briefing.bags import Bag
from gardens.domain.briefing.gathered import Bed
from gardens.domain.briefing.lines import Because, Line, Teller
from gardens.domain.briefing.pots import Pots, as_finding
from gardens.domain.briefing.reports import Finding, Report, report_told, series_told
from gardens.domain.briefing.sample_plan import days_bare
from gardens.domain.briefing.soil_levels import Levels, beside_lines, crop_named, levels_of_crop
from gardens.domain.briefing.soil_roots import Roots, prior_of, roots_line, roots_of
from gardens.domain.contradictions import Signs, contradictions, counts_apart
from gardens.domain.count_interval import Examined, Interval, counted_from_report
from gardens.domain.evidence import evidence_line, evidence_reasons
from gardens.domain.findings import Found, PotTest, SoilCount
from gardens.domain.judgements import judged
from gardens.domain.none_recovered import none_recovered
from gardens.domain.posterior import MOST
from gardens.domain.said import Said, figure, together

_LAB_WORDS = {"species_id": "report_species", "hazard": "report_hazard"}


@dataclass(frozen=True)
class Ground:
    """All that speaks of the soil of one bed on one day.

    ``report`` is the newest with root-knot in it, ``earlier`` the ones before; ``pots`` the
    newest pot test that tells something; ``lifted`` the day the others are set beside.
    """

    bed: Bed
    report: Report | None
    reports: tuple[Report, ...]
    pots: Pots | None
    roots: Roots | None
    prior: str
    levels: Levels
    lifted: date


def soil_told(
    bed: Bed,
    bags: Sequence[Bag],
    reports: tuple[Report, ...],
    pots: Sequence[Pots],
    today: date,
    teller: Teller,
) -> dict[str, object] | None:
    """What is known of a bed's soil, as it travels.

    Parameters
    ----------
    bed : Bed
        The bed.
    bags : sequence of Bag
        Its samples, by the moment of lifting.
    reports : tuple of Report
        Its reports, by day.
    pots : sequence of Pots
        Its pot tests, by the day of sowing.
    today : date
        The day.
    teller : Teller
        Has the tables and makes the lines.

    Returns
    -------
    dict or None
        None while neither a report nor a pot test nor sound roots of a good host speak of it.
    """
    if not reports and not pots and not _are_sound(roots_of(bed, today, teller)):
        return None
    ground = _ground(bed, bags, reports, pots, today, teller)
    if not reports and ground.pots is None and not _are_sound(ground.roots):
        return None
    published = ground.levels.published
    return {
        "lines": _lines(ground, teller),
        "reports": [report_told(one) for one in reports],
        "series": series_told(reports),
        "spread": (
            {"low": published.low, "high": published.high, "n": published.n_levels}
            if published
            else None
        ),
        "crop": ground.levels.crop,
        "level": ground.levels.ends[0],
    }


def _are_sound(roots: Roots | None) -> bool:
    return roots is not None and roots.ungalled is not None


def _ground(
    bed: Bed,
    bags: Sequence[Bag],
    reports: tuple[Report, ...],
    pots: Sequence[Pots],
    today: date,
    teller: Teller,
) -> Ground:
    newest = next((one for one in reversed(reports) if one.sign), None)
    telling = next((one for one in reversed(pots) if one.sign), None)
    lifted = today
    if newest is not None:
        lifted = newest.bag.lifted_on or newest.reported_on
    elif telling is not None:
        lifted = telling.sown_on
    wanted = [bag.next_crop for bag in bags if bag.next_crop.strip()]
    crop = crop_named(wanted[-1] if wanted else "", teller)
    return Ground(
        bed=bed,
        report=newest,
        reports=reports,
        pots=telling if telling is None or _is_near(telling.sown_on, lifted, teller) else None,
        roots=roots_of(bed, lifted, teller),
        prior=prior_of(bed, lifted, teller),
        levels=levels_of_crop(crop, teller),
        lifted=lifted,
    )


def _is_near(one: date, other: date, teller: Teller) -> bool:
    return abs((one - other).days) <= judged(teller.judgements, "briefing_old_check_days")


def _lines(ground: Ground, teller: Teller) -> list[Line]:
    against = [*_against(ground, teller), *_apart(ground, teller)]
    report = ground.report
    lines = [*against, *_present(ground, teller), *_verdict(ground, bool(against), teller)]
    if report is not None:
        lines += _report_lines(report, ground, bool(against), teller)
    if ground.roots is not None:
        lines.append(roots_line(ground.roots, teller))
    return [*lines, *_others(ground, teller)]


def _present(ground: Ground, teller: Teller) -> list[Line]:
    """That root-knot is in the bed, where it was seen or counted."""
    report, pots, roots = ground.report, ground.pots, ground.roots
    seen = {
        "counted by a laboratory": report is not None and report.sign == "some",
        "seen on seedlings grown in its soil": pots is not None and pots.sign == "some",
        "seen on its roots": roots is not None and roots.is_near and _is_galled(roots),
    }
    told = [words for words, applies in seen.items() if applies]
    return [teller.line("soil_present", seen=together(told))] if told else []


def _is_galled(roots: Roots) -> bool:
    return roots.seen == "some" and not roots.look_alike


def _against(ground: Ground, teller: Teller) -> list[Line]:
    """What the checks say against each other, where they are of about one time."""
    roots, pots = ground.roots, ground.pots
    near = roots if roots is not None and roots.is_near else None
    signs = _lab_signs(ground, teller)
    if near is not None:
        signs = replace(
            signs, roots=near.seen, good_host=near.good_host, look_alike=near.look_alike
        )
    if pots is not None:
        signs = replace(signs, pots=pots.sign)
    return [teller.say(one.said, *one.reasons) for one in contradictions(signs)]


def _lab_signs(ground: Ground, teller: Teller) -> Signs:
    report = ground.report
    if report is None:
        return Signs()
    least = judged(teller.judgements, "soil_least_volume_cm3")
    return Signs(
        lab=report.sign,
        grade=report.handled.grade,
        little_soil=report.volume_cm3 is not None and report.volume_cm3 < least,
        off_season=_is_late(ground, teller),
        other_part=report.bag.is_part,
    )


def _is_late(ground: Ground, teller: Teller) -> bool:
    if ground.report is None:
        return False
    bare = days_bare(ground.bed, ground.lifted)
    return bare is not None and bare > judged(teller.judgements, "soil_late_days")


def _apart(ground: Ground, teller: Teller) -> list[Line]:
    """Two counts of about one time, of different labs or methods, whose ranges do not touch."""
    report = ground.report
    own = _range(report, teller) if report else None
    if report is None or own is None:
        return []
    for other in ground.reports:
        theirs = _range(other, teller)
        lifted = other.bag.lifted_on or other.reported_on
        if theirs is None or other.series == report.series or lifted != ground.lifted:
            continue
        said = counts_apart(own, theirs)
        if said is not None:
            return [teller.say(said)]
    return []


def _range(report: Report, teller: Teller) -> Interval | None:
    """What the bed may hold by one report [J2 per 100 cm3]."""
    one = report.root_knot
    if one is None or one.value is None or one.has_eggs:
        return None
    low, high = one.interval or (one.value, one.value)
    poor, good = (judged(teller.judgements, f"assay_efficiency_{how}") for how in ("low", "high"))
    return low / good, high / poor


def _verdict(ground: Ground, is_contradicted: bool, teller: Teller) -> list[Line]:
    """All checks joined, for the lowest level that matters, under the worse beginning."""
    if is_contradicted:
        return []
    level = ground.levels.ends[0]
    found = Found(
        soil=_soil_count(ground.report),
        pots=_pot_test(ground, teller),
        roots=ground.roots.ungalled if ground.roots else None,
    )
    if found == Found():
        return []
    told = remembered.weighed(found, level, ground.prior, teller.rules)
    begun = Said(f"begun_from_{told.prior}")
    most = Because(f"19 parts in 20 of the belief lie below about {figure(told.most, 2)}.", ())
    line = teller.say(evidence_line(told), *evidence_reasons(found), begun, because=[most])
    return [line]


def _pot_test(ground: Ground, teller: Teller) -> PotTest | None:
    if ground.pots is None:
        return None
    return as_finding(ground.pots, ground.report.bag if ground.report else None, teller)


def _soil_count(report: Report | None) -> SoilCount | None:
    """The newest count as evidence; none where soil or cores are not known, or eggs count."""
    one = report.root_knot if report else None
    if report is None or one is None or one.has_eggs or report.bag.n_cores is None:
        return None
    volume, share = report.volume_cm3, report.counted_share
    if volume is None:
        return None
    if one.value is None and one.doc["result"] != "none_recovered":
        return None
    counted = 0
    if one.value is not None:
        if one.value > MOST:
            return None
        counted = max(1, counted_from_report(one.value, 100, Examined(volume, 1.0, share)))
    return SoilCount(counted, volume, report.bag.n_cores, report.handled.grade, share)


def _report_lines(
    report: Report, ground: Ground, is_contradicted: bool, teller: Teller
) -> list[Line]:
    one = report.root_knot
    assert one is not None
    lines = [_number_line(report, one, teller)]
    bed = _range(report, teller)
    if one.doc["result"] == "none_recovered":
        if is_contradicted:
            lines.append(teller.line("none_not_set_beside"))
        elif one.bound is not None:
            most = _bound_if_poor(report, teller)
            lines += beside_lines(ground.levels, (0.0, most), teller)
        if _is_late(ground, teller):
            bare = days_bare(ground.bed, ground.lifted)
            lines.append(teller.line("none_lifted_late", days=bare))
        lines.append(teller.line("none_pot_test"))
    elif one.has_eggs:
        lines.append(teller.line("count_with_eggs"))
    elif bed is not None:
        lines += beside_lines(ground.levels, bed, teller)
        lines.append(teller.line("count_local_first"))
    graded = Said("report_bag_graded", {"bag": report.bag.code, "grade": report.handled.grade})
    return [*lines, teller.say(graded, report.handled.said, *report.handled.reasons)]


def _bound_if_poor(report: Report, teller: Teller) -> float:
    said = _none_said(report, teller)
    found = said.params["bound_if_poor"]
    assert isinstance(found, int)
    return float(found)


def _none_said(report: Report, teller: Teller) -> Said:
    return none_recovered(
        teller.judgements, report.volume_cm3, report.bag.n_cores, report.counted_share
    )


def _number_line(report: Report, one: Finding, teller: Teller) -> Line:
    """What the lab wrote of root-knot, with who wrote it."""
    who = f"{report.lab}, {report.method}" if report.lab and report.method else report.lab
    about = {
        "on": report.reported_on,
        "bag": report.bag.code,
        "lab": who or report.method or "a laboratory",
        "original": one.original,
        "words": one.words,
    }
    if one.doc["result"] == "none_recovered":
        return teller.say(_none_said(report, teller), Said("report_by", about))
    if one.doc["result"] == "seen" or one.value is None:
        return teller.say(Said("report_not_per_soil", about))
    bed = _range(report, teller)
    if bed is None:
        return teller.say(Said("report_counted", about))
    ends = {"bed_low": figure(bed[0], 2, down=True), "bed_high": figure(bed[1], 2)}
    flag = one.converted.flag if one.converted else None
    assumed = [Said("report_weight_assumed")] if flag else []
    return teller.say(Said("report_counted_range", about | ends), *assumed)


def _others(ground: Ground, teller: Teller) -> list[Line]:
    """What reports said beside root-knot: other nematodes, a species, the lab's own words."""
    newest = ground.reports[-1] if ground.reports else None
    if newest is None:
        return []
    there = [one for one in newest.findings if one.doc["result"] != "none_recovered"]
    pests = [str(one.row["name"]) for one in there if one.row["sort"] == "plant_parasitic"]
    lines = []
    if pests:
        names = together(dict.fromkeys(pests))
        lines.append(teller.line("report_other_pests", names=names))
    if any(one.row["sort"] == "free_living" for one in there):
        lines.append(teller.line("report_free_living"))
    said = {code: str(newest.doc[field]).strip() for field, code in _LAB_WORDS.items()}
    return [*lines, *(teller.line(code, words=words) for code, words in said.items() if words)]
