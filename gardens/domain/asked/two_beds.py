"""The treated bed beside the one left alone, each with a check before and after.

Not for counts in soil, nor for saying what a treatment does elsewhere.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from gardens.domain import change_lines as change
from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.briefing import remembered
from gardens.domain.briefing.changes import side
from gardens.domain.briefing.gathered import Bed
from gardens.domain.briefing.lines import Line, as_said
from gardens.domain.briefing.roots import Seen, ends_shown, look
from gardens.domain.briefing.seasons import crop_of
from gardens.domain.change import beyond_untreated
from gardens.domain.errors import DomainError
from gardens.domain.judgements import judged
from gardens.domain.said import Said, shown


@dataclass(frozen=True)
class Pair:
    """A bed's check before and its check after."""

    bed: Bed
    before: Seen
    after: Seen

    @property
    def name(self) -> str:
        """What the bed is called."""
        return str(self.bed.doc["name"])

    @property
    def raters(self) -> tuple[str, str]:
        """Who rated before, and after; empty when nobody is named."""
        first, second = (str(one.check.doc["rater"]).strip() for one in (self.before, self.after))
        return first.casefold(), second.casefold()

    @property
    def crops(self) -> tuple[str, str]:
        """What was rated before, and after."""
        return crop_of(self.before), crop_of(self.after)


def beside_untreated(asked: Asked) -> Answer:
    """Whether the treated bed did better than the one left alone.

    Parameters
    ----------
    asked : Asked
        With ``bed`` (the treated one) and ``untreated``, and maybe ``treated_on``.

    Returns
    -------
    Answer
        How much better, or what is missing to tell; the checks of each bed as a row.

    Raises
    ------
    DomainError
        ``asked_same_bed`` on ``untreated``.
    """
    beds = asked.bed(), asked.bed("untreated")
    assert beds[0] is not None and beds[1] is not None
    if beds[0].id == beds[1].id:
        raise DomainError("asked_same_bed", field="untreated")
    on = asked.given.day("treated_on") if asked.given.has("treated_on") else None
    found = [_pair_or_why(bed, on, asked) for bed in beds if bed]
    pairs = [one for one in found if isinstance(one, Pair)]
    lines = [asked.teller.say(one) for one in found if isinstance(one, Said)]
    rows = [_row(one, one.bed is beds[0], asked) for one in pairs]
    if len(pairs) == len(beds):
        lines = _compared(pairs[0], pairs[1], asked)
    return Answer(tuple(lines), tuple(rows))


def _pair_or_why(bed: Bed, on: date | None, asked: Asked) -> Pair | Said:
    """The two checks to compare, or what the bed lacks."""
    rated = [look(check, asked.teller) for check in bed.checks if check.ratings]
    rated = [one for one in rated if one.summary.n_rated]
    fair = [one for one in rated if one.how != "worst_looking"]
    name = {"bed": bed.doc["name"]}
    chosen = _before_and_after(fair, on)
    if chosen:
        return Pair(bed, *chosen)
    if _before_and_after(rated, on):
        return Said("beds_picked", name)
    n_days = len({one.check.on for one in fair})
    if on and n_days > 1:
        return Said("beds_none_around", {**name, "on": on})
    return Said("beds_no_pair", {**name, "n": n_days})


def _before_and_after(seen: Sequence[Seen], on: date | None) -> tuple[Seen, Seen] | None:
    """The newest check, and the newest of an earlier day; on both sides of a day when given."""
    after = [one for one in seen if on is None or _day(one) > on]
    if not after:
        return None
    before = [one for one in seen if (_day(one) <= on if on else _day(one) < _day(after[-1]))]
    return (before[-1], after[-1]) if before else None


def _compared(treated: Pair, untreated: Pair, asked: Asked) -> list[Line]:
    four = [one for pair in (treated, untreated) for one in (pair.before, pair.after)]
    scales = sorted({one.scale.name for one in four})
    if len(scales) > 1:
        return [asked.teller.line("beds_scales_differ", scales=", ".join(scales))]
    sides = [side(one) for one in four]
    beyond = beyond_untreated((sides[0], sides[1]), (sides[2], sides[3]))
    if beyond is None:
        return [asked.teller.line("beds_too_few_plants")]
    doubts = _doubts(treated, untreated, asked)
    first = asked.teller.say(change.beyond_line(beyond, is_withheld=bool(doubts)))
    return [first, *(asked.teller.say(said) for said in doubts)]


def _doubts(treated: Pair, untreated: Pair, asked: Asked) -> list[Said]:
    """What else than the treatment may be behind it."""
    found = []
    if _raters_mix(treated, untreated):
        found.append(Said("beds_raters_differ"))
    if treated.crops != untreated.crops:
        found.append(Said("beds_crops_differ"))
    apart = max(
        _days_apart(treated.before, untreated.before), _days_apart(treated.after, untreated.after)
    )
    if apart > judged(asked.teller.judgements, "beds_most_days_apart"):
        found.append(Said("beds_days_apart", {"n": apart}))
    return found


def _raters_mix(treated: Pair, untreated: Pair) -> bool:
    """Whether a rater's eye may look like an effect.

    It drops out where one person rated a bed both times, and where both beds changed hands
    alike.
    """
    is_alike = treated.raters == untreated.raters
    is_one_each = all(before == after for before, after in (treated.raters, untreated.raters))
    is_named = all(itertools.chain(treated.raters, untreated.raters))
    return is_named and not (is_alike or is_one_each)


def _days_apart(one: Seen, other: Seen) -> int:
    return abs((_day(one) - _day(other)).days)


def _row(pair: Pair, is_treated: bool, asked: Asked) -> Row:
    cells = {"Before": _told(pair.before), "After": _told(pair.after)}
    if pair.before.scale.key == pair.after.scale.key:
        found = remembered.verdict(side(pair.before), side(pair.after), asked.teller.rules)
        cells["By itself"] = str(asked.teller.say(change.change_lines(found)[0])["words"])
    name = f"{pair.name}, {'treated' if is_treated else 'left alone'}"
    return row(name, cells, (pair.after.scale.source,))


def _told(seen: Seen) -> str:
    ends, rater = ends_shown(seen), str(seen.check.doc["rater"]).strip()
    likely = f" (likely {ends[0]} to {ends[1]})" if ends else ""
    n = seen.summary.n_rated
    return (
        f"{as_said(_day(seen))}: mean {shown(seen.summary.mean or 0)} of 10{likely}, "
        f"{n} {'plant' if n == 1 else 'plants'}, {seen.check.planting.doc['crop']}"
        f"{f', rated by {rater}' if rater else ''}."
    )


def _day(seen: Seen) -> date:
    return date.fromisoformat(seen.check.on)
