"""Fills the sheet of a pot test from the records of one garden, as they travel."""

from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from typing import Any

from gardens.domain.errors import DomainError
from gardens.domain.judgements import Table, judged
from gardens.sheets.shelf import Shelf
from gardens.sheets.values import PotsSheet


def gather_pots(
    records: Iterable[Mapping[str, Any]], planting: str, *, origin: str, judgements: Table
) -> PotsSheet:
    """One pot test, from records.

    Parameters
    ----------
    records : iterable of Mapping
        The garden with the planting, its bed and its sample; others do not matter.
    planting : str
        Id of the planting whose plants are pots.
    origin : str
        Address of the server, without a slash at its end; the QR code begins with it.
    judgements : Mapping
        Content of ``fixtures/judgements.json``.

    Returns
    -------
    PotsSheet
        What ``pots_sheet`` prints.

    Raises
    ------
    DomainError
        ``not_found``, ``sheet_incomplete``, or ``not_a_pot_test``.
    """
    shelf = Shelf(records)
    doc = shelf.asked("planting", planting, "planting")
    pots = doc["pots"]
    if pots is None:
        raise DomainError("not_a_pot_test", field="planting", id=planting)
    bed = shelf.needed("bed", doc["bed"], planting=doc["crop"])
    sown_on = date.fromisoformat(doc["grown"]["from_on"])
    first, last = (int(judged(judgements, f"pots_{end}_days")) for end in ("first", "last"))
    bag = shelf.find("soil_sample", pots["soil_sample"])
    return PotsSheet(
        garden_name=shelf.garden()["name"],
        bed_name=bed["name"],
        crop=", ".join(part for part in (doc["crop"], doc["cultivar"]) if part),
        n_pots=pots["n_pots"],
        blank_pot=pots["blank_pot"],
        soil_cm3_per_pot=pots["soil_cm3_per_pot"],
        sown_on=sown_on,
        ready_from_on=sown_on + timedelta(days=first),
        ready_to_on=sown_on + timedelta(days=last),
        link=f"{origin}/plantings/{planting}",
        bag_code=bag["code"] if bag else "",
    )
