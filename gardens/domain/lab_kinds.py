"""The records of the way to a laboratory and back: lab, bag, what it found, papers.

Not for what a report means: the briefing says that.
"""

from dataclasses import dataclass

from gardens.domain import codes, composites, lab_composites
from gardens.domain.fields import (
    EMAIL_LENGTH,
    NAME_LENGTH,
    NOTE_LENGTH,
    PHONE_LENGTH,
    Refusal,
    day,
    flag,
    identifier,
    list_of,
    matching,
    maybe,
    moment,
    number,
    one_of,
    text,
    whole,
)
from gardens.domain.kinds import Parts, Places, may, must, owned

PURPOSES = ("diagnose", "predict", "check_worked")
MOISTURES = ("dust_dry", "just_moist", "wet", "soaked")
PATTERNS = ("patches", "rows", "low_spots", "everywhere", "none_seen")
TESTS = ("nematode_count", "species_id", "root_extraction", "egg_count")
MOST_PAPER_BYTES = 10_000_000


def bag_code(value: object) -> str:
    """Bag code of five signs whose check sign is right.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    str
        The same.
    """
    if not isinstance(value, str) or not codes.is_right(value):
        raise Refusal("code_wrong")
    return value


_note = text(NOTE_LENGTH)


@dataclass(frozen=True, kw_only=True)
class LabProfile:
    """The grower's own lab, as the grower typed it."""

    name: str = must(text(120, 1))
    address: str = may(text(300))
    phone: str = may(text(PHONE_LENGTH))
    email: str = may(text(EMAIL_LENGTH))
    account_number: str = may(text(40))
    reporting_unit: str = may(text(60))
    working_days: list[int] = may(list_of(whole(0, 6), 0, 7, differing=True), [0, 1, 2, 3, 4])
    country: str = may(matching(r"([A-Z]{2})?", "not_a_country"))
    closed_on: list[str] = may(list_of(day, 0, 60, differing=True), [])
    usual_days: int | None = may(maybe(whole(1, 200)), None)
    courier: Parts | None = may(maybe(lab_composites.courier), None)
    parcel_wishes: str = may(text(1000))
    form: Parts | None = may(maybe(lab_composites.form), None, refers_to="paper")
    note: str = may(_note)


@dataclass(frozen=True, kw_only=True)
class SoilSample:
    """A bag of soil, where it went, and all a lab asks about it."""

    bed: str = must(identifier, refers_to="bed")
    planting: str | None = may(maybe(identifier), None, refers_to="planting")
    code: str = must(bag_code)
    purpose: str = must(one_of(PURPOSES))
    part: Parts | None = may(maybe(composites.part_of_bed), None)
    cores_planned: Places = may(composites.points, [])
    lifted_at: str | None = may(maybe(moment), None)
    n_cores: int | None = may(maybe(whole(1, 200)), None)
    core_places: Places = may(composites.points, [])
    depth: Parts | None = may(maybe(composites.depth), None)
    moisture: str | None = may(maybe(one_of(MOISTURES)), None)
    soil_temperature_celsius: float | None = may(maybe(number(-10, 60)), None)
    has_roots: bool | None = may(maybe(flag), None)
    good_or_poor: str | None = may(maybe(one_of(("good_spot", "poor_spot"))), None)
    symptom: str = may(text(500))
    symptom_pattern: str | None = may(maybe(one_of(PATTERNS)), None)
    irrigated: bool | None = may(maybe(flag), None)
    treatments: str = may(text(1000))
    next_crop: str = may(text(NAME_LENGTH))
    next_crop_on: str | None = may(maybe(day), None)
    tests_wanted: list[str] = may(list_of(one_of(TESTS), 0, len(TESTS), differing=True), [])
    extract_cm3_asked: int | None = may(maybe(whole(1, 20_000)), None)
    lab_profile: str | None = may(maybe(identifier), None, refers_to="lab_profile")
    packed_at: str | None = may(maybe(moment), None)
    handed_over: Parts | None = may(maybe(lab_composites.handed_over), None)
    parcel: Parts | None = may(maybe(composites.parcel), None)
    warmth: Parts | None = may(maybe(lab_composites.warmth), None)
    extracted_on: str | None = may(maybe(day), None)
    note: str = may(_note)


@dataclass(frozen=True, kw_only=True)
class AssayReport:
    """What a lab wrote about one bag; a second letter is a second report."""

    soil_sample: str = must(identifier, refers_to="soil_sample")
    lab_profile: str | None = may(maybe(identifier), None, refers_to="lab_profile")
    reported_on: str = must(day)
    method: str = may(text(200))
    examined: Parts | None = may(maybe(lab_composites.examined), None)
    found: list[Parts] = may(lab_composites.findings, [])
    species_id: str = may(text(200))
    hazard: str = may(text(400))
    comments: str = may(_note)
    note: str = may(_note)


@dataclass(frozen=True, kw_only=True)
class Paper:
    """A PDF that belongs to another record; its bytes travel apart and are never opened."""

    of: Parts = must(composites.parts(kind=one_of(composites.PAPER_SUBJECTS), id=identifier))
    name: str = must(text(NAME_LENGTH, 1))
    sha256: str = must(matching(r"[0-9a-f]{64}", "not_a_hash"))
    n_bytes: int = must(whole(1, MOST_PAPER_BYTES))
    blob: str = owned("pending")
