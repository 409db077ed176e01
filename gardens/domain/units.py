"""The units labs count nematodes in, and how to set one count beside another.

Not for correcting what a lab lost, and never across seasons or stages counted.
"""

import re
from dataclasses import dataclass

from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged

PINT_CM3 = 473.176473
QUART_CM3 = 946.352946

_CM3 = {"cm3": 1.0, "cc": 1.0, "ml": 1.0, "l": 1000.0, "pint": PINT_CM3, "quart": QUART_CM3}
_CM3 |= {"litre": 1000.0, "liter": 1000.0, "pt": PINT_CM3, "qt": QUART_CM3}
_GRAMS = {"g": 1.0, "gram": 1.0, "grams": 1.0, "kg": 1000.0}
_READ = re.compile(r"^\s*([\d.,]*)\s*(cubic cm|[a-z]+[³3]?)\b\.?\s*(?:of\s+)?(.*)$")

# "1/2 pint" is half a pint or one in two pints; "1.000 g" is a gram or a thousand.
_FRACTION = re.compile(r"(?<![A-Za-z\d])\d+\s*/\s*\d")
_THOUSANDS = r"[1-9]\d{0,2}\.\d{3}"


@dataclass(frozen=True)
class Unit:
    """So many per ``amount`` of soil [cm3 or g, > 0]; ``basis`` says which.

    ``basis`` is ``"volume"``, ``"weight"`` (of dry soil) or ``"root_weight"``.
    """

    basis: str
    amount: float


@dataclass(frozen=True)
class Converted:
    """A count in another unit.

    ``bulk_density`` [g per cm3] is set when the count went between volume and weight, and
    ``flag`` then says where it is from: ``"bulk_density_stated"`` or ``"bulk_density_assumed"``.
    """

    value: float
    unit: Unit
    bulk_density: float | None = None
    flag: str | None = None


PER_100_CM3 = Unit("volume", 100.0)


def read_unit(text: str) -> Unit | None:
    """Unit in what a lab or a person wrote.

    Parameters
    ----------
    text : str
        E.g. ``per 100 cm³``, ``J2/500 cc``, ``per kg``, ``per g of root``.

    Returns
    -------
    Unit or None
        None when it cannot be read for sure; then ask.

    References
    ----------
    nist_inch_pound

    Examples
    --------
    >>> read_unit("J2 per 250 cc"), read_unit("per kg dry soil").amount, read_unit("a lot")
    (Unit(basis='volume', amount=250.0), 1000.0, None)
    """
    if _FRACTION.search(text):
        return None
    found = _READ.match(re.split(r"\bper\b|/", text.lower())[-1])
    if found is None:
        return None
    number, name, of = found[1], found[2].replace("³", "3").replace("cubic cm", "cm3"), found[3]
    size = _CM3.get(name, _GRAMS.get(name))
    many = _number(number)
    if size is None or many is None:
        return None
    basis = "volume" if name in _CM3 else "weight"
    if "root" in of:
        return Unit("root_weight", many * size) if basis == "weight" else None
    return Unit(basis, many * size)


def _number(text: str) -> float | None:
    """A whole or decimal number [> 0]; 1 for none, None for one that can be read two ways."""
    if not text:
        return 1.0
    if re.fullmatch(_THOUSANDS, text) or not re.fullmatch(r"\d+(\.\d+)?|1,000", text):
        return None
    value = float(text.replace(",", ""))
    return value if value > 0 else None


def convert_count(
    count: float, from_unit: Unit, to_unit: Unit, table: Table, bulk_density: float | None = None
) -> Converted:
    """The same density of nematodes in another unit.

    Parameters
    ----------
    count : float
        [``from_unit``, >= 0]
    from_unit, to_unit : Unit
        Both of soil, or both of root weight.
    table : Mapping
        Content of ``fixtures/judgements.json``.
    bulk_density : float or None
        Dry weight of the soil [g per cm3, above 0 and up to 2.65]; None when nobody measured
        it: then a usual one is taken, and flagged.

    Returns
    -------
    Converted
        Flagged when weight and volume were crossed.

    Raises
    ------
    DomainError
        ``negative``; ``no_conversion_of_roots`` between root and soil; ``bulk_density_wrong``.

    Notes
    -----
    N2 = N1 V2 / V1, and per kg to per 100 cm3 by N BD / 10. Counts of other stages, seasons
    or methods stay uncomparable whatever the unit.

    References
    ----------
    nist_inch_pound, by_hand

    Examples
    --------
    >>> convert_count(20, Unit("volume", 500), Unit("volume", 250), {}).value
    10.0
    """
    if not count >= 0:
        raise DomainError("negative", count=count)
    bases = {from_unit.basis, to_unit.basis}
    if len(bases) == 1:
        return Converted(count * to_unit.amount / from_unit.amount, to_unit)
    if "root_weight" in bases:
        raise DomainError("no_conversion_of_roots")
    weight = judged(table, "soil_bulk_density_g_per_cm3") if bulk_density is None else bulk_density
    if not 0 < weight <= 2.65:
        raise DomainError("bulk_density_wrong", bulk_density=weight)
    flag = "bulk_density_assumed" if bulk_density is None else "bulk_density_stated"
    value = count / _cm3(from_unit, weight) * _cm3(to_unit, weight)
    return Converted(value, to_unit, weight, flag)


def _cm3(unit: Unit, bulk_density: float) -> float:
    return unit.amount if unit.basis == "volume" else unit.amount / bulk_density
