"""Did it work: a treated bed beside one left alone, seasons, counts, and the eyes that rated.

Not for one bed's last change: the briefing tells that.
"""

from collections.abc import Callable, Mapping
from datetime import date

from gardens.domain.asked import counts_asked, raters_asked
from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.two_beds import beside_untreated
from gardens.domain.briefing.lines import as_said
from gardens.domain.briefing.roots import Seen, ends_shown
from gardens.domain.briefing.seasons import Seasons, fell_line, seasons
from gardens.domain.change import falling_seasons, one_in_by_chance
from gardens.domain.change_lines import season_line
from gardens.domain.judgements import judged
from gardens.domain.said import Said, shown


def seasons_fell(asked: Asked) -> Answer:
    """Whether a bed that fell season after season did so by chance.

    Parameters
    ----------
    asked : Asked
        With ``bed``.

    Returns
    -------
    Answer
        How often chance alone does it; each season as a row.
    """
    bed = asked.bed()
    assert bed is not None
    found = seasons(bed.checks, asked.teller)
    if not found.seen:
        return Answer((asked.teller.line("seasons_none", bed=bed.doc["name"]),))
    said = season_line(found.means, asked.teller.judgements) or _few_fell(found, asked)
    line = fell_line(said, found, asked.teller)
    return Answer((line,), tuple(_season_row(one) for one in found.seen))


def _few_fell(found: Seasons, asked: Asked) -> Said:
    n, run = len(found.seen), falling_seasons(found.means)
    least = int(judged(asked.teller.judgements, "seasons_least"))
    if n == 1:
        return Said("seasons_one", {"mean": shown(found.means[0]), "least": least})
    if run == 1:
        before, after = (shown(mean) for mean in found.means[-2:])
        return Said("seasons_did_not_fall", {"n": n, "before": before, "after": after})
    return Said("seasons_too_few", {"n": run, "one_in": one_in_by_chance(run), "least": least})


def _season_row(seen: Seen) -> Row:
    ends, on = ends_shown(seen), date.fromisoformat(seen.check.on)
    cells = {
        "Mean": f"{shown(seen.summary.mean or 0)} of 10"
        + (f", likely {ends[0]} to {ends[1]}" if ends else ""),
        "Plants": str(seen.summary.n_rated),
        "Crop": str(seen.check.planting.doc["crop"]),
        "Rated by": str(seen.check.doc["rater"]).strip(),
    }
    return row(as_said(on), cells, (seen.scale.source,))


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {
    "beside_untreated": beside_untreated,
    "seasons_fell": seasons_fell,
    **counts_asked.ANSWERED,
    **raters_asked.ANSWERED,
}
