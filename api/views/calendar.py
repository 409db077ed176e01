"""The calendar of what is due: a secret address for a program, and a file to import."""

from datetime import datetime
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.views import View
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.calendar_file import CONTENT_TYPE, calendar_file
from api.errors import Problem, problem_response
from api.serializers import CalendarAddressSerializer, CalendarMadeSerializer
from api.views.describe import BINARY, answers
from api.views.sync import own_garden
from gardens.selectors.calendars import Event, due_for, due_in, made_at, owner_of
from gardens.services.calendars import end_address, make_address

NAME = "Knotbed: due in the garden"


class CalendarAddress(APIView):
    """Whether there is an address, a new one, and its end."""

    @answers(CalendarMadeSerializer, 401)
    def get(self, request: Request) -> Response:
        return Response({"made_at": made_at(request.user)})

    @answers({201: CalendarAddressSerializer}, 401, 403)
    def post(self, request: Request) -> Response:
        secret = make_address(account=request.user, now=timezone.now())
        return Response({"url": request.build_absolute_uri(f"/calendar/{secret}.ics")}, 201)

    @answers(None, 401, 403, status=204)
    def delete(self, request: Request) -> Response:
        end_address(account=request.user)
        return Response(status=204)


class CalendarFeed(View):
    """What a calendar program reads; whoever has the address may, and nothing else is theirs."""

    def get(self, request: HttpRequest, secret: str) -> HttpResponse:
        account, now = owner_of(secret), timezone.now()
        if account is None:
            return problem_response(Problem("not_found"))
        return _file(request, due_for(account, now), now)


class GardenCalendar(APIView):
    """The things due in one garden as a file to import."""

    @answers({(200, "text/calendar"): BINARY}, 401, 404)
    def get(self, request: Request, garden: UUID) -> HttpResponse:
        found, now = own_garden(request, garden), timezone.now()
        answer = _file(request._request, due_in(found, now), now)
        answer.headers["Content-Disposition"] = 'attachment; filename="due.ics"'
        return answer


def _file(request: HttpRequest, events: list[Event], now: datetime) -> HttpResponse:
    origin = request.build_absolute_uri("/").rstrip("/")
    content = calendar_file(events, name=NAME, origin=origin, today=now.date())
    headers = {"Cache-Control": "private, no-store", "X-Robots-Tag": "noindex"}
    return HttpResponse(content, content_type=CONTENT_TYPE, headers=headers)
