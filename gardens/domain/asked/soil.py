"""What goes into the soil: how much of it, with which evidence and which cautions.

Not for the sums: ``amounts``, ``rates`` and ``treatments`` make them.
"""

from collections.abc import Callable, Mapping

from gardens.domain.amounts import Volume, bags, layer, weight_kg
from gardens.domain.asked.answer import Answer, Asked
from gardens.domain.briefing.lines import Line

# Finished compost, driest and wettest likely [kg/m3]: 1,000 to 1,200 lb a cubic yard.
COMPOST_KG_PER_M3 = (590, 710)


def compost_layer(asked: Asked) -> Answer:
    """How much compost a layer takes.

    Parameters
    ----------
    asked : Asked
        With ``bed`` or ``area_m2`` [m2], ``depth_cm`` [cm] and maybe ``bag_litres`` [l].

    Returns
    -------
    Answer
        Volume, weight and bags, and what compost was seen to do.
    """
    area, depth = asked.area_m2(), asked.given.number("depth_cm")
    wanted = layer(area, depth)
    lines = [_layer_line(asked, area, depth, wanted)]
    bag = asked.given.maybe("bag_litres")
    if bag is not None:
        found = bags(wanted.litres, bag)
        lines.append(
            asked.teller.line(
                "amount_bags", n=found.n_bags, litres=bag, left=round(found.left_over_litres)
            )
        )
    return Answer(tuple(lines))


def _layer_line(asked: Asked, area: float, depth: float, wanted: Volume) -> Line:
    weight = weight_kg(wanted.litres, *COMPOST_KG_PER_M3)
    return asked.teller.line(
        "amount_layer",
        area=area,
        depth=depth,
        litres=round(wanted.litres),
        cubic_feet=wanted.cubic_feet,
        cubic_yards=wanted.cubic_yards,
        low=round(weight.low),
        high=round(weight.high),
    )


ANSWERED: Mapping[str, Callable[[Asked], Answer]] = {"compost_layer": compost_layer}
