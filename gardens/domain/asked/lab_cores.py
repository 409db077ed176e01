"""How many cores to lift from a bed, where to push the probe, and how much soil that makes.

Not for the day: ``lab_days`` has that.
"""

from collections.abc import Callable, Mapping

from gardens.domain.asked.answer import Answer, Asked, Row, places, row
from gardens.domain.briefing.gathered import Bed, Entry, part
from gardens.domain.briefing.lines import Line
from gardens.domain.briefing.sample_plan import deep_lines, rooted
from gardens.domain.core_plan import Bounds, Place, core_plan
from gardens.domain.errors import DomainError
from gardens.domain.geometry import Point, box, corners
from gardens.domain.judgements import judged
from gardens.domain.sampling import core_advice, core_volume_cm3
from gardens.domain.units import PINT_CM3

N_CORES = (5, 10, 20, 40)
_PER_BED = "soil_cores_per_bed"
# Halves of a bed as drawn: which side of its middle is cut off.
_HALVES: Mapping[str, tuple[float, float, float, float]] = {
    "top_half": (0, 0, 1, 0.5),
    "bottom_half": (0, 0.5, 1, 1),
    "left_half": (0, 0, 0.5, 1),
    "right_half": (0.5, 0, 1, 1),
}


def cores_where(asked: Asked) -> Answer:
    """How many cores, and where.

    Parameters
    ----------
    asked : Asked
        With ``bed``, ``purpose``, ``part``, ``to_cm`` and ``tool_cm`` [cm], maybe ``n_cores``.

    Returns
    -------
    Answer
        Places drawn on the bed, the same each time for the same bed; the price of more cores;
        where guides disagree.
    """
    bed = asked.bed()
    assert bed is not None
    typed, advised = asked.given.maybe("n_cores"), judged(asked.teller.judgements, _PER_BED)
    n = round(advised if typed is None else typed)
    planting = rooted(bed, asked.today)
    plan = _plan(asked, bed, n, planting)
    lines = (
        _to_push(asked, n),
        _beside(asked, planting),
        asked.teller.line(f"cores_to_{asked.given.text('purpose')}"),
        *deep_lines(bed, asked.given.number("to_cm"), asked.teller),
        asked.teller.line("cores_in_the_bag"),
    )
    return Answer(lines, (_price_row(asked), *dispute_rows(asked, "cores")), places(bed, plan))


def _plan(asked: Asked, bed: Bed, n: int, planting: Entry | None) -> tuple[Place, ...]:
    outline = corners(part(bed.doc, "shape"))
    half = asked.given.text("part")
    plants: list[Point] = []
    if planting is not None:
        stands = planting.doc["plants"]
        assert isinstance(stands, list)
        plants = [(x, y) for x, y in stands]
    try:
        return core_plan(
            outline,
            n,
            f"{bed.id} {half}",
            plants=plants,
            root_zone_cm=judged(asked.teller.judgements, "soil_core_root_zone_cm"),
            part=_bounds(box(outline), half),
        )
    except DomainError as refused:
        raise DomainError(refused.code, **{**refused.params, "field": "n_cores"}) from None


def _bounds(whole: Bounds, half: str) -> Bounds | None:
    if half not in _HALVES:
        return None
    left, top, right, bottom = whole
    width, length = right - left, bottom - top
    a, b, c, d = _HALVES[half]
    return (left + a * width, top + b * length, left + c * width, top + d * length)


def _to_push(asked: Asked, n: int) -> Line:
    top, to = judged(asked.teller.judgements, "soil_core_discard_cm"), asked.given.number("to_cm")
    volume = n * core_volume_cm3(asked.given.number("tool_cm"), to - top)
    code = "cores_to_push" if volume >= PINT_CM3 else "cores_little_soil"
    return asked.teller.line(
        code, n=n, top=top, to=to, inches=to / 2.54, litres=f"{volume / 1000:.1f}"
    )


def _beside(asked: Asked, planting: Entry | None) -> Line:
    zone = judged(asked.teller.judgements, "soil_core_root_zone_cm")
    if planting is None or not planting.doc["plants"]:
        return asked.teller.line("cores_bare_bed")
    return asked.teller.line("cores_beside_plants", crop=planting.doc["crop"], zone=zone)


def _price_row(asked: Asked) -> Row:
    """What more cores cost and buy."""
    top, to = judged(asked.teller.judgements, "soil_core_discard_cm"), asked.given.number("to_cm")
    each = core_volume_cm3(asked.given.number("tool_cm"), to - top)
    cells = {}
    for n in N_CORES:
        near = core_advice(n, asked.teller.judgements).best_error_percent
        cells[f"{n} cores"] = f"about {n * each / 1000:.1f} litres; give or take {near:.0f} %"
    sources = ("negative_binomial", "mcsorley_parrado_simulated")
    return row("How near the true mean, at best (standard error)", cells, sources)


def dispute_rows(asked: Asked, about: str) -> tuple[Row, ...]:
    """What guides disagree about, both sides, and what is done here.

    Parameters
    ----------
    asked : Asked
        Has the table.
    about : str
        ``"cores"`` or ``"bag"``.

    Returns
    -------
    tuple of Row
        One for each dispute.
    """
    return tuple(
        row(
            f"Uncertain: {one['name']}",
            {
                "Some say": str(one["one"]),
                "Others say": str(one["other"]),
                "Here": str(one["here"]),
            },
            tuple(str(key) for key in _listed(one["source"])),
        )
        for one in asked.teller.rows("sampling_disputes")
        if one["about"] == about
    )


def _listed(value: object) -> list[object]:
    assert isinstance(value, list)
    return value


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"cores_where": cores_where}
