"""All checks of a bed together: what contradicts what, and what they say of a level.

Not for one lab number alone: ``lab_counts`` and ``lab_none`` read those.
"""

from dataclasses import dataclass

from gardens.domain.asked.answer import Asked
from gardens.domain.asked.lab_bags import handling_line, reported_bag
from gardens.domain.briefing.bags import Bag, journey_of
from gardens.domain.briefing.gathered import Bed
from gardens.domain.briefing.lines import Line
from gardens.domain.briefing.soil_roots import Roots, prior_of, roots_line, roots_of
from gardens.domain.contradictions import Signs, contradictions
from gardens.domain.evidence import evidence_line, evidence_reasons, weigh
from gardens.domain.findings import Found, SoilCount
from gardens.domain.judgements import judged
from gardens.domain.said import Said
from gardens.domain.transit import Handling, handling


@dataclass(frozen=True)
class Checks:
    """What the records know beside the lab's number: the bed, its bag and its roots.

    ``prior`` is what was known of the bed before, one of ``evidence.PRIORS``.
    """

    bed: Bed | None
    bag: Bag | None
    handled: Handling
    roots: Roots | None
    prior: str


def checks_of(asked: Asked) -> Checks:
    """Gather what the records know of the bed that was chosen.

    Parameters
    ----------
    asked : Asked
        With ``bed``, or nothing.

    Returns
    -------
    Checks
        With the grade of a bag nobody noted, when there is none.
    """
    bed = asked.bed()
    bag, rules = reported_bag(asked, bed), asked.teller.judgements
    lifted = asked.today if bag is None or bag.lifted_on is None else bag.lifted_on
    handled = handling(journey_of(bag, rules, asked.today), rules)
    roots, prior = roots_of(bed, lifted, asked.teller), prior_of(bed, lifted, asked.teller)
    return Checks(bed, bag, handled, roots, prior)


def contradiction_lines(
    checks: Checks, asked: Asked, lab: str, volume_cm3: float | None
) -> list[Line]:
    """What the roots and the lab say against each other.

    Parameters
    ----------
    checks : Checks
        What the records know.
    asked : Asked
        Makes the lines.
    lab : str
        ``"some"`` or ``"none"`` recovered.
    volume_cm3 : float or None
        Soil the lab looked at [cm3, > 0].

    Returns
    -------
    list of Line
        None where they agree, or where roots and soil are too far apart in time to tell.
    """
    roots, bag = checks.roots, checks.bag
    if roots is None or not roots.is_near:
        return []
    least = judged(asked.teller.judgements, "soil_least_volume_cm3")
    signs = Signs(
        roots=roots.seen,
        lab=lab,
        good_host=roots.good_host,
        grade=checks.handled.grade if bag else None,
        little_soil=volume_cm3 is not None and volume_cm3 < least,
        look_alike=roots.look_alike,
        other_part=bag is not None and bag.is_part,
    )
    return [asked.teller.say(one.said, *one.reasons) for one in contradictions(signs)]


def record_lines(checks: Checks, asked: Asked) -> list[Line]:
    """What the records add: the roots, and how the bag fared.

    Parameters
    ----------
    checks : Checks
        What the records know.
    asked : Asked
        Makes the lines.

    Returns
    -------
    list of Line
        None, one or two; that nobody noted anything, when a bed was chosen.
    """
    if checks.bed is None:
        return []
    roots = asked.teller.line("lab_roots_unknown")
    if checks.roots is not None:
        roots = roots_line(checks.roots, asked.teller)
    if checks.bag is None:
        return [roots, asked.teller.line("journey_not_noted", grade=checks.handled.grade)]
    return [roots, handling_line(checks.handled, checks.bag, asked)]


def evidence_line_of(checks: Checks, asked: Asked, soil: SoilCount, level: float) -> Line:
    """What all checks together say of a level that matters for the crop.

    Parameters
    ----------
    checks : Checks
        What the records know.
    asked : Asked
        Makes the line.
    soil : SoilCount
        What the lab found, with the grade of its bag.
    level : float
        [J2 per 100 cm3, > 0]

    Returns
    -------
    Line
        Under the worse of two beginnings, which is named.
    """
    ungalled = checks.roots.ungalled if checks.roots else None
    found = Found(soil=soil, roots=ungalled)
    told = weigh(found, level, checks.prior, asked.teller.judgements)
    begun = Said(f"begun_from_{told.prior}")
    return asked.teller.say(evidence_line(told), *evidence_reasons(found), begun)
