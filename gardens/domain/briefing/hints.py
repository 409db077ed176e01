"""Which species a bed's galls are consistent with, as values and as lines.

Not an identification, and nothing at all while no crop of the bed tells species apart.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from gardens.domain import biology_lines
from gardens.domain.briefing.gathered import Check, part
from gardens.domain.briefing.lines import Because, Line, Teller
from gardens.domain.clues import Seen, clues_of
from gardens.domain.judgements import judged
from gardens.domain.resistance import read_packet
from gardens.domain.species import Candidate, Hint, hint

SCALE = "pct10"


@dataclass(frozen=True)
class Hinted:
    """What the crops of one bed hint at, the words of each clue and the species' names."""

    hint: Hint
    words: Mapping[str, str]
    names: Mapping[str, str]


def hinted(checks: Sequence[Check], teller: Teller) -> Hinted | None:
    """Look for clues in the checks of a bed.

    Parameters
    ----------
    checks : sequence of Check
        Of one bed, by day; those of one season up to the newest count, on pct10 only.
    teller : Teller
        Has the tables.

    Returns
    -------
    Hinted or None
        None when no clue was found. Plants noted as a possible look-alike are left out.
    """
    seen = [_crop_seen(check, teller) for check in _one_season(checks, teller)]
    found = [one for one in seen if one.grades]
    if not found:
        return None
    evidence = teller.rows("species_evidence")
    clues = clues_of(found, (), evidence, teller.judgements)
    if not clues:
        return None
    words = {str(row["key"]): str(row["words"]) for row in evidence}
    names = biology_lines.latin_names(teller.rows("species"))
    return Hinted(hint(clues, teller.judgements), words, names)


def _one_season(checks: Sequence[Check], teller: Teller) -> list[Check]:
    rated = [one for one in checks if one.ratings and one.doc["gall_scale"] == SCALE]
    if not rated:
        return []
    days = judged(teller.judgements, "briefing_season_days")
    earliest = date.fromisoformat(rated[-1].on) - timedelta(days=days)
    return [one for one in rated if one.on >= earliest.isoformat()]


def _crop_seen(check: Check, teller: Teller) -> Seen:
    planting = check.planting.doc
    key, printed = str(planting["crop_key"]), str(planting["resistance_code"])
    packet = read_packet(printed, key, teller.table("resistance_codes"))
    return Seen(key, tuple(_grades(check)), resistant=bool(packet.stated))


def _grades(check: Check) -> Iterable[int]:
    for one in check.ratings:
        reading = part(one.doc, "reading")
        grade = reading["grade"]
        is_own = reading["gall_scale"] == SCALE and one.doc["look_alike"] is None
        if is_own and isinstance(grade, int):
            yield grade


def species_values(found: Hinted) -> dict[str, object]:
    """The hint as it travels.

    Parameters
    ----------
    found : Hinted
        With at least one clue.

    Returns
    -------
    dict
        Plain values; at least two species in ``consistent_with``.
    """

    def listed(some: Iterable[Candidate], *, against: bool) -> list[dict[str, object]]:
        return [
            {
                "species": found.names[one.species],
                "because": [
                    found.words[key] for key in (one.speaks_against if against else one.speaks_for)
                ],
            }
            for one in some
        ]

    return {
        "consistent_with": listed(found.hint.consistent_with, against=False),
        "against": listed(found.hint.less_consistent, against=True),
        "send_for_identification": found.hint.identify,
        "why": [found.words[clue.key] for clue in found.hint.clues],
    }


def species_lines(found: Hinted, teller: Teller) -> list[Line]:
    """What is said about the species.

    Parameters
    ----------
    found : Hinted
        With at least one clue.
    teller : Teller
        Makes the lines.

    Returns
    -------
    list of Line
        The hint, then what to send, then whom to ask.
    """
    because = [Because(found.words[clue.key], clue.source) for clue in found.hint.clues]
    first, *others = biology_lines.species_lines(found.hint, found.names)
    return [teller.say(first, because=because), *(teller.say(one) for one in others)]
