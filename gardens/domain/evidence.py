"""How likely a bed is below a level that matters, from all checks together, in words.

Joins a soil count, roots and a pot test, and doubts each of them. Not calibrated for raised
beds: every judged value is in one table and is shown.
"""

import math
from dataclasses import dataclass
from itertools import product

from gardens.domain.errors import DomainError
from gardens.domain.findings import Found, check, likelihoods, miss
from gardens.domain.judgements import Table, judged
from gardens.domain.posterior import Belief, Prior, belief, mixed
from gardens.domain.said import Said

# From the least worrying to the most: each is also tried with the next one.
PRIORS = ("never_seen", "nothing_known", "seen_before", "galls_last_crop")
SURE = 0.95


@dataclass(frozen=True)
class Evidence:
    """What the checks say of a level.

    ``chance_below`` [1, 0..1] and ``most`` [J2 per 100 cm3], below which the bed is with 95 %
    of the belief, are for the link "how we know"; ``code`` is for the first screen.
    ``prior`` is the one of the two tried that looked worse.
    """

    code: str
    level: float
    chance_below: float
    most: float
    prior: str


def read_prior(name: str, table: Table) -> Prior:
    """Belief before any check.

    Parameters
    ----------
    name : str
        One of ``PRIORS``.
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Prior
        Log-normal.

    Raises
    ------
    DomainError
        ``unknown_prior``.
    """
    if name not in PRIORS:
        raise DomainError("unknown_prior", prior=name)
    key = f"evidence_prior_{name}"
    return Prior(judged(table, f"{key}_median"), judged(table, f"{key}_spread"))


def belief_after(found: Found, prior: str, table: Table) -> Belief:
    """Belief after all checks, averaged over which of them worked.

    Parameters
    ----------
    found : Found
        All checks of a bed.
    prior : str
        One of ``PRIORS``.
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Belief
        Never surer for a smaller sample, and never less sure for one more check without a find.

    Raises
    ------
    DomainError
        ``unknown_prior``, ``negative``, ``not_above_zero`` or ``findings_impossible``.

    Notes
    -----
    Each check that found none tells nothing with a small chance, judged from how it was done
    and not from what it found; one that found some worked. The answer is the average over all
    combinations of checks that worked. Putting that doubt into the likelihood instead would
    let a larger sample lower the confidence.

    References
    ----------
    our_evidence_grid, negative_binomial, stirling_2025
    """
    check(found)
    start = read_prior(prior, table)
    names = [name for name in ("soil", "pots", "roots") if getattr(found, name) is not None]
    missed = {name: miss(name, found, table) for name in names}
    parts = []
    for worked in product((True, False), repeat=len(names)):
        kept = [name for name, works in zip(names, worked, strict=True) if works]
        weight = math.prod(1 - missed[name] if name in kept else missed[name] for name in names)
        if weight > 0:
            parts.append((weight, belief(start, likelihoods(found, kept, table))))
    return mixed(parts)


def weigh_under(found: Found, level: float, prior: str, table: Table) -> Evidence:
    """What all checks say of a level, under one prior.

    Parameters
    ----------
    found : Found
        All checks of a bed.
    level : float
        The level that matters, from a lab or a table [J2 per 100 cm3, > 0].
    prior : str
        One of ``PRIORS``.
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Evidence
        For comparing; ``weigh`` is for telling.

    Raises
    ------
    DomainError
        ``unknown_prior``, ``negative``, ``not_above_zero`` or ``findings_impossible``.

    References
    ----------
    our_evidence_grid
    """
    if not level > 0:
        raise DomainError("not_above_zero", level=level)
    after = belief_after(found, prior, table)
    chance = after.chance_below(level)
    return Evidence(in_words(chance, table), level, chance, after.most(SURE), prior)


def weigh(found: Found, level: float, prior: str, table: Table) -> Evidence:
    """What all checks say of a level, under the worse of two priors.

    Parameters
    ----------
    found : Found
        All checks of a bed.
    level : float
        The level that matters, from a lab or a table [J2 per 100 cm3, > 0].
    prior : str
        One of ``PRIORS``, as the history of the bed says.
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    Evidence
        With the chosen prior or the next more worrying one, whichever looks worse.

    Raises
    ------
    DomainError
        ``unknown_prior``, ``negative``, ``not_above_zero`` or ``findings_impossible``.

    References
    ----------
    our_evidence_grid
    """
    at = PRIORS.index(prior) if prior in PRIORS else len(PRIORS)
    tried = [weigh_under(found, level, name, table) for name in PRIORS[at : at + 2] or (prior,)]
    return min(tried, key=lambda one: one.chance_below)


def in_words(chance_below: float, table: Table) -> str:
    """Words for a chance, for a first screen that shows no percentage.

    Parameters
    ----------
    chance_below : float
        [1, 0..1]
    table : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    str
        ``"very_likely_below"``, ``"probably_below"``, ``"cannot_tell"`` or
        ``"probably_not_below"``.

    References
    ----------
    our_evidence_grid
    """
    if chance_below >= judged(table, "evidence_very_likely"):
        return "very_likely_below"
    if chance_below >= judged(table, "evidence_probably"):
        return "probably_below"
    if chance_below >= judged(table, "evidence_probably_not"):
        return "cannot_tell"
    return "probably_not_below"


def evidence_line(evidence: Evidence) -> Said:
    """What to say of a level, without a percentage.

    Parameters
    ----------
    evidence : Evidence
        From ``weigh``.

    Returns
    -------
    Said
        With the level [J2 per 100 cm3].
    """
    return Said(f"evidence_{evidence.code}", {"level": f"{evidence.level:g}"})


def evidence_reasons(found: Found) -> tuple[Said, ...]:
    """What each check found, one reason a check.

    Parameters
    ----------
    found : Found
        All checks of a bed.

    Returns
    -------
    tuple of Said
        At least one: that nobody has looked, when nobody has.
    """
    told = []
    if found.soil:
        many = "some" if found.soil.counted else "none"
        numbers = {"n": found.soil.counted, "n_cores": found.soil.n_cores}
        volume = {"volume_cm3": f"{found.soil.volume_cm3:g}"}
        told.append(Said(f"evidence_soil_{many}", {**numbers, **volume}))
    if found.pots:
        many = "some" if found.pots.galls else "none"
        volume = {"volume_cm3": f"{found.pots.volume_cm3:g}"}
        told.append(Said(f"evidence_pots_{many}", {"n": found.pots.galls, **volume}))
    if found.roots:
        told.append(Said("evidence_roots", {"n": found.roots.n_plants}))
    return tuple(told) or (Said("evidence_nothing"),)
