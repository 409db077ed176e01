"""What a number of nematodes might cost, in each published trial.

Not a forecast of a bed: "what if your bed were this trial", several side by side, no mean.
"""

from collections.abc import Mapping

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.own_unit import Own, exact, read_own
from gardens.domain.asked.trials import (
    pots_words,
    trial_name,
    trial_unit,
    trials_of,
    unit_words,
)
from gardens.domain.briefing.lines import Line
from gardens.domain.damage import DamageParameters, relative_yield_seinhorst
from gardens.domain.judgements import judged
from gardens.domain.said import Said, figure
from gardens.domain.units import convert_count

STAGE_UNKNOWN = " (what was counted is not stated where we read it)"
NOTHING = "nothing"
EDGES = ((0.10, "a tenth"), (0.25, "a quarter"), (0.50, "half"), (0.75, "three quarters"))


def harvest_lost(asked: Asked) -> Answer:
    """What a number might cost, if the bed were one of the published trials.

    Parameters
    ----------
    asked : Asked
        With a ``crop``, ``number`` in ``unit``, what was ``counted`` and maybe
        ``bulk_density`` [g per cm3].

    Returns
    -------
    Answer
        Each trial that counted the same stage, with a band; the others with why not.
    """
    own, trials = read_own(asked), trials_of(asked)
    bands = {trial: _losses(asked, own, trial) for trial in trials}
    lines = [_harvest_line(asked, own, bands)]
    if asked.given.text("counted") == "juveniles" and any(bands.values()):
        share = judged(asked.teller.judgements, "assay_efficiency_low") * 100
        lines.append(asked.teller.line("harvest_recovered", share=f"{share:g}"))
    if None in bands.values():
        lines.append(asked.teller.line(f"harvest_other_stage_{asked.given.text('counted')}"))
    shown = sorted(trials, key=lambda trial: bands[trial] is None)
    rows = [_harvest_row(asked, own, trial, bands[trial]) for trial in shown]
    return Answer(tuple(lines), tuple(rows))


def _stage(trial: DamageParameters) -> str:
    """What a trial counted: ``both``, ``juveniles``, or nothing that was stated."""
    if "eggs" in trial.unit:
        return "both"
    return "juveniles" if "J2" in trial.unit else ""


def _densities(asked: Asked, own: Own, trial: DamageParameters) -> tuple[float, float]:
    """The number in a trial's unit: as it is, and as if a lab had recovered a small share."""
    weight = own.bulk_density
    here = convert_count(
        own.number, own.unit, trial_unit(trial), asked.teller.judgements, weight
    ).value
    if asked.given.text("counted") == "both":
        return here, here
    return here, here / judged(asked.teller.judgements, "assay_efficiency_low")


def _losses(asked: Asked, own: Own, trial: DamageParameters) -> tuple[float, float] | None:
    """Share of the harvest lost at both ends [1, 0..1]; None where the stages do not match."""
    if _stage(trial) not in ("", asked.given.text("counted")):
        return None
    low, high = (
        1 - relative_yield_seinhorst(density, trial.tolerance_limit, trial.minimum_yield)
        for density in _densities(asked, own, trial)
    )
    return low, high


def loss_band(low: float, high: float) -> str:
    """A loss as a band, never as a percentage.

    Parameters
    ----------
    low, high : float
        Shares of the harvest [1, 0..1].

    Returns
    -------
    str
        From the edge below to the edge above.

    Examples
    --------
    >>> loss_band(0.09, 0.52), loss_band(0.12, 0.2), loss_band(0, 0)
    ('between nothing and three quarters', 'between a tenth and a quarter', 'nothing')
    """
    if high <= 0:
        return NOTHING
    below = [words for edge, words in EDGES if edge <= low]
    above = [words for edge, words in EDGES if edge > high]
    return f"between {below[-1] if below else NOTHING} and {above[0] if above else 'all'}"


def _harvest_line(
    asked: Asked, own: Own, bands: Mapping[DamageParameters, tuple[float, float] | None]
) -> Line:
    losses = [one for one in bands.values() if one is not None]
    if not losses:
        return asked.teller.line("harvest_no_trial")
    said = {
        "number": exact(own.number),
        "unit": own.words,
        "lost": loss_band(min(low for low, _ in losses), max(high for _, high in losses)),
        "n": len(losses),
    }
    code = "harvest_one" if len(losses) == 1 else "harvest_uncertain"
    if said["lost"] == NOTHING:
        code = "harvest_no_loss"
    crossed = own.because(*(trial_unit(one) for one, band in bands.items() if band))
    return asked.teller.say(Said(code, said), *crossed)


def _harvest_row(
    asked: Asked, own: Own, trial: DamageParameters, losses: tuple[float, float] | None
) -> Row:
    unit = unit_words(trial)
    low, high = _densities(asked, own, trial)
    here = f"{figure(low)}" if low == high else f"{figure(low)} to {figure(high)}"
    least = f"{trial.minimum_yield * 100:g} %" if trial.minimum_yield else NOTHING
    cells = {
        "Harm begins at": f"{trial.tolerance_limit:g} {unit}",
        "Least harvest left": least,
    }
    if losses is None:
        cells["What if"] = "not worked out: this trial counted something else than you did"
    else:
        cells["Your number in its unit"] = f"{here} {unit}{'' if _stage(trial) else STAGE_UNKNOWN}"
        cells["What if"] = _lost_words(*losses)
    cells["Bear in mind"] = pots_words(trial)
    return row(trial_name(asked, trial), cells, (trial.source, "seinhorst_teaching"))


def _lost_words(low: float, high: float) -> str:
    if high <= 0:
        return "no loss in the model"
    return f"{loss_band(low, high)} of the harvest lost"
