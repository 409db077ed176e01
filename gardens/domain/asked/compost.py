"""A layer of compost: its volume, weight and bags, and what compost was seen to do.

Not for the sums: ``amounts`` makes them.
"""

from collections.abc import Callable, Mapping

from gardens.domain.amounts import Volume, bags, layer, weight_kg
from gardens.domain.asked.answer import Answer, Asked
from gardens.domain.asked.quantities import CM_PER_INCH, ground
from gardens.domain.asked.treatment_rows import always, treatment_row
from gardens.domain.briefing.lines import Line
from gardens.domain.judgements import judged
from gardens.domain.rates import GRAMS_PER_LB
from gardens.domain.said import figure
from gardens.domain.treatments import treatment

TRIED = ("yard_compost", "compost_yearly")
KG_PER_LB = GRAMS_PER_LB / 1000


def compost_layer(asked: Asked) -> Answer:
    """How much compost a layer takes, and what compost does.

    Parameters
    ----------
    asked : Asked
        With ``bed`` or ``area_m2`` [m2], ``depth_cm`` [cm] and maybe ``bag_litres`` [l].

    Returns
    -------
    Answer
        Volume, weight and bags; what compost was seen to do, with its cautions.
    """
    area, depth = asked.area_m2(), asked.given.number("depth_cm")
    wanted = layer(area, depth)
    lines = [_layer_line(asked, area, depth, wanted)]
    bag = asked.given.maybe("bag_litres")
    if bag is not None:
        lines.append(_bags_line(asked, wanted, bag))
    lines.append(asked.teller.line("compost_no_remedy"))
    rows = [treatment_row(asked, treatment(key, asked.tables["treatments"])) for key in TRIED]
    return Answer(tuple(lines), (*rows, always(asked)))


def _layer_line(asked: Asked, area: float, depth: float, wanted: Volume) -> Line:
    least, most = (
        judged(asked.teller.judgements, f"compost_{end}_kg_per_m3") for end in ("least", "most")
    )
    weight = weight_kg(wanted.litres, least, most)
    return asked.teller.line(
        "amount_layer",
        ground=ground(area),
        depth=figure(depth),
        inches=figure(depth / CM_PER_INCH, 2),
        litres=figure(wanted.litres),
        cubic_feet=figure(wanted.cubic_feet),
        cubic_yards=figure(wanted.cubic_yards, 2),
        low=figure(weight.low, 2),
        high=figure(weight.high, 2),
        low_lb=figure(weight.low / KG_PER_LB, 2),
        high_lb=figure(weight.high / KG_PER_LB, 2),
    )


def _bags_line(asked: Asked, wanted: Volume, bag_litres: float) -> Line:
    found = bags(wanted.litres, bag_litres)
    left = figure(found.left_over_litres, 2)
    exactly = found.left_over_litres < bag_litres / 100
    code = "amount_bags_exactly" if exactly else "amount_bags"
    return asked.teller.line(code, n=found.n_bags, litres=figure(bag_litres), left=left)


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"compost_layer": compost_layer}
