"""What the roots of a bed say beside a soil sample: a root check as evidence.

Not for how badly they are galled: a grade is no number of nematodes.
"""

from dataclasses import dataclass
from datetime import date, timedelta

from gardens.domain.briefing.gathered import Bed, Check, Entry, part
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.briefing.roots import look
from gardens.domain.findings import UngalledRoots
from gardens.domain.host_table import LEVELS, plant_of_crop, read_plants
from gardens.domain.judgements import judged
from gardens.domain.resistance import read_packet

# The common species; which one is in a bed is seldom known.
COMMON = ("Mi", "Mj", "Ma", "Mh")
_LEAST_KNOWN = 3
_GALLS_READILY = {"host", "good"}
_HARDLY = set(LEVELS[: LEVELS.index("moderate")])


@dataclass(frozen=True)
class Roots:
    """A root check of a bed, as far as it speaks of the soil.

    ``seen`` is ``"some"`` or ``"none"``; ``good_host`` None when it is not known whether the
    crop galls readily; ``look_alike`` when every galled plant may have had something else;
    ``is_near`` when roots and soil are of about one time.
    """

    on: date
    crop: str
    n_rated: int
    n_galled: int
    good_host: bool | None
    look_alike: bool
    is_near: bool

    @property
    def seen(self) -> str:
        """Whether galls were seen."""
        return "some" if self.n_galled else "none"

    @property
    def ungalled(self) -> UngalledRoots | None:
        """What counts as evidence of few: good hosts without a gall, near in time."""
        counts = self.seen == "none" and self.good_host and self.is_near
        return UngalledRoots(self.n_rated) if counts else None


def roots_of(bed: Bed | None, lifted: date, teller: Teller) -> Roots | None:
    """The root check of a bed that lies nearest to a sample in time.

    Parameters
    ----------
    bed : Bed or None
        None for no bed.
    lifted : date
        The day the soil was lifted that the roots are set beside.
    teller : Teller
        Has the tables.

    Returns
    -------
    Roots or None
        None when no root was rated.
    """
    checks = () if bed is None else bed.checks
    by_distance = sorted(reversed(checks), key=lambda one: abs(date.fromisoformat(one.on) - lifted))
    nearest = next((one for one in by_distance if look(one, teller).plants), None)
    return None if nearest is None else _roots(nearest, lifted, teller)


def _roots(check: Check, lifted: date, teller: Teller) -> Roots:
    plants = look(check, teller).plants
    on = date.fromisoformat(check.on)
    old = timedelta(days=judged(teller.judgements, "briefing_old_check_days"))
    return Roots(
        on=on,
        crop=str(check.planting.doc["crop"]),
        n_rated=len(plants),
        n_galled=sum(one.grade > 0 for one in plants),
        good_host=galls_readily(check.planting, teller),
        look_alike=_all_doubtful(check),
        is_near=abs(lifted - on) <= old,
    )


def _all_doubtful(check: Check) -> bool:
    """Whether a look-alike was noted on every plant that had a grade above 0."""
    galled = [one.doc for one in check.ratings if part(one.doc, "reading")["grade"]]
    return bool(galled) and all(doc["look_alike"] is not None for doc in galled)


def galls_readily(planting: Entry, teller: Teller) -> bool | None:
    """Whether a crop shows galls where there are nematodes.

    Parameters
    ----------
    planting : Entry
        The crop, with what its packet states.
    teller : Teller
        Has the tables.

    Returns
    -------
    bool or None
        True for a good host of every common species that is written of; False for a resistant
        one or a poor host of all; None when it is not known or depends on the species.
    """
    key, printed = str(planting.doc["crop_key"]), str(planting.doc["resistance_code"])
    if read_packet(printed, key, teller.table("resistance_codes")).stated:
        return False
    plants = teller.once("plants", lambda: read_plants(teller.rows("host_status")))
    plant = plant_of_crop(plants, key)
    cells = [] if plant is None else [plant.cells[one] for one in COMMON if one in plant.cells]
    levels = {level for cell in cells for level in cell.levels}
    if not levels or any(cell.conflict for cell in cells):
        return None
    if levels <= _GALLS_READILY and len(cells) >= _LEAST_KNOWN:
        return True
    return False if levels <= _HARDLY else None


def prior_of(bed: Bed | None, lifted: date, teller: Teller) -> str:
    """What was known of a bed before the sample, from all its root checks.

    Parameters
    ----------
    bed : Bed or None
        None for no bed.
    lifted : date
        The day the soil was lifted.
    teller : Teller
        Has the tables.

    Returns
    -------
    str
        One of ``evidence.PRIORS``.
    """
    checks = () if bed is None else bed.checks
    every = [_roots(one, lifted, teller) for one in checks if look(one, teller).plants]
    galled = [one for one in every if one.seen == "some" and not one.look_alike]
    if galled:
        last = galled[-1]
        return "galls_last_crop" if last is every[-1] and last.is_near else "seen_before"
    return "never_seen" if any(one.ungalled for one in every) else "nothing_known"


def roots_line(roots: Roots, teller: Teller) -> Line:
    """What the root check saw.

    Parameters
    ----------
    roots : Roots
        The check.
    teller : Teller
        Makes the line.

    Returns
    -------
    Line
        Also when it is too far from the sample in time.
    """
    code = f"lab_roots_{roots.seen}" if roots.is_near else "lab_roots_old"
    return teller.line(code, on=roots.on, crop=roots.crop, n_galled=roots.n_galled, n=roots.n_rated)
