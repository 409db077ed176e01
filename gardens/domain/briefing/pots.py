"""Seedlings grown in a bed's soil: when to wash their roots, and what they showed.

Not for the roots of the bed itself. Whether a kind of crop shows galls is ``soil_roots``'s.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from gardens.domain.briefing.bags import Bag
from gardens.domain.briefing.gathered import Bed, Check, Entry, part
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.briefing.soil_roots import galls_readily
from gardens.domain.findings import PotTest
from gardens.domain.heat import days_at, read_heat_sums
from gardens.domain.judgements import judged
from gardens.domain.said import Said

COOL_CELSIUS, WARM_CELSIUS = 22, 28
LAYING = "incognita_bean_laying"


@dataclass(frozen=True)
class Pots:
    """One pot test; counts are None while nobody has looked.

    ``galls`` on the seedlings in the bed's soil, at least so many where a pot was only graded;
    ``blank_galls`` in the pot without it [galls, >= 0]; ``soil_cm3`` looked at [cm3, > 0].
    """

    planting: Entry
    check: Check | None
    n_looked_at: int
    galls: int | None
    blank_galls: int | None
    soil_cm3: int
    good_host: bool | None

    @property
    def sown_on(self) -> date:
        """The day it was sown."""
        return date.fromisoformat(str(part(self.planting.doc, "grown")["from_on"]))

    @property
    def sign(self) -> str | None:
        """``"some"`` or ``"none"``; None while it tells nothing."""
        if self.galls is None or self.blank_galls:
            return None
        if self.galls == 0 and self.good_host is False:
            return None
        return "some" if self.galls else "none"


def pots_of(bed: Bed, teller: Teller) -> list[Pots]:
    """The pot tests of a bed.

    Parameters
    ----------
    bed : Bed
        The bed.
    teller : Teller
        Has the tables.

    Returns
    -------
    list of Pots
        By the day of sowing; each with its last check.
    """
    return [_pots(planting, bed.pot_checks, teller) for planting in bed.pots]


def _pots(planting: Entry, checks: Sequence[Check], teller: Teller) -> Pots:
    own = [one for one in checks if one.planting.id == planting.id and one.ratings]
    check = own[-1] if own else None
    set_up = part(planting.doc, "pots")
    galls: dict[object, int] = {}
    for rating in check.ratings if check else ():
        seen = _galls(rating)
        if seen is not None:
            galls[part(rating.doc, "place")["plant"]] = seen
    blank = galls.pop(set_up["blank_pot"], None) if set_up["blank_pot"] else None
    return Pots(
        planting=planting,
        check=check,
        n_looked_at=len(galls),
        galls=sum(galls.values()) if galls else None,
        blank_galls=blank,
        soil_cm3=len(galls) * int(str(set_up["soil_cm3_per_pot"])),
        good_host=galls_readily(planting, teller),
    )


def _galls(rating: Entry) -> int | None:
    """Galls of one pot; one at least where it was graded and nobody counted."""
    reading, counted = part(rating.doc, "reading"), rating.doc["n_galls"]
    if reading["state"] != "rated":
        return None
    if isinstance(counted, int):
        return counted
    return 1 if reading["grade"] else 0


def as_finding(pots: Pots, bag: Bag | None, teller: Teller) -> PotTest | None:
    """A pot test as evidence.

    Parameters
    ----------
    pots : Pots
        The test.
    bag : Bag or None
        The bag that is weighed beside it.
    teller : Teller
        Has the judged values.

    Returns
    -------
    PotTest or None
        None while it tells nothing. Where nobody said from which bag the pots were filled, as
        many cores are taken as are usual for a bed.
    """
    if pots.sign is None or pots.galls is None:
        return None
    of_bag = part(pots.planting.doc, "pots")["soil_sample"]
    same = bag is not None and of_bag == bag.id
    usual = int(judged(teller.judgements, "soil_cores_per_bed"))
    n_cores = bag.n_cores if same and bag is not None and bag.n_cores else usual
    return PotTest(pots.galls, pots.soil_cm3, n_cores, same_bag=same)


def pots_told(pots: Pots, today: date, teller: Teller) -> dict[str, object]:
    """A pot test as it travels.

    Parameters
    ----------
    pots : Pots
        The test.
    today : date
        The day.
    teller : Teller
        Makes the lines.

    Returns
    -------
    dict
        Plain values.
    """
    set_up, (first, last) = part(pots.planting.doc, "pots"), ready_days(pots, teller)
    looked = pots.check is not None
    return {
        "planting": pots.planting.id,
        "root_check": pots.check.id if pots.check else None,
        "ready_from_on": None if looked else first.isoformat(),
        "ready_to_on": None if looked else last.isoformat(),
        "n_pots": set_up["n_pots"],
        "blank_pot": set_up["blank_pot"],
        "galls": pots.galls,
        "blank_galls": pots.blank_galls,
        "lines": _lines(pots, today, teller),
    }


def ready_days(pots: Pots, teller: Teller) -> tuple[date, date]:
    """From when to when the roots are to be washed.

    Parameters
    ----------
    pots : Pots
        The test.
    teller : Teller
        Has the judged values.

    Returns
    -------
    (date, date)
        First and last day.

    References
    ----------
    stirling_2025, gugino_2008_bioassay
    """
    first, last = (judged(teller.judgements, f"pots_{end}_days") for end in ("first", "last"))
    return pots.sown_on + timedelta(days=first), pots.sown_on + timedelta(days=last)


def _lines(pots: Pots, today: date, teller: Teller) -> list[Line]:
    crop = pots.planting.doc["crop"]
    if pots.check is None:
        return [_growing(pots, today, teller)]
    if pots.galls is None:
        return [teller.line("pots_none_rated")]
    if pots.blank_galls:
        return [teller.line("pots_blank_galled", n=pots.blank_galls)]
    told: dict[str, object] = {"n": pots.galls, "n_pots": pots.n_looked_at, "crop": crop}
    lines = []
    if pots.galls:
        per_litre = 1000 * pots.galls / pots.soil_cm3
        lines.append(teller.say(Said("pots_galled", {"per_litre": f"{per_litre:.1f}", **told})))
    elif pots.good_host is False:
        lines.append(teller.say(Said("pots_poor_host", told)))
    else:
        volume = f"{pots.soil_cm3:,}"
        lines.append(teller.say(Said("pots_ungalled", {"volume": volume, **told})))
    if pots.blank_galls is None:
        lines.append(teller.line("pots_no_blank"))
    return [*lines, *_too_short(pots, teller)]


def _too_short(pots: Pots, teller: Teller) -> list[Line]:
    assert pots.check is not None
    days = (date.fromisoformat(pots.check.on) - pots.sown_on).days
    short = days < judged(teller.judgements, "pots_first_days")
    return [teller.line("pots_too_short", days=days)] if short and not pots.galls else []


def _growing(pots: Pots, today: date, teller: Teller) -> Line:
    first, last = ready_days(pots, teller)
    told: dict[str, object] = {
        "crop": pots.planting.doc["crop"],
        "on": pots.sown_on,
        "first": first,
        "last": last,
    }
    if today < first:
        # The heat clock: from entry to the first eggs, when galls can be seen by anybody.
        to_eggs = next(one for one in read_heat_sums(teller.rows("heat_sums")) if one.key == LAYING)
        both = (days_at(to_eggs, celsius) for celsius in (COOL_CELSIUS, WARM_CELSIUS))
        cool, warm = (round(days or 0) for days in both)
        told |= {"days": (first - today).days, "cool": cool, "warm": warm}
        return teller.say(Said("pots_growing", told), by=first.isoformat())
    code = "pots_ready" if today <= last else "pots_overgrown"
    return teller.say(Said(code, told), by=last.isoformat())
