"""The crops of a bed, newest first, as a lab asks for them.

Not for advice about what to grow next.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class CropGrown:
    """One crop in a bed, from a day to a day; ``to_on`` is None while it stands."""

    crop: str
    cultivar: str
    resistance_code: str
    from_on: str
    to_on: str | None
    planting: str | None = None


@dataclass(frozen=True)
class CropHistory:
    """What stood on a day, and what stood before it, each newest first."""

    current: tuple[CropGrown, ...]
    previous: tuple[CropGrown, ...]


def read_crop(doc: Mapping[str, object], planting: str | None = None) -> CropGrown:
    """Crop from a planting's document, and the planting's id if it matters.

    Parameters
    ----------
    doc : Mapping
        A planting's document, checked.
    planting : str or None
        Its id.

    Returns
    -------
    CropGrown
        The same crop as a plain value.
    """
    grown = doc["grown"]
    assert isinstance(grown, Mapping)
    return CropGrown(
        crop=str(doc["crop"]),
        cultivar=str(doc.get("cultivar", "")),
        resistance_code=str(doc.get("resistance_code", "")),
        from_on=str(grown["from_on"]),
        to_on=None if grown["to_on"] is None else str(grown["to_on"]),
        planting=planting,
    )


def crop_history(crops: Iterable[CropGrown], on: str, *, sampled: str | None = None) -> CropHistory:
    """Crops of one bed, split at a day.

    Parameters
    ----------
    crops : iterable of CropGrown
        Any number of crops of the bed, in any order; their days may overlap.
    on : str
        The day the soil was lifted, ``YYYY-MM-DD``.
    sampled : str or None
        Id of the planting the sample was taken for; it is current whatever its days say.

    Returns
    -------
    CropHistory
        Crops planted after the day are in neither part.

    Examples
    --------
    >>> okra = CropGrown("Okra", "", "", "2031-05-02", None)
    >>> leek = CropGrown("Leek", "", "", "2030-09-10", "2031-04-20")
    >>> found = crop_history([leek, okra], "2031-08-01")
    >>> [crop.crop for crop in found.current], [crop.crop for crop in found.previous]
    (['Okra'], ['Leek'])
    """
    newest_first = sorted(crops, key=lambda crop: (crop.from_on, crop.to_on or "9"), reverse=True)
    current, previous = [], []
    for crop in newest_first:
        stands = crop.from_on <= on and (crop.to_on is None or on <= crop.to_on)
        if stands or (sampled is not None and crop.planting == sampled):
            current.append(crop)
        elif crop.from_on <= on:
            previous.append(crop)
    return CropHistory(tuple(current), tuple(previous))
