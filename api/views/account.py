"""Signing in, pairing a phone, signing out, and who I am."""

from typing import Any

from django.contrib.auth import logout
from django.middleware.csrf import get_token
from django.utils import timezone
from rest_framework.permissions import AllowAny
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.authentication import (
    address_of,
    asker_of,
    check_origin,
    device_id,
    device_of,
    open_session,
)
from api.errors import Problem
from api.serializers import (
    LoginSerializer,
    MeSerializer,
    MetaSerializer,
    PairingSerializer,
    PairSerializer,
    SessionSerializer,
)
from api.sync.protocol import limits
from api.views.describe import answers
from gardens.selectors.gardens import list_gardens
from gardens.selectors.names import is_made_by_link, own_name
from gardens.services import pairing
from gardens.services.accounts import WINDOW, TooManyTries, known_as, sign_in
from gardens.services.devices import note_signed_out
from gardens.services.shares import LinkFull


def session_answer(request: Request) -> dict[str, Any]:
    """Return what a phone needs to know about its session."""
    named = known_as(request.user)
    return {
        "account": {
            "id": str(named.name),
            "username": own_name(request.user, named),
            "is_helper": is_made_by_link(named),
        },
        "csrf": get_token(request._request),
        "device": device_of(request),
    }


class Meta(APIView):
    """What this server speaks and how much it takes at once."""

    authentication_classes = ()
    permission_classes = (AllowAny,)

    @answers(MetaSerializer)
    def get(self, request: Request) -> Response:
        return Response({**limits(), "server_time": timezone.now()})


class Entrance(APIView):
    """What signing in and pairing share: a body in, a session out, guessing made slow."""

    authentication_classes = ()
    permission_classes = (AllowAny,)
    shape: Any
    refusal: str

    def account(self, request: Request, given: dict[str, Any]) -> Any | None:
        raise NotImplementedError

    def enter(self, request: Request) -> Response:
        check_origin(request._request)
        body = self.shape(data=request.data)
        body.is_valid(raise_exception=True)
        given = body.validated_data
        try:
            account = self.account(request, given)
        except TooManyTries:
            raise Problem("slow_down", retry_after=int(WINDOW.total_seconds())) from None
        except LinkFull:
            raise Problem("link_full") from None
        if account is None:
            raise Problem(self.refusal)
        open_session(request, account, given["device"], given["device_name"])
        request.user = account
        return Response(session_answer(request))


class Login(Entrance):
    """Sign in with a name and a password."""

    shape = LoginSerializer
    refusal = "login_wrong"

    def account(self, request: Request, given: dict[str, Any]) -> Any | None:
        return sign_in(
            username=given["username"], password=given["password"], address=address_of(request)
        )

    @answers(SessionSerializer, 400, 401, 403, 429, request=LoginSerializer)
    def post(self, request: Request) -> Response:
        return self.enter(request)


class Pair(Entrance):
    """Sign in with a secret that was scanned or six digits that were typed."""

    shape = PairSerializer
    refusal = "pair_token_ended"

    def account(self, request: Request, given: dict[str, Any]) -> Any | None:
        return pairing.pair(
            device=given["device"],
            address=address_of(request),
            token=given.get("token"),
            code=given.get("code"),
        )

    @answers(SessionSerializer, 400, 403, 429, request=PairSerializer)
    def post(self, request: Request) -> Response:
        return self.enter(request)


class Pairings(APIView):
    """Make a pairing code for one more phone."""

    @answers(PairingSerializer, 401, 403)
    def post(self, request: Request) -> Response:
        token = pairing.mint_token(request.user)
        return Response(
            {
                "token": token,
                # In the fragment, so that it reaches no server log and no Referer.
                "url": f"{request.build_absolute_uri('/pair')}#{token}",
                "expires_at": timezone.now() + pairing.LIFETIME,
            }
        )


class Logout(APIView):
    """End this session; what the phone holds is the phone's business."""

    @answers(None, 401, 403, status=204)
    def post(self, request: Request) -> Response:
        device = device_id(request)
        if device is not None:
            note_signed_out(account=request.user, device=device)
        logout(request._request)
        return Response(status=204)


class Me(APIView):
    """Who is signed in here, the token for changes, and the gardens with their marks."""

    @answers(MeSerializer, 401)
    def get(self, request: Request) -> Response:
        gardens = list_gardens(asker_of(request))
        return Response({**session_answer(request), "gardens": gardens})
