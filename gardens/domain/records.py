"""Which kinds of record there are, and whether what a device sent can be taken.

Not for merging (the server's) nor for whether a reference leads anywhere: a child may arrive
before its parent.
"""

from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, dataclass, fields
from typing import Any

from gardens.domain import kinds, lab_kinds
from gardens.domain.errors import RecordError
from gardens.domain.fields import Refusal, Rule, as_shown


@dataclass(frozen=True)
class FieldSpec:
    """One field of a kind: the unit of merge.

    Parameters
    ----------
    name : str
        Wire name.
    rule : Rule or None
        Answers the value to keep or refuses it; None for a field only the server writes.
    required : bool
        Whether a new record must bring it.
    make_default : callable or None
        Makes the value of a field left out; None when it is required.
    refers_to : str or None
        Kind of the record this field names by id, itself or in its part of that name.
    """

    name: str
    rule: Rule | None
    required: bool
    make_default: Callable[[], object] | None
    refers_to: str | None

    @property
    def server_owned(self) -> bool:
        """Whether only the server writes it."""
        return self.rule is None


@dataclass(frozen=True)
class KindSpec:
    """One kind of record.

    Parameters
    ----------
    name : str
        Wire name, e.g. ``"gall_rating"``.
    record : type
        Its frozen dataclass in ``kinds.py``.
    fields : Mapping[str, FieldSpec]
        By wire name, in the order of the dataclass.
    server_made : bool
        Whether devices may only change it, never make it.
    """

    name: str
    record: type
    fields: Mapping[str, FieldSpec]
    server_made: bool


def _spec_of_field(one: "Field[Any]") -> FieldSpec:
    make = None if one.default_factory is MISSING else one.default_factory
    return FieldSpec(
        name=one.name,
        rule=one.metadata.get("rule"),
        required=bool(one.metadata.get("required", False)),
        make_default=make,
        refers_to=one.metadata.get("refers_to"),
    )


def _spec(name: str, record: type, *, server_made: bool = False) -> KindSpec:
    known = {one.name: _spec_of_field(one) for one in fields(record)}
    return KindSpec(name, record, known, server_made)


KINDS: Mapping[str, KindSpec] = {
    spec.name: spec
    for spec in (
        _spec("garden", kinds.Garden),
        _spec("bed", kinds.Bed),
        _spec("planting", kinds.Planting),
        _spec("root_check", kinds.RootCheck),
        _spec("gall_rating", kinds.GallRating),
        _spec("photo", kinds.Photo),
        _spec("lab_profile", lab_kinds.LabProfile),
        _spec("soil_sample", lab_kinds.SoilSample),
        _spec("assay_report", lab_kinds.AssayReport),
        _spec("paper", lab_kinds.Paper),
        _spec("conflict", kinds.Conflict, server_made=True),
        _spec("held", kinds.Held, server_made=True),
    )
}


def kind_spec(kind: object) -> KindSpec:
    """Description of a kind; RecordError ``unknown_kind`` when there is none.

    Parameters
    ----------
    kind : object
        Name of a kind, as it came out of JSON.

    Returns
    -------
    KindSpec
        Its fields and rules.
    """
    if not isinstance(kind, str) or kind not in KINDS:
        raise RecordError("unknown_kind", None, "unknown_kind")
    return KINDS[kind]


def checked_set(kind: object, set_: object, *, creating: bool) -> dict[str, object]:
    """Values a device sent, each checked; only the fields it sent.

    Parameters
    ----------
    kind : str
        Kind of record.
    set_ : Mapping[str, object]
        Fields and values as they came out of JSON.
    creating : bool
        True for a ``put``, which must bring every required field; False for a ``patch``.

    Returns
    -------
    dict
        The same fields with the values to keep; moments are written with three decimals.

    Raises
    ------
    RecordError
        ``unknown_kind``, ``unknown_field`` or ``bad_value`` with the field's name; its
        ``reason`` says what is wrong. Nothing else is raised, whatever was sent.

    Examples
    --------
    >>> checked_set("bed", {"name": "North bed"}, creating=False)
    {'name': 'North bed'}
    >>> checked_set("bed", {"depth_cm": True}, creating=False)
    Traceback (most recent call last):
        ...
    gardens.domain.errors.RecordError: bad_value(depth_cm: not_whole min=5, max=200)
    """
    spec = kind_spec(kind)
    if not isinstance(set_, Mapping):
        raise RecordError("bad_value", None, "not_an_object")
    if creating and spec.server_made:
        raise RecordError("bad_value", None, "server_makes_these")
    kept = {str(name): _checked(spec, name, value) for name, value in set_.items()}
    missing = [one.name for one in spec.fields.values() if one.required and one.name not in kept]
    if creating and missing:
        raise RecordError("bad_value", missing[0], "required")
    return kept


def _checked(spec: KindSpec, name: object, value: object) -> object:
    known = spec.fields.get(name) if isinstance(name, str) else None
    if known is None or known.rule is None:
        raise RecordError("unknown_field", as_shown(name), "unknown_field")
    try:
        return known.rule(value)
    except Refusal as refusal:
        raise RecordError("bad_value", known.name, refusal.reason, **refusal.params) from None


def with_defaults(kind: object, set_: Mapping[str, object]) -> dict[str, object]:
    """Whole document of a record: what was sent, and defaults for what was left out.

    Parameters
    ----------
    kind : str
        Kind of record.
    set_ : Mapping[str, object]
        Checked values, every required field among them.

    Returns
    -------
    dict
        Every field of the kind, server-owned ones too, in the kind's order.
    """
    document: dict[str, object] = {}
    for one in kind_spec(kind).fields.values():
        if one.name in set_:
            document[one.name] = set_[one.name]
        elif one.make_default is None:
            raise RecordError("bad_value", one.name, "required")
        else:
            document[one.name] = one.make_default()
    return document


def references(kind: object, doc: Mapping[str, object]) -> list[tuple[str, str]]:
    """Records a document names: (kind, id) pairs, in field order.

    Parameters
    ----------
    kind : str
        Kind of record.
    doc : Mapping[str, object]
        Checked values; a patch may hold only some fields.

    Returns
    -------
    list of (str, str)
        Empty ones left out; the subject of a photo or of a conflict is among them.

    Examples
    --------
    >>> references("root_check", {"planting": "01890a5d-ac96-774b-bcce-b302099a8057"})
    [('planting', '01890a5d-ac96-774b-bcce-b302099a8057')]
    """
    found = []
    for one in kind_spec(kind).fields.values():
        value = doc.get(one.name)
        named = value.get(one.refers_to) if isinstance(value, Mapping) else value
        if one.refers_to and isinstance(named, str):
            found.append((one.refers_to, named))
        elif one.name == "of" and isinstance(value, Mapping):
            found.append((str(value["kind"]), str(value["id"])))
    return found
