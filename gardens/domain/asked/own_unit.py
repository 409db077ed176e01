"""A number of nematodes in the unit it was typed in, and the way to the units of the trials.

Not for what a lab lost, nor for turning one stage into another.
"""

from dataclasses import dataclass

from gardens.domain.asked.answer import Asked
from gardens.domain.errors import DomainError
from gardens.domain.said import Said, figure
from gardens.domain.units import PER_100_CM3, Unit, convert_count, read_unit

UNITS = {
    "100 cm3": "per 100 cm³",
    "200 cm3": "per 200 cm³",
    "250 cm3": "per 250 cm³",
    "500 cm3": "per 500 cm³",
    "pint": "per pint of soil",
    "kg": "per kg of soil",
    "g": "per g of soil",
    "g of root": "per g of root",
    "not_known": "per an unknown amount",
}
SEEN_AS_NONE = 0.1


@dataclass(frozen=True)
class Own:
    """A number [``unit`` of soil, > 0], and how many of it one per 100 cm3 is."""

    number: float
    unit: Unit
    words: str
    in_one_per_100_cm3: float
    bulk_density: float | None

    @property
    def per_100_cm3(self) -> float:
        """The number per 100 cm3 of soil."""
        return self.number / self.in_one_per_100_cm3

    def of_100_cm3(self, density: float) -> float:
        """A density in the unit of the number.

        Parameters
        ----------
        density : float
            [per 100 cm3, >= 0]

        Returns
        -------
        float
            [``unit``, >= 0]
        """
        return density * self.in_one_per_100_cm3

    def because(self, *others: Unit) -> tuple[Said, ...]:
        """What was done to set the number beside numbers in other units.

        Parameters
        ----------
        *others : Unit
            Any number of units of soil.

        Returns
        -------
        tuple of Said
            Empty where weight stayed weight and volume stayed volume.
        """
        if all(one.basis == self.unit.basis for one in others):
            return ()
        how = "assumed" if self.bulk_density is None else "stated"
        return (Said(f"number_weight_crossed_{how}"),)


def read_own(asked: Asked) -> Own:
    """The number of a question with its unit.

    Parameters
    ----------
    asked : Asked
        With ``number`` [in ``unit``], ``unit`` and maybe ``bulk_density`` [g per cm3].

    Returns
    -------
    Own
        As it was typed.

    Raises
    ------
    DomainError
        ``asked_unit_unknown`` or ``no_conversion_of_roots`` on the field ``unit``.
    """
    key = asked.given.text("unit")
    if key == "not_known":
        raise DomainError("asked_unit_unknown", field="unit")
    unit = read_unit(key)
    assert unit is not None
    if unit.basis == "root_weight":
        raise DomainError("no_conversion_of_roots", field="unit")
    weight = asked.given.maybe("bulk_density")
    one = convert_count(1, PER_100_CM3, unit, asked.teller.judgements, weight)
    number = asked.given.number("number")
    return Own(number, unit, UNITS[key], one.value, weight)


def exact(number: float) -> str:
    """A number as it was typed.

    Parameters
    ----------
    number : float
        [any unit]

    Returns
    -------
    str
        E.g. ``1,200``.

    Examples
    --------
    >>> exact(1200), exact(0.5)
    ('1,200', '0.5')
    """
    return f"{number:,.10g}"


def about(density: float) -> str:
    """A density worked out, no finer than it deserves, and never as none.

    Parameters
    ----------
    density : float
        [any unit, >= 0]

    Returns
    -------
    str
        Two figures.

    Examples
    --------
    >>> about(0.0004), about(4.04), about(298.5), about(12345)
    ('below 0.1', '4', '300', '12,000')
    """
    if density < SEEN_AS_NONE:
        return f"below {SEEN_AS_NONE:g}"
    return figure(density, 2)


def band(low: float, high: float) -> str:
    """Two densities as one band.

    Parameters
    ----------
    low, high : float
        [any one unit, >= 0]

    Returns
    -------
    str
        E.g. ``45 to 910``.

    Examples
    --------
    >>> band(45.4, 909), band(30, 30.1), band(0.001, 5)
    ('45 to 910', 'about 30', 'below 0.1 to 5')
    """
    ends = about(low), about(high)
    if ends[0] != ends[1]:
        return f"{ends[0]} to {ends[1]}"
    return ends[0] if high < SEEN_AS_NONE else f"about {ends[0]}"
