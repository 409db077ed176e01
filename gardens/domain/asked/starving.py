"""How fast numbers fall where nothing feeds them, by each published figure.

Not a promise for a bed, and never down to none.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from gardens.domain.asked.answer import Answer, Asked, Row, row
from gardens.domain.asked.own_unit import Own, about, band, exact, read_own
from gardens.domain.briefing.lines import Line
from gardens.domain.decline import (
    density_without_host,
    final_density_winter_rye,
    juveniles_still_moving,
    monthly_survival,
    survival_after,
)
from gardens.domain.host_classes import years_without_host
from gardens.domain.judgements import judged
from gardens.domain.said import Said

DAYS_PER_MONTH = 365 / 12
MOVES_FROM_CELSIUS = 10
# Share lost in a year of weed-free fallow, uc_fallow.
YEARLY_LOSS = (0.90, 0.85)
# Where the rye equation holds [J2 per 100 cm3], mcsorley_1994_rye.
RYE_FROM, RYE_TO = 5, 1000


@dataclass(frozen=True)
class Winter:
    """Share left after one winter in one published place [1, 0..1], lowest and highest."""

    name: str
    low: float
    high: float
    sources: tuple[str, ...]


WINTERS = (
    Winter("Texas, October to April", 0.001, 0.33, ("starr_jeger_winter",)),
    Winter("North Carolina, November to March, one winter", 0.20, 0.40, ("windham_barker_winter",)),
    Winter("North Carolina, November to March, the next", 0.38, 0.87, ("windham_barker_winter",)),
    Winter("North Carolina, November to May", 0.01, 0.06, ("windham_barker_winter",)),
    Winter("California, wheat or fallow", 0.23, 0.31, ("roberts_1981_wheat",)),
    Winter("California, wheat sown early in warm soil", 0.60, 0.60, ("roberts_1981_wheat",)),
)


def starving(asked: Asked) -> Answer:
    """What is left of a number after some months without a host.

    Parameters
    ----------
    asked : Asked
        With ``number`` in ``unit``, ``months`` [1..60], the state of the ``ground``, maybe a
        ``soil_celsius`` and a ``level`` to come down to [same unit].

    Returns
    -------
    Answer
        The spread of the published figures, and each of them.
    """
    own, ground = read_own(asked), asked.given.text("ground")
    line, rows = _BY_GROUND[ground](asked, own)
    lines, ground_rows = [line], list(rows)
    if ground != "weeds":
        ground_rows += _warm_rows(asked)
        lines += [*_level_lines(asked, own), asked.teller.line("starve_none_recovered")]
    return Answer(tuple(lines), tuple(ground_rows))


def _from_words(asked: Asked, own: Own) -> dict[str, object]:
    months = asked.given.number("months")
    whole = int(months) if months.is_integer() else months
    return {"number": exact(own.number), "unit": own.words, "months": whole}


def _fallow_shares(months: float) -> tuple[float, float]:
    low, high = (density_without_host(1, monthly_survival(loss), months) for loss in YEARLY_LOSS)
    return low, high


def _fallow_row(own: Own, months: float) -> Row:
    low, high = _fallow_shares(months)
    cells = {
        "Published": "85 to 90 % fewer after a year; halved in 110 to 133 days",
        "Left": f"{band(own.number * low, own.number * high)} {own.words}",
    }
    return row("Bare ground without weeds, California", cells, ("uc_fallow",))


def _half_life_row(own: Own, name: str, half_life: float, months: float) -> Row:
    left = own.number * survival_after(months * DAYS_PER_MONTH, half_life)
    cells = {
        "Published": f"halved in {half_life:g} days, M. javanica",
        "Left": f"{about(left)} {own.words}",
    }
    return row(name, cells, ("towson_apt_drying",))


def _moist(asked: Asked, own: Own) -> tuple[Line, list[Row]]:
    months = asked.given.number("months")
    shares = (*_fallow_shares(months), survival_after(months * DAYS_PER_MONTH, 110))
    left = band(own.number * min(shares), own.number * max(shares))
    rows = [
        _fallow_row(own, months),
        _half_life_row(own, "Moist soil in a trial", 110, months),
    ]
    return asked.teller.say(Said("starve_moist", {"left": left, **_from_words(asked, own)})), rows


def _dry(asked: Asked, own: Own) -> tuple[Line, list[Row]]:
    months = asked.given.number("months")
    dry = own.number * survival_after(months * DAYS_PER_MONTH, 10)
    high = own.number * _fallow_shares(months)[1]
    rows = [
        _half_life_row(own, "Dry soil in a trial", 10, months),
        _half_life_row(own, "Very dry soil in a trial", 2.6, months),
        _fallow_row(own, months),
    ]
    said = {"low": about(dry), "high": about(high), **_from_words(asked, own)}
    return asked.teller.say(Said("starve_dry", said)), rows


def _winter(asked: Asked, own: Own) -> tuple[Line, list[Row]]:
    rows = []
    for one in WINTERS:
        cells = {
            "Published": f"{_percent(one)} % were left",
            "Left": f"{band(own.number * one.low, own.number * one.high)} {own.words}",
        }
        rows.append(row(one.name, cells, one.sources))
    ends = own.number * min(one.low for one in WINTERS), own.number * max(w.high for w in WINTERS)
    left = band(*ends)
    return asked.teller.say(Said("starve_winter", {"left": left, **_from_words(asked, own)})), rows


def _percent(winter: Winter) -> str:
    ends = f"{winter.low * 100:g}", f"{winter.high * 100:g}"
    return f"{ends[0]} to {ends[1]}" if ends[0] != ends[1] else ends[0]


def _rye(asked: Asked, own: Own) -> tuple[Line, list[Row]]:
    left = own.of_100_cm3(final_density_winter_rye(own.per_100_cm3))
    within = RYE_FROM <= own.per_100_cm3 <= RYE_TO
    equation = {
        "Published": "an equation of autumn and spring numbers, Florida, mostly M. arenaria",
        "Left": f"about {about(left)} {own.words}"
        if within
        else f"not worked out: the equation is for {RYE_FROM} to {RYE_TO:,} per 100 cm³",
    }
    prose = {
        "Published": "its text says numbers were nearly maintained",
        "Left": f"nearly {exact(own.number)} {own.words}",
    }
    rows = [
        row("Winter rye, by the equation", equation, ("mcsorley_1994_rye",)),
        row("Winter rye, by the words of the same paper", prose, ("mcsorley_1994_rye",)),
    ]
    said = _from_words(asked, own)
    if within:
        return asked.teller.say(Said("starve_rye", {"left": about(left), **said})), rows
    return asked.teller.say(Said("starve_rye_outside", said)), rows


def _weeds(asked: Asked, own: Own) -> tuple[Line, list[Row]]:
    limit = judged(asked.teller.judgements, "weeds_cancel_cover_percent")
    said = {"limit": f"{limit:g}", **_from_words(asked, own)}
    return asked.teller.say(Said("starve_weeds", said)), []


_BY_GROUND: Mapping[str, Callable[[Asked, Own], tuple[Line, list[Row]]]] = {
    "moist": _moist,
    "dry": _dry,
    "winter": _winter,
    "rye": _rye,
    "weeds": _weeds,
}


def _warm_rows(asked: Asked) -> Iterator[Row]:
    celsius = asked.given.maybe("soil_celsius")
    if celsius is None:
        return
    days = asked.given.number("months") * DAYS_PER_MONTH
    warmth = max(0.0, celsius - MOVES_FROM_CELSIUS) * days
    share = juveniles_still_moving(warmth) * 100
    moving = "fewer than 1 %" if share < 1 else f"about {share:.0f} %"
    yield row(
        f"Juveniles in the soil at {celsius:g} °C",
        {
            "Published": "nine in ten could not move after 500 degree-days above 10 °C",
            "Can still move": f"{moving} of those that were hatched at the start",
            "Bear in mind": "Eggs live on. Soil stayed as infective for 4 weeks at any warmth.",
        },
        ("goodell_ferris_survival", "rhoades_flooding"),
    )


def _level_lines(asked: Asked, own: Own) -> Iterator[Line]:
    level = asked.given.maybe("level")
    if level is None:
        return
    said = {"level": exact(level), "unit": own.words, "number": exact(own.number)}
    if level >= own.number:
        yield asked.teller.say(Said("starve_already_below", said))
        return
    years = [years_without_host(own.number, level, 1 - loss) for loss in YEARLY_LOSS]
    ends: dict[str, object] = {"low": min(years), "high": max(years)}
    yield asked.teller.say(Said("starve_years", {**ends, **said}))
