"""The rules for values made of parts that only make sense together.

A composite is the unit of merge: it is taken whole or refused whole, so a rule that spans
its parts can be kept here. Not for rules between two fields of a record.
"""

from collections.abc import Callable, Mapping

from gardens.domain import geometry
from gardens.domain.fields import (
    Refusal,
    Rule,
    as_shown,
    day,
    flag,
    list_of,
    maybe,
    one_of,
    text,
    whole,
)

GALL_SCALES = ("pct10", "bp10", "zeck10")
PHOTO_SUBJECTS = ("gall_rating", "root_check", "soil_sample", "bed", "assay_report")
PAPER_SUBJECTS = ("assay_report", "soil_sample", "lab_profile")
LONGEST_CM = 5000
GARDEN_CM = 100_000
MOST_PLANTS = 400

Parts = dict[str, object]


def parts(**rules: Rule) -> Callable[[object], Parts]:
    """An object with exactly these keys, each part taken by its rule.

    Parameters
    ----------
    **rules : Rule
        One rule for each part, by its wire name.

    Returns
    -------
    callable
        A rule for the whole object; it raises ``Refusal``.
    """

    def rule(value: object) -> Parts:
        if not isinstance(value, Mapping):
            raise Refusal("not_an_object")
        for name in value:
            if name not in rules:
                raise Refusal("unknown_part", part=as_shown(name))
        kept: Parts = {}
        for name, check in rules.items():
            if name not in value:
                raise Refusal("part_missing", part=name)
            try:
                kept[name] = check(value[name])
            except Refusal as refusal:
                raise Refusal(refusal.reason, **{"part": name, **refusal.params}) from None
        return kept

    return rule


def _number_in(value: Parts, name: str) -> int:
    found = value[name]
    assert isinstance(found, int)
    return found


point = list_of(whole(0, LONGEST_CM), 2, 2)
points = list_of(point, 0, 200)
plants = list_of(point, 0, MOST_PLANTS)
place_in_garden = parts(x_cm=whole(0, GARDEN_CM), y_cm=whole(0, GARDEN_CM))
rows = parts(n_rows=whole(1, 60), row_spacing_cm=whole(5, 500), plant_spacing_cm=whole(2, 500))
rating_place = parts(
    x_cm=whole(0, LONGEST_CM), y_cm=whole(0, LONGEST_CM), plant=maybe(whole(1, MOST_PLANTS))
)
part_of_bed = parts(
    x_cm=whole(0, LONGEST_CM),
    y_cm=whole(0, LONGEST_CM),
    width_cm=whole(1, LONGEST_CM),
    length_cm=whole(1, LONGEST_CM),
)

_rectangle = parts(
    type=one_of(("rectangle",)), width_cm=whole(20, LONGEST_CM), length_cm=whole(20, LONGEST_CM)
)
_outline = parts(type=one_of(("outline",)), points_cm=list_of(point, 3, 40))


def shape(value: object) -> Parts:
    """A rectangle, or an outline that has an area and does not cross itself.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    dict
        The value to keep.
    """
    if not isinstance(value, Mapping):
        raise Refusal("not_an_object")
    if value.get("type") == "rectangle":
        return _rectangle(value)
    if value.get("type") != "outline":
        raise Refusal("not_a_choice", part="type", choices=["outline", "rectangle"])
    kept = _outline(value)
    corners = geometry.corners(kept)
    if geometry.area_cm2(corners) <= 0:
        raise Refusal("outline_flat", part="points_cm")
    if geometry.crosses_itself(corners):
        raise Refusal("outline_crosses", part="points_cm")
    return kept


_grown = parts(from_on=day, to_on=maybe(day))
_chosen = parts(
    how=one_of(("all", "every_kth", "worst_looking", "random")), every_k=maybe(whole(2, 50))
)
_reading = parts(
    state=one_of(("rated", "missing", "dead")),
    grade=maybe(whole(0, 10)),
    gall_scale=one_of(GALL_SCALES),
    trace_only=flag,
)
_damage = parts(n_examined=whole(1, 1000), n_damaged=whole(0, 1000), signs=text(200))
_depth = parts(from_cm=whole(0, 195), to_cm=whole(1, 200))
_parcel = parts(sent_on=maybe(day), arrived_on=maybe(day))


def grown(value: object) -> Parts:
    """From when to when a planting stands; the end may be open, never before the start.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    dict
        The value to keep.
    """
    kept = _grown(value)
    if kept["to_on"] is not None and str(kept["to_on"]) < str(kept["from_on"]):
        raise Refusal("days_backwards", part="to_on")
    return kept


def chosen(value: object) -> Parts:
    """How plants were chosen; ``every_k`` belongs to ``every_kth`` and to nothing else.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    dict
        The value to keep.
    """
    kept = _chosen(value)
    if (kept["how"] == "every_kth") != (kept["every_k"] is not None):
        raise Refusal("every_k_only_with_every_kth", part="every_k")
    return kept


def reading(value: object) -> Parts:
    """What was seen on one plant: a grade if and only if it was rated.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    dict
        The value to keep.
    """
    kept = _reading(value)
    if (kept["state"] == "rated") != (kept["grade"] is not None):
        raise Refusal("grade_only_when_rated", part="grade")
    if kept["trace_only"] and not kept["grade"]:
        raise Refusal("a_gall_is_never_grade_0", part="trace_only")
    return kept


def produce_damage(value: object) -> Parts:
    """Damaged among examined roots, tubers or pods; never more damaged than examined.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    dict
        The value to keep.
    """
    kept = _damage(value)
    if _number_in(kept, "n_damaged") > _number_in(kept, "n_examined"):
        raise Refusal("more_damaged_than_examined", part="n_damaged")
    return kept


def depth(value: object) -> Parts:
    """From which depth to which deeper one.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    dict
        The value to keep.
    """
    kept = _depth(value)
    if _number_in(kept, "to_cm") <= _number_in(kept, "from_cm"):
        raise Refusal("depth_upside_down", part="to_cm")
    return kept


def parcel(value: object) -> Parts:
    """When the parcel left and arrived; it arrives after it was sent, not before.

    Parameters
    ----------
    value : object
        As it came out of JSON.

    Returns
    -------
    dict
        The value to keep.
    """
    kept = _parcel(value)
    sent, arrived = kept["sent_on"], kept["arrived_on"]
    if arrived is not None and (sent is None or str(arrived) < str(sent)):
        raise Refusal("days_backwards", part="arrived_on")
    return kept
