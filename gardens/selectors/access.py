"""What an account may do in a garden: the one place that knows owners, links and their ends.

Not for what a role means: see ``gardens.domain.roles``.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any
from uuid import UUID

from gardens.domain import roles
from gardens.models import Garden, Helper, Share

# How long after its end a link still takes what was made before; it is held for the grower.
TAKEN_LATER = timedelta(days=14)


class NoSuchGarden(Exception):
    """The garden does not exist or is not the account's; the asker never learns which."""


class ShareEnded(Exception):
    """The link that let the asker in has ended."""


class Forbidden(Exception):
    """The asker's role does not allow it."""


@dataclass(frozen=True)
class Asker:
    """Who asks, from which device, and when."""

    account: Any
    device: UUID | None
    now: datetime


@dataclass(frozen=True)
class Access:
    """A role in a garden and how long it lasts; ``name`` is what others there read."""

    role: str
    name: str
    expires_at: datetime | None = None
    ended_at: datetime | None = None
    # Until then a change is taken to be held; None for an owner and a link without an end.
    push_until: datetime | None = None
    refuses_later: bool = False

    @property
    def is_live(self) -> bool:
        return self.ended_at is None

    def takes_later(self, now: datetime) -> bool:
        """Tell whether what was made before the end is still taken."""
        is_in_time = self.push_until is not None and now < self.push_until
        return not self.is_live and not self.refuses_later and is_in_time

    def may(self, deed: str, kind: str | None = None) -> bool:
        """Tell whether the role allows it, ended or not."""
        return roles.may(self.role, deed, kind)


def access_to(garden: Garden, asker: Asker) -> Access | None:
    """Return what the asker may do in a garden; None when it is none of theirs."""
    if garden.owner_id == asker.account.pk:
        return Access(roles.OWNER, asker.account.get_username())
    mine = Helper.objects.filter(share__garden=garden, account_id=asker.account.pk)
    return _strongest(mine.select_related("share").order_by("joined_at"), asker)


def access_to_all(asker: Asker) -> dict[UUID, tuple[Garden, Access]]:
    """Return every garden of the asker by id, with what may be done in it."""
    owned = Garden.objects.filter(owner_id=asker.account.pk)
    found = {each.id: (each, Access(roles.OWNER, asker.account.get_username())) for each in owned}
    by_garden: dict[UUID, list[Helper]] = {}
    mine = Helper.objects.filter(account_id=asker.account.pk).order_by("joined_at")
    for helper in mine.select_related("share__garden"):
        by_garden.setdefault(helper.share.garden_id, []).append(helper)
    for garden_id, helpers in by_garden.items():
        access = _strongest(helpers, asker)
        if garden_id not in found and access is not None:
            found[garden_id] = (helpers[0].share.garden, access)
    return dict(sorted(found.items()))


def find_garden(garden_id: UUID, asker: Asker, deed: str = "see") -> tuple[Garden, Access]:
    """Return a garden for a deed, with what else may be done in it.

    Raises ``NoSuchGarden``, ``ShareEnded`` or ``Forbidden``.
    """
    garden = Garden.objects.filter(id=garden_id).first()
    access = None if garden is None else access_to(garden, asker)
    if garden is None or access is None:
        raise NoSuchGarden
    if not access.is_live:
        raise ShareEnded
    if not access.may(deed):
        raise Forbidden
    return garden, access


def has_ended(share: Share, now: datetime) -> bool:
    """Tell whether a link lets nobody in any more."""
    return _is_past(_end(share, None), now)


def _strongest(helpers: Iterable[Helper], asker: Asker) -> Access | None:
    """Of several links the strongest that lives; with none, the one that takes most longest."""
    every = list(helpers)
    # A phone that came in by a link stands and falls with it; another of the same person's
    # phones may look through any of them.
    mine = [one for one in every if one.device == asker.device] or every
    told = [_access_of(one, asker.now) for one in mine]
    live = [one for one in told if one.is_live]
    if live:
        return max(live, key=lambda one: (roles.ROLES.index(one.role), one.expires_at is None))
    return max(told, key=lambda one: (one.takes_later(asker.now), one.push_until), default=None)


def _access_of(helper: Helper, now: datetime) -> Access:
    share, end = helper.share, _end(helper.share, helper)
    return Access(
        role=share.role,
        name=helper.name,
        expires_at=share.expires_at,
        ended_at=end if _is_past(end, now) else None,
        push_until=None if end is None else end + TAKEN_LATER,
        refuses_later=share.refuses_later or helper.refuses_later,
    )


def _end(share: Share, helper: Helper | None) -> datetime | None:
    """When a link ends or ended, whichever end comes first."""
    ends = [share.expires_at, share.ended_at, helper.ended_at if helper else None]
    return min((end for end in ends if end is not None), default=None)


def _is_past(end: datetime | None, now: datetime) -> bool:
    return end is not None and end <= now
