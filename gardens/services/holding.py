"""Changes that came after their author's link had ended, as records of kind ``held``.

Not for keeping or settling them: a batch does, in the garden's order.
"""

from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID, uuid5

from gardens.models.wire import moment_text
from gardens.services.mutation import Mutation, Rejected, references_of


@dataclass(frozen=True)
class Author:
    """Whose change it is: the account, and the device it was made on, each as others read it."""

    account: Any
    device: UUID
    shown: str
    device_name: str = ""
    # Who made it, where that is not an account here: it came in a file from elsewhere.
    elsewhere: str = ""

    @property
    def name(self) -> str:
        """The person and the phone, since one person may use several."""
        return f"{self.shown}, {self.device_name}" if self.device_name else self.shown


def held_doc(mutation: Mutation, author: Author, received_at: datetime) -> dict[str, Any]:
    """Return the document that keeps a change whole until somebody decides."""
    return {
        "op": mutation.op,
        "kind": mutation.kind,
        "of": {"kind": mutation.kind, "id": str(mutation.id)},
        "set": None if mutation.op == "delete" else mutation.values,
        "base": mutation.base,
        "mid": str(mutation.mid),
        "by": author.shown,
        "by_device": author.device_name,
        "at": moment_text(mutation.at or received_at),
        "why": "link_ended",
        "state": "waiting",
        "closed_by": "",
    }


def change_of(held: Any) -> Mutation:
    """Return the change that is held, under a number of its own: its first one is used up."""
    values = held.set or {}
    return Mutation(
        mid=uuid5(held.id, "accepted"),
        op=held.op,
        kind=held.kind,
        id=held.of_id,
        base=held.base,
        at=held.at,
        values=values,
        body_hash="",
        references=references_of(held.kind, values),
    )


def author_of(held: Any) -> Author:
    """Return whose change is held."""
    return Author(held.created_by, held.device, held.by, held.by_device, held.author)


def is_accepting(was: str, now: str) -> bool:
    """Tell whether a decision applies the change.

    The last decision counts, but what was accepted has happened: taking it back is refused.
    """
    if was == "accepted" and now != was:
        raise Rejected("forbidden", "state", "accepted_is_final")
    return was != now == "accepted"
