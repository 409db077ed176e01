"""The phones of the account that asks, and six digits for one more."""

from uuid import UUID

from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.authentication import device_id
from api.errors import Problem
from api.serializers import CodeSerializer, DeviceSerializer
from api.views.describe import answers
from gardens.selectors.devices import list_devices
from gardens.services import codes, devices

UNSTORED = {"Cache-Control": "private, no-store"}


class Devices(APIView):
    """The phones and computers that are signed in."""

    @answers(DeviceSerializer(many=True), 401)
    def get(self, request: Request) -> Response:
        return Response(list_devices(request.user, device_id(request)), headers=UNSTORED)


class OneDevice(APIView):
    """One of them; ending it ends its session, and nothing it has sent is touched."""

    @answers(None, 401, 403, 404, status=204)
    def delete(self, request: Request, device: UUID) -> Response:
        try:
            devices.end_device(account=request.user, device=device)
        except devices.NoSuchDevice:
            raise Problem("not_found") from None
        return Response(status=204)


class Codes(APIView):
    """Make six digits for the app that was just put on the home screen."""

    @answers(CodeSerializer, 401, 403)
    def post(self, request: Request) -> Response:
        code, expires_at = codes.make_code(request.user)
        return Response({"code": code, "expires_at": expires_at}, headers=UNSTORED)
