"""The rules for values made of parts on the way to a laboratory and back.

Not for what they mean: a count is set beside others in ``units``, a journey in ``transit``.
"""

from gardens.domain.composites import Parts, parts
from gardens.domain.fields import (
    Refusal,
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

STAGES = ("j2", "eggs", "eggs_and_j2", "adults", "all_stages", "not_said")
RESULTS = ("counted", "none_recovered", "seen")
MOST_COUNTED = 100_000_000
MOST_FINDINGS = 40
MOST_POTS = 20
# What a lab's own form can be filled with; the values come from ``gardens.sheets.form_values``.
FILLS = (
    "words",
    "grower_name",
    "grower_address",
    "grower_phone",
    "grower_email",
    "garden_name",
    "garden_place",
    "lab_name",
    "account_number",
    "n_samples",
    "sent_on",
    "sample_code",
    "bed_name",
    "area",
    "soil",
    "purpose",
    "lifted_on",
    "depth",
    "n_cores",
    "moisture",
    "soil_temperature",
    "has_roots",
    "good_or_poor",
    "symptom",
    "symptom_pattern",
    "irrigated",
    "treatments",
    "crop_now",
    "cultivar_now",
    "planted_on",
    "crops_before",
    "next_crop",
    "next_crop_on",
    "tests_wanted",
    "note",
)

handed_over = parts(at=moment, to=text(120))
courier = parts(
    transit_days=whole(0, 20),
    to_door=flag,
    moves_on=list_of(whole(0, 6), 1, 7, differing=True),
    words=text(200),
)
examined = parts(soil=text(60, 1), counted_pct=maybe(whole(1, 100)))
_warmth = parts(
    warmest_celsius=maybe(number(-40, 80)), coldest_celsius=maybe(number(-40, 80)), in_sun=flag
)
_pots = parts(
    n_pots=whole(1, MOST_POTS),
    blank_pot=maybe(whole(1, MOST_POTS)),
    soil_cm3_per_pot=whole(50, 20_000),
    soil_sample=maybe(identifier),
)
_finding = parts(
    taxon=matching(r"[a-z][a-z0-9_]{0,39}", "not_a_taxon"),
    stage=one_of(STAGES),
    result=one_of(RESULTS),
    count=maybe(number(0, MOST_COUNTED)),
    per=text(60),
    as_written=text(200),
)
# ``row`` is which bag of the parcel: 1 for the first. With ``when`` the field is filled, or the
# box ticked, only for that value; ``words`` are then what is written or which choice is taken.
_fill = {"fill": one_of(FILLS), "row": whole(1, 40), "when": text(60), "words": text(200)}
_form = parts(
    paper=identifier,
    fields=list_of(parts(field=text(200, 1), **_fill), 0, 400),
    spots=list_of(
        parts(
            page=whole(1, 40),
            x_pt=whole(0, 5000),
            y_pt=whole(0, 5000),
            width_pt=whole(1, 5000),
            size_pt=whole(4, 40),
            **_fill,
        ),
        0,
        400,
    ),
)


def warmth(value: object) -> Parts:
    """How warm and how cold a bag got; the coldest is never above the warmest.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    dict
        The value to keep.
    """
    kept = _warmth(value)
    warm, cold = kept["warmest_celsius"], kept["coldest_celsius"]
    if isinstance(warm, int | float) and isinstance(cold, int | float) and cold > warm:
        raise Refusal("warmth_crossed", part="coldest_celsius")
    return kept


def pots(value: object) -> Parts:
    """How a pot test is set up; the pot without the bed's soil is one of the pots.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    dict
        The value to keep.
    """
    kept = _pots(value)
    n_pots, blank = kept["n_pots"], kept["blank_pot"]
    assert isinstance(n_pots, int)
    if isinstance(blank, int) and (blank > n_pots or n_pots == 1):
        raise Refusal("blank_pot_not_there", part="blank_pot")
    return kept


def findings(value: object) -> list[Parts]:
    """What a lab found, one finding a line; a count if and only if it counted some.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    list of dict
        The values to keep.
    """
    kept = list_of(_counted, 0, MOST_FINDINGS)(value)
    assert isinstance(kept, list)
    return kept


def _counted(value: object) -> Parts:
    kept = _finding(value)
    count = kept["count"]
    if (kept["result"] == "counted") != (count is not None):
        raise Refusal("count_only_when_counted", part="count")
    if count == 0:
        raise Refusal("none_is_not_a_count", part="count")
    return kept


def form(value: object) -> Parts:
    """How a lab's own form is filled; a named field is matched once for each ``when``.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    dict
        The value to keep.
    """
    kept = _form(value)
    matched = kept["fields"]
    assert isinstance(matched, list)
    names = [(one["field"], one["when"]) for one in matched]
    if len(set(names)) != len(names):
        raise Refusal("said_twice", part="fields")
    return kept
