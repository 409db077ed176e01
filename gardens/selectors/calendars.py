"""What is due in the gardens of a person, and whose calendar a secret opens."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from gardens.models import CalendarAddress, Garden
from gardens.models.calendar import hash_of
from gardens.selectors.briefing import brief
from gardens.selectors.gardens import today_in, visible_to


@dataclass(frozen=True)
class Event:
    """One thing due: an all-day event from ``on`` to ``until``, both included."""

    uid: str
    on: date
    until: date
    words: str
    garden: str
    bed: str | None


def owner_of(secret: str) -> Any | None:
    """Return the account a secret belongs to, if it may still sign in."""
    found = CalendarAddress.objects.filter(secret_sha256=hash_of(secret)).select_related("account")
    one = found.first()
    return one.account if one is not None and one.account.is_active else None


def made_at(account: Any) -> datetime | None:
    """Return when the account's address was made; None when it has none."""
    return CalendarAddress.objects.filter(account=account).values_list("made_at", flat=True).first()


def due_for(account: Any, now: datetime) -> list[Event]:
    """Return what is due in every garden the account may see."""
    return [one for garden in visible_to(account).order_by("id") for one in due_in(garden, now)]


def due_in(garden: Garden, now: datetime) -> list[Event]:
    """Return what is due in a garden, on its own clock."""
    told = brief(garden, today_in(garden, now))
    name = str(told["garden"]["name"])
    return [
        Event(
            uid=one["uid"],
            on=date.fromisoformat(one["on"]),
            until=date.fromisoformat(one["until_on"] or one["on"]),
            words=one["words"],
            garden=name,
            bed=one["bed"],
        )
        for one in told["due"]
    ]
