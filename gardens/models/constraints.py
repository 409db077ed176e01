"""Short ways to write the CHECK constraints that hold the invariants of the tables.

Not for sentences: what a person reads is said when the value is first judged, long before these.
"""

from collections.abc import Collection

from django.db.models import CheckConstraint, F, Q


def within(table: str, **bounds: tuple[float, float]) -> list[CheckConstraint]:
    """Each column stays within its bounds, both included; null passes."""
    return [
        CheckConstraint(
            condition=Q(**{f"{column}__gte": least, f"{column}__lte": most}),
            name=f"{table}_{column}_within",
        )
        for column, (least, most) in bounds.items()
    ]


def one_of(table: str, **choices: Collection[str]) -> list[CheckConstraint]:
    """Each column holds one of a closed list of words; null passes."""
    return [
        CheckConstraint(condition=Q(**{f"{column}__in": words}), name=f"{table}_{column}_known")
        for column, words in choices.items()
    ]


def in_order(table: str, first: str, then: str, *, may_equal: bool = True) -> CheckConstraint:
    """The second column is never before the first; null passes."""
    compare = "gte" if may_equal else "gt"
    return CheckConstraint(
        condition=Q(**{f"{then}__{compare}": F(first)}), name=f"{table}_{then}_after_{first}"
    )


def together(table: str, name: str, *columns: str) -> CheckConstraint:
    """Either all of the columns are null or none is."""
    all_null = Q(**{f"{column}__isnull": True for column in columns})
    none_null = Q(**{f"{column}__isnull": False for column in columns})
    return CheckConstraint(condition=all_null | none_null, name=f"{table}_{name}_whole")
