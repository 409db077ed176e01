"""Letting a request into a garden: one answer for everybody who may not.

Not for who may do what: ``gardens.selectors.access`` knows.
"""

from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request

from api.authentication import asker_of
from api.errors import Problem
from gardens.models import Garden
from gardens.selectors.access import (
    Access,
    Forbidden,
    NoSuchGarden,
    ShareEnded,
    access_to,
    find_garden,
)
from gardens.services.limits import SlowDown, spend

REFUSALS: dict[type[Exception], str] = {
    NoSuchGarden: "not_found",
    ShareEnded: "share_ended",
    Forbidden: "forbidden",
}


def garden_for(request: Request, garden: UUID, deed: str = "see") -> Garden:
    """Return the garden for a deed (see ``gardens.domain.roles``), or refuse.

    An unknown garden and somebody else's get the same 404.
    """
    return admitted(request, garden, deed)[0]


def admitted(request: Request, garden: UUID, deed: str = "see") -> tuple[Garden, Access]:
    """Return the same together with what else may be done there."""
    try:
        return find_garden(garden, asker_of(request), deed)
    except tuple(REFUSALS) as refusal:
        raise Problem(REFUSALS[type(refusal)]) from None


def garden_sent_to(request: Request, garden: UUID, deed: str = "see") -> Garden:
    """Return the garden also when the link has ended but what was made before is still taken."""
    asker = asker_of(request)
    found = Garden.objects.filter(id=garden).first()
    access = None if found is None else access_to(found, asker)
    if found is None or access is None:
        raise Problem("not_found")
    if not access.is_live and not access.takes_later(asker.now):
        raise Problem("share_ended")
    if not access.may(deed):
        raise Problem("forbidden")
    return found


def spend_allowance(deed: str, subject: UUID, amount: int) -> None:
    """Count what is limited (see ``gardens.services.limits``), or refuse with ``slow_down``."""
    try:
        spend(deed=deed, subject=subject, amount=amount, now=timezone.now())
    except SlowDown as slow:
        raise Problem("slow_down", retry_after=slow.wait_s) from None
