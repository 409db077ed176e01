"""Names for how a plant fared in a trial: host classes, resistance, and a rotation's length.

Not for a bed of your own garden: each name needs counts before and after, or a check beside it.
"""

import bisect
import math

from gardens.domain.errors import DomainError

# Most galls of each index of Taylor and Sasser, 0 to 4.
_INDEX_TOPS = (0, 2, 10, 30, 100)


def host_class_oostenbrink(reproduction_factor: float) -> str:
    """Host, poor host or nothing found, from the reproduction factor alone.

    Parameters
    ----------
    reproduction_factor : float
        Rf = Pf / Pi [1, >= 0].

    Returns
    -------
    str
        ``"host"`` above 1, ``"poor_host"`` up to 1, ``"none_found"`` at 0.

    Raises
    ------
    DomainError
        ``negative``.

    Notes
    -----
    Nothing found in one trial is not proof that nothing can breed.

    References
    ----------
    oostenbrink_rule

    Examples
    --------
    >>> [host_class_oostenbrink(rf) for rf in (31.6, 0.2, 0)]
    ['host', 'poor_host', 'none_found']
    """
    if reproduction_factor < 0:
        raise DomainError("negative", reproduction_factor=reproduction_factor)
    if reproduction_factor == 0:
        return "none_found"
    return "host" if reproduction_factor > 1 else "poor_host"


def gall_index_taylor_sasser(n_galls: int) -> int:
    """Index of galls or egg masses on one root, from their number.

    Parameters
    ----------
    n_galls : int
        Galls, or egg masses, on the root of one test plant [>= 0].

    Returns
    -------
    int
        Index [Taylor-Sasser, 0..5].

    Raises
    ------
    DomainError
        ``negative``.

    Notes
    -----
    Exactly 100 is index 4 here: one paper prints class 5 from 100 on, the older text above 100.

    References
    ----------
    floridensis_2022_tables

    Examples
    --------
    >>> [gall_index_taylor_sasser(n) for n in (0, 2, 3, 10, 11, 30, 31, 100, 101)]
    [0, 1, 2, 2, 3, 3, 4, 4, 5]
    """
    if n_galls < 0:
        raise DomainError("negative", n_galls=n_galls)
    return bisect.bisect_left(_INDEX_TOPS, n_galls)


def host_class_canto_saenz(gall_index: float, reproduction_factor: float) -> str:
    """Class from both axes: how much it galls, and how much it multiplies.

    Parameters
    ----------
    gall_index : float
        Index of galls per root [Taylor-Sasser, 0..5]; never a share of galled roots.
    reproduction_factor : float
        Rf [1, >= 0].

    Returns
    -------
    str
        ``"resistant"``, ``"tolerant"``, ``"susceptible"`` or ``"hyper_susceptible"``.

    Raises
    ------
    DomainError
        ``out_of_scale`` or ``negative``.

    Notes
    -----
    The line is 2 for the index and 1 for the factor. The first two names are from memory.

    References
    ----------
    iran_medicinal_plants, canto_saenz_memory

    Examples
    --------
    >>> pairs = ((1.5, 0.4), (1.5, 3), (4, 12), (4, 0.5))
    >>> [host_class_canto_saenz(*pair) for pair in pairs]
    ['resistant', 'tolerant', 'susceptible', 'hyper_susceptible']
    """
    if not 0 <= gall_index <= 5:
        raise DomainError("out_of_scale", gall_index=gall_index)
    if reproduction_factor < 0:
        raise DomainError("negative", reproduction_factor=reproduction_factor)
    if gall_index <= 2:
        return "resistant" if reproduction_factor <= 1 else "tolerant"
    return "susceptible" if reproduction_factor > 1 else "hyper_susceptible"


def resistance_beside_check(reproduction: float, reproduction_on_check: float) -> str:
    """How resistant a variety is, beside a susceptible one in the same trial.

    Parameters
    ----------
    reproduction : float
        Eggs or juveniles on the variety [any one unit, >= 0].
    reproduction_on_check : float
        The same on the susceptible check [same unit, > 0].

    Returns
    -------
    str
        ``"highly_resistant"`` below 10 %, ``"moderately_resistant"`` below 50 %, else
        ``"not_resistant"``.

    Raises
    ------
    DomainError
        ``not_above_zero`` or ``negative``.

    Notes
    -----
    A variety of either class may still multiply nematodes.

    References
    ----------
    aydinli_2019_squash

    Examples
    --------
    >>> [resistance_beside_check(n, 1000) for n in (99, 100, 499, 500)]
    ['highly_resistant', 'moderately_resistant', 'moderately_resistant', 'not_resistant']
    """
    if not reproduction_on_check > 0:
        raise DomainError("not_above_zero", reproduction_on_check=reproduction_on_check)
    if reproduction < 0:
        raise DomainError("negative", reproduction=reproduction)
    share = reproduction / reproduction_on_check
    if share < 0.10:
        return "highly_resistant"
    return "moderately_resistant" if share < 0.50 else "not_resistant"


def years_without_host(density: float, start_density: float, yearly_survival: float) -> float:
    """Years without a host until numbers are back where they were before a host crop.

    Parameters
    ----------
    density : float
        After the host crop [any one unit, > 0].
    start_density : float
        Before it [same unit, > 0].
    yearly_survival : float
        s, share left after a year without a host [1, above 0 and below 1].

    Returns
    -------
    float
        ln(Pf / Pstart) / -ln(s) [yr, >= 0]; 0 where the crop left no more than before.

    Raises
    ------
    DomainError
        ``not_above_zero`` or ``not_a_share``.

    References
    ----------
    nemaplex_rotation

    Examples
    --------
    >>> round(years_without_host(1000, 10, 0.10), 9)
    2.0
    """
    if not (density > 0 and start_density > 0):
        raise DomainError("not_above_zero", density=density, start_density=start_density)
    if not 0 < yearly_survival < 1:
        raise DomainError("not_a_share", yearly_survival=yearly_survival)
    return max(0.0, math.log(density / start_density) / -math.log(yearly_survival))
