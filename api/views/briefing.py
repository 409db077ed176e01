"""What is known of a garden: one answer for one day."""

from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.admission import admitted
from api.briefed import BriefedSerializer
from api.errors import Problem
from api.views.describe import answers
from gardens.domain.fields import Refusal, day
from gardens.models import Garden
from gardens.selectors.briefing import brief
from gardens.selectors.gardens import today_in


class Briefing(APIView):
    """What is known of each bed, how surely, and what to do next and by when."""

    @answers(BriefedSerializer, 400, 401, 403, 404, query=("today",))
    def get(self, request: Request, garden: UUID) -> Response:
        # The mark is read first: a change that lands meanwhile is in the answer, never missed.
        found, access = admitted(request, garden)
        today = day_asked(request, found)
        answer = {"head": found.mark, "briefing": brief(found, today, access.role)}
        return Response(answer, headers={"Cache-Control": "private, no-cache"})


def day_asked(request: Request, garden: Garden) -> str:
    """Return the day asked for; the one on the garden's clock when none is."""
    asked = request.query_params.get("today")
    if asked is None:
        return today_in(garden, timezone.now())
    try:
        return str(day(asked))
    except Refusal:
        raise Problem("bad_request", field="today") from None
