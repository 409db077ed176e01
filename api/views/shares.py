"""Links for helpers: the owner's list, making one, ending one, and coming in by one."""

from collections.abc import Callable
from typing import Any
from uuid import UUID

from rest_framework.permissions import AllowAny
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.admission import garden_for
from api.authentication import address_of, check_origin, device_of, open_session
from api.errors import Problem
from api.serializers import (
    JoinedSerializer,
    JoinSerializer,
    ShareMadeSerializer,
    ShareSerializer,
    ShareWantedSerializer,
)
from api.views.account import session_answer
from api.views.describe import answers
from gardens.selectors.gardens import name_of_garden
from gardens.selectors.shares import list_shares, told_share
from gardens.services import shares
from gardens.services.accounts import WINDOW, TooManyTries


class Shares(APIView):
    """The links of a garden."""

    @answers(ShareSerializer(many=True), 401, 403, 404)
    def get(self, request: Request, garden: UUID) -> Response:
        told = list_shares(garden_for(request, garden, "links"))
        return Response(told, headers={"Cache-Control": "private, no-store"})

    @answers(ShareMadeSerializer, 400, 401, 403, 404, request=ShareWantedSerializer, status=201)
    def post(self, request: Request, garden: UUID) -> Response:
        found = garden_for(request, garden, "links")
        body = ShareWantedSerializer(data=request.data)
        body.is_valid(raise_exception=True)
        made = shares.make_share(garden=found, account=request.user, **body.validated_data)
        # In the fragment, so that it reaches no server log and no Referer.
        url = f"{request.build_absolute_uri('/join')}#{made.secret}"
        told = {**told_share(made.share, {}), "url": url}
        return Response(told, 201, headers={"Cache-Control": "private, no-store"})


class OneShare(APIView):
    """One link; what its helpers made before the end is held, or refused when asked to."""

    @answers(None, 400, 401, 403, 404, query=("refuse_later",), status=204)
    def delete(self, request: Request, garden: UUID, share: UUID) -> Response:
        found = garden_for(request, garden, "links")
        refuse_later = refusal_asked(request)
        return _ended(
            lambda: shares.end_share(garden_id=found.id, share_id=share, refuse_later=refuse_later)
        )


class OneHelper(APIView):
    """One phone that came in by a link."""

    @answers(None, 400, 401, 403, 404, query=("refuse_later",), status=204)
    def delete(self, request: Request, garden: UUID, helper: UUID) -> Response:
        found = garden_for(request, garden, "links")
        refuse_later = refusal_asked(request)
        return _ended(
            lambda: shares.end_helper(
                garden_id=found.id, helper_id=helper, refuse_later=refuse_later
            )
        )


class Join(APIView):
    """Come in by a link; only a POST does, since what makes previews of links only GETs."""

    permission_classes = (AllowAny,)

    @answers(JoinedSerializer, 400, 403, 429, request=JoinSerializer)
    def post(self, request: Request) -> Response:
        check_origin(request._request)
        body = JoinSerializer(data=request.data)
        body.is_valid(raise_exception=True)
        given = body.validated_data
        account = request.user if request.user.is_authenticated else None
        if account is not None and str(given["device"]) != device_of(request):
            raise Problem("device_mismatch")
        joined = self._join(request, account, given)
        if account is None:
            open_session(request, joined.account, given["device"], given["device_name"])
            request.user = joined.account
        return Response(
            {
                **session_answer(request),
                "garden": str(joined.garden.id),
                "garden_name": name_of_garden(joined.garden),
                "role": joined.access.role,
            }
        )

    def _join(self, request: Request, account: Any | None, given: dict[str, Any]) -> shares.Joined:
        try:
            return shares.join(
                secret=given["token"],
                account=account,
                device=given["device"],
                name=given["name"],
                address=address_of(request),
            )
        except TooManyTries:
            raise Problem("slow_down", retry_after=int(WINDOW.total_seconds())) from None
        except shares.LinkEnded:
            raise Problem("link_ended") from None
        except shares.LinkFull:
            raise Problem("link_full") from None


def refusal_asked(request: Request) -> bool:
    """Return whether what comes later is to be refused; it is held unless asked otherwise."""
    asked = request.query_params.get("refuse_later", "0")
    if asked not in ("0", "1"):
        raise Problem("bad_request", field="refuse_later", choices=["0", "1"])
    return asked == "1"


def _ended(end: Callable[[], None]) -> Response:
    try:
        end()
    except shares.NoSuchShare:
        raise Problem("not_found") from None
    return Response(status=204)
