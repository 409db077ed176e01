"""The seasons of a bed, one root check for each, and whether the mean fell every time.

Not for two checks of one season: those are compared as a change.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from gardens.domain.briefing.gathered import Check
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.briefing.roots import Seen, look
from gardens.domain.change import LEAST_PLANTS
from gardens.domain.change_lines import season_line
from gardens.domain.judgements import judged
from gardens.domain.said import Said


@dataclass(frozen=True)
class Seasons:
    """The last check that counts of each season, oldest first, all on one scale.

    ``n_left_out`` are seasons that were rated without such a check: on another scale, of the
    worst-looking plants, or of too few [seasons, >= 0].
    """

    seen: tuple[Seen, ...]
    n_left_out: int = 0

    @property
    def means(self) -> list[float]:
        """Mean grade of each season [the scale, 0..10]."""
        return [one.summary.mean for one in self.seen if one.summary.mean is not None]

    @property
    def crops_differ(self) -> bool:
        """Whether more than one crop was rated."""
        return len({crop_of(one) for one in self.seen}) > 1


def crop_of(seen: Seen) -> str:
    """The crop that was rated, to be set beside another.

    Parameters
    ----------
    seen : Seen
        A root check.

    Returns
    -------
    str
        Its key, or its name as typed.
    """
    planting = seen.check.planting.doc
    return str(planting["crop_key"]) or str(planting["crop"]).strip().lower()


def seasons(checks: Sequence[Check], teller: Teller) -> Seasons:
    """The seasons of a bed that can be set beside each other.

    Parameters
    ----------
    checks : sequence of Check
        Of one bed, by day.
    teller : Teller
        Has the judged values and the scales.

    Returns
    -------
    Seasons
        On the scale of the newest check that counts. A season ends where nothing was rated
        for some months, so that no calendar has to fit both halves of the world.
    """
    found: list[Seen] = []
    rated = _rated_seasons(checks, teller)
    for season in reversed(rated):
        counts = [one for one in (look(check, teller) for check in season) if _counts(one)]
        counts = [one for one in counts if not found or one.scale.key == found[0].scale.key]
        found += counts[-1:]
    return Seasons(tuple(reversed(found)), len(rated) - len(found))


def _counts(seen: Seen) -> bool:
    return seen.how != "worst_looking" and seen.summary.n_rated >= LEAST_PLANTS


def _rated_seasons(checks: Sequence[Check], teller: Teller) -> list[list[Check]]:
    gap = judged(teller.judgements, "seasons_gap_days")
    found: list[list[Check]] = []
    for check in checks:
        if not check.ratings:
            continue
        if found and (_day(check) - _day(found[-1][-1])).days <= gap:
            found[-1].append(check)
        else:
            found.append([check])
    return found


def _day(check: Check) -> date:
    return date.fromisoformat(check.on)


def season_lines(checks: Sequence[Check], teller: Teller) -> list[Line]:
    """Tell that a bed fell season after season, once there are enough of them.

    Parameters
    ----------
    checks : sequence of Check
        Of one bed, by day.
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        One line, or none.
    """
    if len(_rated_seasons(checks, teller)) < judged(teller.judgements, "seasons_least"):
        return []
    found = seasons(checks, teller)
    said = season_line(found.means, teller.judgements)
    return [fell_line(said, found, teller)] if said else []


def fell_line(said: Said, found: Seasons, teller: Teller) -> Line:
    """A line about seasons, with what else may be behind it.

    Parameters
    ----------
    said : Said
        What is to be said of the seasons.
    found : Seasons
        The seasons it is said of.
    teller : Teller
        Makes the line.

    Returns
    -------
    Line
        With a reason when the crops differed and when seasons were left out.
    """
    more = [Said("seasons_crops_differ")] if found.crops_differ else []
    if found.n_left_out:
        more.append(Said("seasons_left_out", {"n": found.n_left_out}))
    return teller.say(said, *more)
