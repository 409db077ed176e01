"""Who may do what in a garden: four roles, one table, one question.

The phone is told its rights by the server and holds no table of its own. Not for asking which
role somebody has: that is in the links the owner made.
"""

from collections.abc import Mapping

from gardens.domain.records import KINDS

VIEWER, RATER, EDITOR, OWNER = ROLES = ("viewer", "rater", "editor", "owner")
LENT_ROLES = (VIEWER, RATER, EDITOR)
SHEETS = ("bed-map", "rating-form", "pots", "submission")

# What a rater makes with a plant in the hand; everything else in a garden takes an editor.
AT_THE_PLANT = ("gall_rating", "photo")

LEAST_ROLE: Mapping[str, str] = {
    "see": VIEWER,
    "bed-map": VIEWER,
    "rating-form": VIEWER,
    "pots": VIEWER,
    "send_photo": RATER,
    "submission": EDITOR,
    "papers": EDITOR,
    "history": EDITOR,
    "settle": EDITOR,
    "export": EDITOR,
    "links": OWNER,
    "delete_garden": OWNER,
}
LEAST_ROLE_AT_THE_PLANT: Mapping[str, str] = {"make": RATER, "change_own": RATER}
LEAST_ROLE_ELSEWHERE = EDITOR

GROWERS_OWN = ("grower_name", "grower_address", "grower_phone", "grower_email")
GROWERS_KINDS = ("held", "lab_profile", "paper")


def may(role: str, deed: str, kind: str | None = None) -> bool:
    """Whether a role may do something.

    Parameters
    ----------
    role : str
        One of ``ROLES``.
    deed : str
        A key of ``LEAST_ROLE``; or ``make``, ``change_own``, ``change`` with a kind of record.
    kind : str or None
        Kind of the record that is made or changed.

    Returns
    -------
    bool
        The owner may do everything.

    Examples
    --------
    >>> may("rater", "change_own", "gall_rating"), may("rater", "change", "gall_rating")
    (True, False)
    >>> may("editor", "links")
    False
    """
    if kind is None:
        least = LEAST_ROLE[deed]
    elif kind in AT_THE_PLANT:
        least = LEAST_ROLE_AT_THE_PLANT.get(deed, LEAST_ROLE_ELSEWHERE)
    else:
        least = LEAST_ROLE_ELSEWHERE
    return ROLES.index(role) >= ROLES.index(least)


def rights_of(role: str) -> dict[str, object]:
    """Everything a phone has to know of what its person may do.

    Parameters
    ----------
    role : str
        One of ``ROLES``.

    Returns
    -------
    dict
        Kinds that may be made, changed, changed when own; whether conflicts and held changes may
        be settled, links made, the garden exported; sheets that may be printed.
    """
    made_by_people = [kind for kind, spec in KINDS.items() if not spec.server_made]

    def kinds(deed: str) -> list[str]:
        return [kind for kind in made_by_people if may(role, deed, kind)]

    return {
        "make": kinds("make"),
        "change": kinds("change"),
        "change_own": kinds("change_own"),
        "settle": may(role, "settle"),
        "links": may(role, "links"),
        "export": may(role, "export"),
        "sheets": [sheet for sheet in SHEETS if may(role, sheet)],
    }


def shown(role: str, kind: str, doc: Mapping[str, object]) -> dict[str, object] | None:
    """Document of a record as a role sees it.

    A helper has no need of the grower's address and telephone, nor of the lab's.

    Parameters
    ----------
    role : str
        One of ``ROLES``.
    kind : str
        Kind of the record.
    doc : Mapping[str, object]
        The whole document.

    Returns
    -------
    dict or None
        None when the record is not for this role.
    """
    if may(role, "settle"):
        return dict(doc)
    if kind in GROWERS_KINDS or (kind == "conflict" and _is_about_the_grower(doc)):
        return None
    if kind == "garden":
        return {name: "" if name in GROWERS_OWN else value for name, value in doc.items()}
    return dict(doc)


def _is_about_the_grower(conflict: Mapping[str, object]) -> bool:
    of = conflict["of"]
    kind = of["kind"] if isinstance(of, Mapping) else None
    return kind in GROWERS_KINDS or conflict["field"] in GROWERS_OWN
