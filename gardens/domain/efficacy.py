"""How much of a pest a treatment took away, from counts beside an untreated bed.

Not for 0-to-10 grades, whose ratios mean nothing, and not for one bed without an untreated one.
"""

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

from gardens.domain.student import t_quantile

SURE = 0.975


@dataclass(frozen=True)
class Cells:
    """One number for each bed and date: treated and untreated, before and after."""

    treated_before: float
    treated_after: float
    untreated_before: float
    untreated_after: float


@dataclass(frozen=True)
class Plots:
    """Counts of two or more samples for each bed and date [one unit, >= 0]."""

    treated_before: tuple[float, ...]
    treated_after: tuple[float, ...]
    untreated_before: tuple[float, ...]
    untreated_after: tuple[float, ...]


@dataclass(frozen=True)
class Efficacy:
    """Reduction beside the untreated bed [%, up to 100], and its 95 % interval.

    ``code`` is ``"interval"`` or ``"none_recovered"``: nothing was counted after treatment,
    which is not nothing in the soil, so there is only ``at_least``. ``se`` is that of the
    logarithm of the ratio, ``degrees`` those of Student's t, None for the normal.
    """

    code: str
    percent: float | None = None
    low: float | None = None
    high: float | None = None
    se: float | None = None
    degrees: float | None = None
    at_least: float | None = None


def abbott(treated: float, untreated: float) -> float | None:
    """Reduction beside an untreated bed that started the same.

    Parameters
    ----------
    treated, untreated : float
        Counts after treatment [one unit, >= 0].

    Returns
    -------
    float or None
        [%, up to 100; below 0 when the treated bed has more]; None when the untreated bed has
        none.

    References
    ----------
    abbott_1925

    Examples
    --------
    >>> abbott(20, 80)
    75.0
    """
    return 100 * (1 - treated / untreated) if untreated > 0 else None


def henderson_tilton(cells: Cells) -> float | None:
    """Reduction beside an untreated bed, allowing for unequal starts.

    Parameters
    ----------
    cells : Cells
        Counts [one unit, >= 0].

    Returns
    -------
    float or None
        [%, up to 100; below 0 when the treated bed did worse]; None when nothing was there
        before, or in the untreated bed after. Where nothing was counted after treatment it is
        100, which has to be shown as "at least".

    Notes
    -----
    100 (1 - Ta Cb / (Tb Ca)). The same as Abbott's when the starts are equal.

    References
    ----------
    henderson_tilton_1955

    Examples
    --------
    >>> round(henderson_tilton(Cells(300, 60, 280, 350)), 6)
    84.0
    """
    if min(cells.treated_before, cells.untreated_before, cells.untreated_after) <= 0:
        return None
    treated = cells.treated_after / cells.treated_before
    return 100 * (1 - treated * cells.untreated_before / cells.untreated_after)


def efficacy_of_plots(plots: Plots) -> Efficacy | None:
    """Reduction from replicate samples, with its interval.

    Parameters
    ----------
    plots : Plots
        Two or more counts in each of the four cells [one unit, >= 0].

    Returns
    -------
    Efficacy or None
        None with fewer than two samples in a cell or where there is no ratio. ``at_least`` is
        left to the bound on the counts when none was recovered after treatment.

    Notes
    -----
    Student's t on the logarithm of the ratio, with Welch's degrees of freedom.

    References
    ----------
    henderson_tilton_1955
    """
    four = _four(plots)
    if min(len(cell) for cell in four) < 2:
        return None
    percent = henderson_tilton(Cells(*(statistics.fmean(cell) for cell in four)))
    if percent is None:
        return None
    if sum(plots.treated_after) == 0:
        return Efficacy("none_recovered")
    parts = [statistics.variance(cell) / (len(cell) * statistics.fmean(cell) ** 2) for cell in four]
    se = math.sqrt(sum(parts))
    spread = sum(v * v / (len(c) - 1) for v, c in zip(parts, four, strict=True))
    if spread == 0:
        return Efficacy("interval", percent, percent, percent, 0.0, None)
    degrees = se**4 / spread
    return _with_interval(percent, se, t_quantile(SURE, degrees), degrees)


def _four(plots: Plots) -> tuple[Sequence[float], ...]:
    return (
        plots.treated_before,
        plots.treated_after,
        plots.untreated_before,
        plots.untreated_after,
    )


def efficacy_of_composites(counted: Cells, k_composite: float) -> Efficacy | None:
    """Reduction from one composite sample in each cell, with its interval.

    Parameters
    ----------
    counted : Cells
        Nematodes really counted, of equal amounts of soil [1, >= 0].
    k_composite : float
        Clumping of the composite: cores times the k of one core [1, above 0].

    Returns
    -------
    Efficacy or None
        None where there is no ratio.

    Notes
    -----
    The delta method for negative binomial counts, half a nematode added to each, which draws
    the reduction a little towards 0. Right only when the clumping is: with twice the true k
    the interval is too narrow.

    References
    ----------
    henderson_tilton_1955

    Examples
    --------
    >>> found = efficacy_of_composites(Cells(180, 40, 150, 200), 10)
    >>> round(found.percent, 1), round(found.low, 1), round(found.high, 1)
    (83.2, 38.0, 95.4)
    """
    if henderson_tilton(counted) is None:
        return None
    if counted.treated_after == 0:
        return Efficacy("none_recovered")
    four = [
        count + 0.5
        for count in (
            counted.treated_before,
            counted.treated_after,
            counted.untreated_before,
            counted.untreated_after,
        )
    ]
    percent = henderson_tilton(Cells(*four))
    assert percent is not None
    se = math.sqrt(sum(1 / y + 1 / k_composite for y in four))
    return _with_interval(percent, se, NormalDist().inv_cdf(SURE), None)


def _with_interval(percent: float, se: float, q: float, degrees: float | None) -> Efficacy:
    left = 1 - percent / 100
    low, high = (100 * (1 - left * math.exp(sign * q * se)) for sign in (1, -1))
    return Efficacy("interval", percent, low, high, se, degrees)


def efficacy_at_least(cells: Cells, treated_after_at_most: float) -> Efficacy | None:
    """What may be said when none was recovered after treatment.

    Parameters
    ----------
    cells : Cells
        Densities, none of them after treatment [one unit, >= 0].
    treated_after_at_most : float
        Density that could still have given no nematode 1 time in 20 [same unit, above 0].

    Returns
    -------
    Efficacy or None
        Only ``at_least``, never below 0; None where there is no ratio.

    Notes
    -----
    The other three counts are taken as they are.

    References
    ----------
    henderson_tilton_1955

    Examples
    --------
    >>> round(efficacy_at_least(Cells(300, 0, 280, 350), 12).at_least, 1)
    96.8
    """
    most = Cells(
        cells.treated_before, treated_after_at_most, cells.untreated_before, cells.untreated_after
    )
    percent = henderson_tilton(most)
    return None if percent is None else Efficacy("none_recovered", at_least=max(0.0, percent))
