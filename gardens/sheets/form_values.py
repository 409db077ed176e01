"""Our values for a lab's own form: what is written, and the plain word a box is held against.

Not for which field gets which: the grower matched those.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from gardens.domain import codes
from gardens.sheets import words
from gardens.sheets.sample_page import area_of
from gardens.sheets.typed import one_line
from gardens.sheets.values import Lab, Sample, Submission


@dataclass(frozen=True)
class Value:
    """One value: as it is written, and the plain words of the record (none, one or several)."""

    shown: str
    plain: tuple[str, ...] = ()


NOTHING = Value("")


def value_of(fill: str, row: int, parcel: Submission) -> Value:
    """One value for a form.

    Parameters
    ----------
    fill : str
        One of ``lab_composites.FILLS`` but ``words``.
    row : int
        Which bag of the parcel [1, >= 1].
    parcel : Submission
        The parcel.

    Returns
    -------
    Value
        Empty where nothing is known, and for a bag the parcel does not have.
    """
    if fill in _OF_PARCEL:
        return Value(one_line(_OF_PARCEL[fill](parcel)))
    if row > len(parcel.samples):
        return NOTHING
    sample = parcel.samples[row - 1]
    if fill in _PLAIN:
        return _PLAIN[fill](sample)
    return Value(one_line(_OF_SAMPLE[fill](sample, parcel)))


def _lab(parcel: Submission) -> Lab:
    return parcel.lab or Lab()


_OF_PARCEL: Mapping[str, Callable[[Submission], str]] = {
    "grower_name": lambda parcel: parcel.grower.name,
    "grower_address": lambda parcel: ", ".join(parcel.grower.address.splitlines()),
    "grower_phone": lambda parcel: parcel.grower.phone,
    "grower_email": lambda parcel: parcel.grower.email,
    "garden_name": lambda parcel: parcel.grower.garden_name,
    "garden_place": lambda parcel: parcel.grower.garden_place,
    "lab_name": lambda parcel: _lab(parcel).name,
    "account_number": lambda parcel: _lab(parcel).account_number,
    "n_samples": lambda parcel: str(len(parcel.samples)),
    "sent_on": lambda parcel: words.day(parcel.sent_on),
}
_OF_SAMPLE: Mapping[str, Callable[[Sample, Submission], str]] = {
    "sample_code": lambda sample, _: codes.as_printed(sample.code),
    "bed_name": lambda sample, _: sample.bed_name,
    "area": lambda sample, parcel: area_of(sample, parcel.units),
    "soil": lambda sample, _: sample.soil,
    "lifted_on": lambda sample, _: words.day(sample.lifted_at.date() if sample.lifted_at else None),
    "depth": lambda sample, parcel: words.depth(sample.depth, parcel.units),
    "n_cores": lambda sample, _: "" if sample.n_cores is None else str(sample.n_cores),
    "soil_temperature": lambda sample, parcel: words.temperature(
        sample.soil_temperature_celsius, parcel.units
    ),
    "symptom": lambda sample, _: sample.symptom,
    "treatments": lambda sample, _: "; ".join(sample.treatments.splitlines()),
    "crop_now": lambda sample, _: "; ".join(one.crop for one in sample.crops.current),
    "cultivar_now": lambda sample, _: "; ".join(
        one.cultivar for one in sample.crops.current if one.cultivar
    ),
    "planted_on": lambda sample, _: "; ".join(
        words.iso_day(one.from_on) for one in sample.crops.current
    ),
    "crops_before": lambda sample, _: "; ".join(
        words.crop_with_days(one) for one in sample.crops.previous
    ),
    "next_crop": lambda sample, _: sample.next_crop,
    "next_crop_on": lambda sample, _: words.day(sample.next_crop_on),
    "note": lambda sample, _: sample.note,
}


def _chosen(names: Mapping[str, str], plain: str | None) -> Value:
    return NOTHING if plain is None else Value(names[plain], (plain,))


def _yes_no(said: bool | None) -> Value:
    return NOTHING if said is None else Value(words.YES_NO[said], (words.YES_NO[said],))


_PLAIN: Mapping[str, Callable[[Sample], Value]] = {
    "purpose": lambda sample: _chosen(words.PURPOSES, sample.purpose),
    "moisture": lambda sample: _chosen(words.MOISTURES, sample.moisture),
    "good_or_poor": lambda sample: _chosen(words.SPOTS, sample.good_or_poor),
    "symptom_pattern": lambda sample: _chosen(words.PATTERNS, sample.symptom_pattern),
    "has_roots": lambda sample: _yes_no(sample.has_roots),
    "irrigated": lambda sample: _yes_no(sample.irrigated),
    "tests_wanted": lambda sample: Value(
        ", ".join(words.TESTS[one] for one in sample.tests_wanted), sample.tests_wanted
    ),
}
