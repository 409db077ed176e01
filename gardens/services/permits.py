"""Whether one change of a push may be taken: its record, what it refers to, and who sends it.

Each raises ``Rejected`` before anything changed. Not for the values, which are judged before.
"""

from typing import Any

from gardens.selectors.access import Access
from gardens.services.mutation import Mutation, Rejected
from gardens.services.touched import TouchedRecords


def check_identity(
    touched: TouchedRecords, mutation: Mutation, *, may_be_missing: bool = False
) -> None:
    """The id is this garden's or nobody's, of this kind; only a put makes a record."""
    kind, garden = touched.place_of(mutation.id, mutation.kind)
    if garden != touched.garden.id:
        raise Rejected("not_found", "id")
    if kind != mutation.kind:
        raise Rejected("kind_mismatch", "kind")
    if mutation.kind == "garden" and mutation.id != touched.garden.id:
        raise Rejected("bad_value", "id", "not_an_id")
    if mutation.op != "put" and mutation.id not in touched and not may_be_missing:
        raise Rejected("not_found", "id")


def check_references(touched: TouchedRecords, mutation: Mutation) -> None:
    """What it refers to is this garden's, or not known yet."""
    for name, (wanted, other) in mutation.references.items():
        kind, garden = touched.place_of(other, wanted)
        if garden != touched.garden.id:
            raise Rejected("not_found", name)
        if kind != wanted:
            raise Rejected("bad_value", name, "not_an_id")


def check_right(touched: TouchedRecords, mutation: Mutation, account: Any, access: Access) -> None:
    """The role of the account that sends it allows it."""
    if mutation.kind == "garden" and mutation.op == "delete":
        allowed = access.may("delete_garden")
    elif mutation.kind == "held" and not access.is_live:
        allowed = False  # whoever waits for a decision does not decide
    else:
        allowed = access.may(_deed(touched, mutation, account), mutation.kind)
    if not allowed:
        raise Rejected("forbidden", None, "role_may_not")


def _deed(touched: TouchedRecords, mutation: Mutation, account: Any) -> str:
    if mutation.id not in touched:
        return "make"
    is_own = touched[mutation.id].record.created_by_id == account.pk
    return "change_own" if is_own else "change"
