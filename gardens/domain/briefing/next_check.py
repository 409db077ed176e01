"""What to do in a bed nobody has rated.

Not for beds with a rating: their check says what is missing.
"""

from datetime import date

from gardens.domain.briefing.gathered import Entry, part
from gardens.domain.briefing.lines import Line, Teller
from gardens.domain.judgements import judged


def never_rated(standing: Entry | None, today: date, teller: Teller) -> Line:
    """The line of a bed without a rating.

    Parameters
    ----------
    standing : Entry or None
        The planting that stands in the bed.
    today : date
        The day of the briefing.
    teller : Teller
        Makes the line.

    Returns
    -------
    Line
        Dig when the crop ends, or plant something first.
    """
    n = int(judged(teller.judgements, "briefing_first_check_plants"))
    if standing is None:
        return teller.line("never_rated_bare", n=n)
    until = part(standing.doc, "grown")["to_on"]
    return teller.line("never_rated", by=None if until is None else str(until), n=n)
