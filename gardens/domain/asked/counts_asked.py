"""By how much a treatment lowered the counts of a lab, beside a bed left alone.

Not for 0-to-10 grades: their ratios mean nothing.
"""

import statistics
from collections.abc import Callable, Mapping

from gardens.domain.asked.answer import Answer, Asked
from gardens.domain.briefing.lines import Line
from gardens.domain.check_lines import efficacy_line
from gardens.domain.count_interval import Examined, pooled_k
from gardens.domain.detection import most_when_none_recovered
from gardens.domain.efficacy import (
    Cells,
    Efficacy,
    Plots,
    efficacy_at_least,
    efficacy_of_composites,
    efficacy_of_plots,
)
from gardens.domain.errors import DomainError
from gardens.domain.judgements import judged
from gardens.domain.said import shown

BOXES = ("treated_before", "treated_after", "untreated_before", "untreated_after")
# What a count stands for when nobody says how much soil it was made from [cm3].
REPORTED_PER_CM3 = 100.0


def counts_lowered(asked: Asked) -> Answer:
    """By how much a treatment lowered the counts.

    Parameters
    ----------
    asked : Asked
        With ``treated_before`` and ``treated_after``, maybe ``untreated_before`` and
        ``untreated_after`` [J2 per 100 cm3], ``n_cores`` and ``volume_cm3`` [cm3].

    Returns
    -------
    Answer
        A reduction with its interval, "at least" when none was recovered, or why there is
        none to tell.

    Raises
    ------
    DomainError
        ``asked_both_untreated`` and ``asked_samples_mixed``, on the box that is wrong.
    """
    four = [asked.given.numbers(name) for name in BOXES]
    if not four[2] and not four[3]:
        return Answer((_alone_line(asked, four[0], four[1]),))
    _refuse_mixed(four)
    is_mixed = len(four[0]) == 1
    found = _of_mixed(asked, four) if is_mixed else efficacy_of_plots(Plots(*four))
    if found is not None and found.code == "none_recovered":
        found = _at_least(asked, four) or found
    lines = [asked.teller.say(efficacy_line(found))]
    if is_mixed and found is not None and found.code == "interval":
        cores, volume = int(asked.given.number("n_cores")), _volume_cm3(asked)
        lines.append(asked.teller.line("efficacy_mixed", n=cores, volume=volume))
    return Answer(tuple(lines))


def _refuse_mixed(four: list[tuple[float, ...]]) -> None:
    """Refuse half an untreated bed, and one count beside several."""
    for name, cell in zip(BOXES, four, strict=True):
        if not cell:
            raise DomainError("asked_both_untreated", field=name)
    if len({len(cell) > 1 for cell in four}) > 1:
        field = next(name for name, cell in zip(BOXES, four, strict=True) if len(cell) == 1)
        raise DomainError("asked_samples_mixed", field=field)


def _alone_line(asked: Asked, before: tuple[float, ...], after: tuple[float, ...]) -> Line:
    means = (shown(statistics.fmean(before)), shown(statistics.fmean(after)))
    code = "efficacy_no_untreated" if means[1] else "efficacy_no_untreated_none"
    return asked.teller.line(code, before=means[0], after=means[1])


def _of_mixed(asked: Asked, four: list[tuple[float, ...]]) -> Efficacy | None:
    share = _volume_cm3(asked) / REPORTED_PER_CM3
    return efficacy_of_composites(Cells(*(share * cell[0] for cell in four)), _k(asked))


def _volume_cm3(asked: Asked) -> float:
    return asked.given.maybe("volume_cm3") or REPORTED_PER_CM3


def _k(asked: Asked, n_samples: int = 1) -> float:
    k = judged(asked.teller.judgements, "soil_cores_clumping_k")
    found = pooled_k(n_samples * int(asked.given.number("n_cores")), k)
    assert found is not None
    return found


def _at_least(asked: Asked, four: list[tuple[float, ...]]) -> Efficacy | None:
    """From the most that could still give none in all the soil looked at after treatment."""
    volume, n = asked.given.maybe("volume_cm3"), len(four[1])
    if volume is None:
        return None
    efficiency = judged(asked.teller.judgements, "assay_efficiency_middle")
    most = most_when_none_recovered(Examined(n * volume, efficiency), _k(asked, n))
    return efficacy_at_least(Cells(*(statistics.fmean(cell) for cell in four)), most)


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"counts_lowered": counts_lowered}
