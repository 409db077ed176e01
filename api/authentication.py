"""Who is asking: a session bound to one device, and the CSRF token it has to bring.

A device has one session, and its row knows which, so that another phone can end it.

Not for checking passwords: see ``gardens.services.accounts``.
"""

from ipaddress import ip_address
from typing import Any
from uuid import UUID

from django.conf import settings
from django.contrib.auth import login
from django.http import HttpRequest, QueryDict
from django.utils import timezone
from django.utils.datastructures import MultiValueDict
from drf_spectacular.extensions import OpenApiAuthenticationExtension
from rest_framework.authentication import CSRFCheck, SessionAuthentication
from rest_framework.request import Request

from api.errors import Problem
from gardens.selectors.access import Asker
from gardens.services.devices import note_seen, take_session


class PhoneSession(SessionAuthentication):
    """Django's session, sliding by days, with our problem documents."""

    def authenticate(self, request: Request) -> tuple[Any, None] | None:
        found = super().authenticate(request)
        if found is not None:
            _slide(request, found[0])
        return found

    def authenticate_header(self, request: Request) -> str:
        return "Session"

    def enforce_csrf(self, request: Request) -> None:
        check, plain = CSRFCheck(lambda _: None), request._request
        # The token comes in the header. Looking for it in a form would read the body, of any kind.
        plain._post, plain._files = QueryDict(), MultiValueDict()
        check.process_request(plain)
        if check.process_view(plain, None, (), {}):
            check_origin(request)
            raise Problem("csrf")


class PhoneSessionInOpenApi(OpenApiAuthenticationExtension):  # type: ignore[no-untyped-call]
    """Tells ``openapi.yaml`` about the session cookie."""

    target_class = "api.authentication.PhoneSession"
    name = "session"

    def get_security_definition(self, auto_schema: Any) -> dict[str, str]:
        return {"type": "apiKey", "in": "cookie", "name": "knotbed-session"}


def _slide(request: Request, account: Any) -> None:
    """Move the session's end once a day, and note when the device was seen once a minute."""
    now = timezone.now()
    minute, today = now.strftime("%Y-%m-%dT%H:%M"), now.date().isoformat()
    if request.session.get("seen_on") != today:
        request.session["seen_on"] = today
        request.session.set_expiry(settings.SESSION_COOKIE_AGE)
    if request.session.get("seen_at") != minute:
        request.session["seen_at"] = minute
        device = device_id(request)
        if device is not None:
            key = request.session.session_key
            note_seen(account=account, device=device, session_key=key, now=now)


def check_origin(request: HttpRequest) -> None:
    """Raise ``wrong_origin`` when the browser is at another address than the server was told.

    Mostly that is a web server in front that keeps the name or the https to itself.
    """
    check = CSRFCheck(lambda _: None)
    if "Origin" in request.headers and not check._origin_verified(request):
        raise Problem("wrong_origin")


def open_session(request: Request, account: Any, device: UUID, device_name: str) -> None:
    """Sign the account in on this device; a session it had there before ends."""
    login(request._request, account, backend="django.contrib.auth.backends.ModelBackend")
    now = timezone.now()
    request.session["device"] = str(device)
    request.session["seen_on"] = now.date().isoformat()
    request.session["seen_at"] = now.strftime("%Y-%m-%dT%H:%M")
    request.session.save()
    key = request.session.session_key
    take_session(account=account, device=device, name=device_name, session_key=key)


def device_of(request: Request) -> str:
    """Return the device this session belongs to."""
    return str(request.session.get("device", ""))


def device_id(request: Request) -> UUID | None:
    """Return the same as an id; None for a session that belongs to none."""
    text = device_of(request)
    return UUID(text) if text else None


def asker_of(request: Request) -> Asker:
    """Return who asks: the account, on this session's device, now."""
    return Asker(request.user, device_id(request), timezone.now())


def address_of(request: Request) -> str | None:
    """Return the network address the request came from.

    With https a web server stands in front, and only the entry it wrote itself, the last one,
    cannot have been made up by whoever asks.
    """
    address = request.META.get("REMOTE_ADDR", "")
    if settings.HTTPS:
        address = request.headers.get("X-Forwarded-For", address).split(",")[-1].strip()
    try:
        return str(ip_address(address))
    except ValueError:
        return None
