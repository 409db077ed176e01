"""Whether the weeds of a fallow undo it.

Not for what a fallow does to numbers.
"""

from collections.abc import Callable, Mapping, Sequence

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.grow_species import Wanted, wanted
from gardens.domain.asked.grow_words import reasons, standings
from gardens.domain.briefing.lines import Line
from gardens.domain.host_table import Plant, read_plants
from gardens.domain.hosts import across_species, weeds_cancel
from gardens.domain.judgements import judged
from gardens.domain.said import together


def weeds_and_fallow(asked: Asked) -> Answer:
    """Whether the weeds of a fallow, or of a season without a host, undo it.

    Parameters
    ----------
    asked : Asked
        Maybe with ``weeds`` (keys), ``cover_percent`` [%, 0..100], ``species`` and ``bed``.

    Returns
    -------
    Answer
        What the fallow is worth, and a row for each weed named.
    """
    about = wanted(asked)
    named = asked.given.keys("weeds")
    weeds = [plant for plant in read_plants(asked.tables["host_status"]) if plant.key in named]
    if asked.given.maybe("cover_percent") == 0 and not weeds:
        return Answer((asked.teller.line("fallow_bare"),))
    lines = [_verdict(asked, weeds, about)]
    if not weeds:
        lines.append(asked.teller.line("fallow_no_weed_named"))
    return Answer((*lines, *about.lines), tuple(_row(one, about) for one in weeds))


def _verdict(asked: Asked, weeds: Sequence[Plant], about: Wanted) -> Line:
    cover = asked.given.maybe("cover_percent")
    limit = judged(asked.teller.judgements, "weeds_cancel_cover_percent")
    if cover is not None and weeds and all(_is_poor(one, about) for one in weeds):
        because = [reason for one in weeds for reason in reasons(one, about.species, about.names)]
        told = {"weeds": together(one.name for one in weeds), "listed": about.told()}
        return asked.teller.line("fallow_poor_weeds", because=because, **told)
    cancels = weeds_cancel(cover, asked.teller.judgements)
    code = {True: "fallow_undone", False: "fallow_stands", None: "fallow_not_known"}[cancels]
    return asked.teller.line(code, cover=cover or 0, limit=limit)


def _is_poor(weed: Plant, about: Wanted) -> bool:
    return across_species(weed, about.species).answer == "feeds_none_listed"


def _row(weed: Plant, about: Wanted) -> Row:
    cells = {**standings(weed, about.species, about.names), "To bear in mind": weed.note}
    return row(weed.name, cells, weed.source)


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"weeds_and_fallow": weeds_and_fallow}
