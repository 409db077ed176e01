"""The phones of an account: their names, when they were seen, and ending their sessions.

Not for which garden a phone may see: that is asked of its account and its link.
"""

from datetime import datetime
from typing import Any
from uuid import UUID

from django.contrib.sessions.models import Session
from django.db import transaction
from django.utils import timezone

from gardens.models import Device, Helper
from gardens.services.turns import in_turn


class NoSuchDevice(Exception):
    """The account has no such phone that is signed in."""


def remember_device(*, account: Any, device: UUID, name: str) -> None:
    """Keep the name its owner gives a phone."""
    Device.objects.update_or_create(account=account, device=device, defaults={"name": name})


@transaction.atomic
def take_session(*, account: Any, device: UUID, name: str, session_key: str) -> None:
    """Make this the one session of a phone; the one it had before ends."""
    known = Device.objects.filter(account=account, device=device).first()
    if known is not None and known.session_key != session_key:
        _forget_session(known.session_key)
    news = {"name": name, "session_key": session_key, "last_seen_at": timezone.now()}
    Device.objects.update_or_create(account=account, device=device, defaults=news)


def note_seen(*, account: Any, device: UUID, session_key: str, now: datetime) -> None:
    """Remember when a phone was last here. Callers ask at most once a minute."""
    mine = {"account": account, "device": device}
    with in_turn(briefly=True):
        Device.objects.filter(**mine).update(last_seen_at=now, session_key=session_key)
        Helper.objects.filter(**mine).update(last_seen_at=now)


def note_signed_out(*, account: Any, device: UUID) -> None:
    """Remember that a phone has signed out by itself."""
    Device.objects.filter(account=account, device=device).update(session_key="")


@transaction.atomic
def end_device(*, account: Any, device: UUID) -> None:
    """End a phone's session; what waits there can be sent after signing in again.

    Raises ``NoSuchDevice``.
    """
    known = Device.objects.filter(account=account, device=device).exclude(session_key="").first()
    if known is None:
        raise NoSuchDevice
    _forget_session(known.session_key)
    known.session_key = ""
    known.save(update_fields=["session_key"])


def _forget_session(key: str) -> None:
    Session.objects.filter(session_key=key).delete()
