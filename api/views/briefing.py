"""What is known of a garden: one answer for one day."""

from datetime import date
from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.briefed import BriefedSerializer
from api.errors import Problem
from api.views.describe import answers
from api.views.sync import own_garden
from gardens.domain.fields import Refusal, day
from gardens.selectors.briefing import brief


class Briefing(APIView):
    """What is known of each bed, how surely, and what to do next and by when."""

    @answers(BriefedSerializer, 400, 401, 404, query=("today",))
    def get(self, request: Request, garden: UUID) -> Response:
        # The mark is read first: a change that lands meanwhile is in the answer, never missed.
        found, today = own_garden(request, garden), day_asked(request)
        answer = {"head": found.mark, "briefing": brief(found, today)}
        return Response(answer, headers={"Cache-Control": "private, no-cache"})


def day_asked(request: Request) -> str:
    """Return the day asked for; the server's own, in UTC, when none is."""
    asked = request.query_params.get("today")
    if asked is None:
        return date.isoformat(timezone.now().date())
    try:
        return str(day(asked))
    except Refusal:
        raise Problem("bad_request", field="today") from None
