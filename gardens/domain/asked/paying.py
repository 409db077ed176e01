"""From which number a treatment would pay, in each published trial.

Not for a lab's number, and no advice to treat: the sum takes a treatment that works wholly.
"""

from collections.abc import Iterator, Mapping

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.own_unit import about
from gardens.domain.asked.trials import (
    pots_words,
    trial_name,
    trial_unit,
    trials_of,
    unit_words,
)
from gardens.domain.briefing.lines import Line
from gardens.domain.damage import DAMAGE_BASE, DamageParameters, economic_threshold_ferris
from gardens.domain.errors import DomainError
from gardens.domain.said import Said, figure
from gardens.domain.units import PER_100_CM3, convert_count


def treatment_pays(asked: Asked) -> Answer:
    """From which number a treatment would pay, in each published trial.

    Parameters
    ----------
    asked : Asked
        With a ``crop`` and three amounts of one money for the same ground: ``crop_value``,
        ``growing_cost`` and ``treatment_cost``.

    Returns
    -------
    Answer
        The number of each trial, in its own unit; and the label.

    Raises
    ------
    DomainError
        ``asked_nothing_to_lose`` on the field ``growing_cost``.
    """
    if asked.given.number("growing_cost") >= asked.given.number("crop_value"):
        raise DomainError("asked_nothing_to_lose", field="growing_cost")
    trials = trials_of(asked)
    found = {trial: _threshold(asked, trial) for trial in trials}
    lines = (_pays_line(asked, found), asked.teller.line("pays_label"))
    return Answer(lines, tuple(_pays_rows(asked, found)))


def _threshold(asked: Asked, trial: DamageParameters) -> float | None:
    return economic_threshold_ferris(
        crop_value=asked.given.number("crop_value"),
        production_cost=asked.given.number("growing_cost"),
        control_cost=asked.given.number("treatment_cost"),
        damage_per_nematode=DAMAGE_BASE ** (1 / trial.tolerance_limit),
        tolerance_limit=trial.tolerance_limit,
        minimum_yield=trial.minimum_yield,
    )


def _in_100_cm3(asked: Asked, trial: DamageParameters, density: float) -> float:
    return convert_count(density, trial_unit(trial), PER_100_CM3, asked.teller.judgements).value


def _pays_line(asked: Asked, found: Mapping[DamageParameters, float | None]) -> Line:
    ends = [_in_100_cm3(asked, trial, at) for trial, at in found.items() if at is not None]
    if not ends:
        return asked.teller.line("pays_never")
    low, high = about(min(ends)), about(max(ends))
    code = "pays_uncertain" if low != high else "pays_one"
    said = Said(code, {"low": low, "high": high, "n": len(ends)})
    n_never = len(found) - len(ends)
    more = [Said("pays_not_in_some", {"n": n_never})] if n_never else []
    return asked.teller.say(said, *more)


def _pays_rows(asked: Asked, found: Mapping[DamageParameters, float | None]) -> Iterator[Row]:
    for trial, at in found.items():
        cells = {
            "Would pay from": _pays_words(asked, trial, at),
            "Bear in mind": pots_words(trial),
        }
        yield row(trial_name(asked, trial), cells, (trial.source, "ferris_1978_sheet"))


def _pays_words(asked: Asked, trial: DamageParameters, at: float | None) -> str:
    if at is None:
        return "no number: it costs more than these nematodes could take"
    printed = f"{figure(at)} {unit_words(trial)}"
    in_100 = about(_in_100_cm3(asked, trial, at))
    return f"{printed} (about {in_100} per 100 cm³)"
