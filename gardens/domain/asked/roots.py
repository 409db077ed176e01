"""What a grade means, how the grades of a bed are spread, and what else a swelling may be.

Not for how bad a bed is: the briefing tells that.
"""

from collections.abc import Callable, Mapping
from datetime import date

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.scales_asked import which_grade
from gardens.domain.bounded import TOP_GRADE
from gardens.domain.briefing.gathered import Bed
from gardens.domain.briefing.lines import Because, Line
from gardens.domain.briefing.roots import Seen, ends_shown, look, newest
from gardens.domain.briefing.roots_lines import of_scale
from gardens.domain.check_lines import incidence_line
from gardens.domain.incidence import severity_index
from gardens.domain.look_alikes import Noted, look_alike, look_alikes_noted
from gardens.domain.said import percent, shown

# What only grows on some plants, by the family of the crop.
_OF_FAMILY = {"legume_nodules": "Fabaceae", "clubroot": "Brassicaceae"}


def severity(asked: Asked) -> Answer:
    """One percentage for the newest check of a bed, and how many plants had each grade.

    Parameters
    ----------
    asked : Asked
        With ``bed``.

    Returns
    -------
    Answer
        The index, and the spread behind it.
    """
    bed = asked.bed()
    assert bed is not None
    check = newest(bed.checks)
    seen = look(check, asked.teller) if check else None
    if seen is None or not seen.summary.n_rated:
        return Answer((asked.teller.line("asked_no_check", bed=bed.doc["name"]),))
    lines = [_index_line(asked, seen), asked.teller.say(incidence_line(seen.galled))]
    if seen.n_read_twice:
        lines.append(asked.teller.line("read_twice", n=seen.n_read_twice))
    if seen.n_other_scale:
        lines.append(asked.teller.line("other_scale_left_out", n=seen.n_other_scale))
    return Answer(tuple(lines), (_spread_row(seen), _middle_row(seen)))


def _index_line(asked: Asked, seen: Seen) -> Line:
    ends = ends_shown(seen)
    low, high = (round(TOP_GRADE * end) for end in ends or (0.0, 0.0))
    return asked.teller.line(
        "severity_interval" if ends else "severity_no_interval",
        because=[of_scale(seen.scale)],
        index=shown(_index(seen)),
        n=seen.summary.n_rated,
        on=date.fromisoformat(seen.check.on),
        low=low,
        high=high,
    )


def _index(seen: Seen) -> float:
    """The severity index [%, 0..100]; a plant read twice counts once, with its mean."""
    found = severity_index(seen.summary.counts, TOP_GRADE)
    if found is None or seen.n_read_twice:
        return TOP_GRADE * (seen.summary.mean or 0.0)
    return found


def _spread_row(seen: Seen) -> Row:
    n = sum(seen.summary.counts)
    cells = {
        f"Grade {one.grade} ({one.short})": f"{count} of {n} ({percent(count / n)} %)"
        for one, count in zip(seen.scale.grades, seen.summary.counts, strict=True)
        if count
    }
    what = "Readings with each grade" if seen.n_read_twice else "Plants with each grade"
    return row(what, cells, (seen.scale.source,))


def _middle_row(seen: Seen) -> Row:
    summary = seen.summary
    galled = [one.grade for one in seen.plants if one.grade > 0]
    cells = {
        "Mean": f"{shown(summary.mean or 0)} of 10",
        "Middle plant (median)": f"{shown(summary.median or 0)} of 10",
        "Lowest and highest": f"{summary.lowest} and {summary.highest}",
        "Mean of the galled plants alone": (
            f"{shown(sum(galled) / len(galled))} of 10, {len(galled)} of them" if galled else ""
        ),
    }
    return row("Middle and ends", cells)


def look_alikes(asked: Asked) -> Answer:
    """What is mistaken for root-knot, and how to tell it.

    Parameters
    ----------
    asked : Asked
        Maybe with ``bed``.

    Returns
    -------
    Answer
        What was noted in the bed's newest check first; what can grow on its crop before what
        cannot.
    """
    bed, table = asked.bed(), asked.teller.rows("look_alikes")
    noted = _noted(bed, asked) if bed else ()
    families = _families(bed, asked) if bed else frozenset()
    first = {one.look_alike.key: one.n_plants for one in noted}
    keys = [str(one["key"]) for one in table if one["key"] != "unsure"]
    keys.sort(key=lambda key: (-first.get(key, 0), _OF_FAMILY.get(key) not in families))
    lines = [asked.teller.line("look_alike_slice")]
    lines += [_noted_line(asked, one) for one in noted]
    if bed and not noted:
        lines.append(asked.teller.line("look_alike_none_noted", bed=bed.doc["name"]))
    return Answer(tuple(lines), (_gall_row(), *(_look_alike_row(asked, key) for key in keys)))


def _noted(bed: Bed, asked: Asked) -> tuple[Noted, ...]:
    check = newest(bed.checks)
    ratings = check.ratings if check else ()
    keys = [str(one.doc["look_alike"]) for one in ratings if one.doc["look_alike"] is not None]
    return look_alikes_noted(keys, asked.teller.rows("look_alikes"))


def _families(bed: Bed, asked: Asked) -> frozenset[str]:
    grown = {str(one.doc["crop_key"]) for one in bed.plantings}
    rows = asked.teller.rows("crops")
    return frozenset(str(one["family"]) for one in rows if one["key"] in grown)


def _noted_line(asked: Asked, one: Noted) -> Line:
    because = [Because(one.look_alike.tell_tale, one.look_alike.sources)]
    name = one.look_alike.name
    return asked.teller.line("look_alike_noted", because=because, n=one.n_plants, name=name)


def _gall_row() -> Row:
    cells = {
        "How to tell": "A swelling of the root itself, not a bead on its side. Sliced, it shows "
        "pearly, pear-shaped females about ¼ mm across; there may be egg masses, small blobs of "
        "jelly.",
    }
    return row("Root-knot gall", cells, ("wa_root_knot_guide", "uc_ipm_tomato"))


def _look_alike_row(asked: Asked, key: str) -> Row:
    found = look_alike(key, asked.teller.rows("look_alikes"))
    cells = {
        "How to tell": found.tell_tale,
        "How sure": "From memory: general practice." if found.from_memory else "As published.",
    }
    return row(found.name, cells, found.sources, caution=key == "false_root_knot")


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {
    "which_grade": which_grade,
    "severity": severity,
    "look_alikes": look_alikes,
}
