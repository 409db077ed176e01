"""One question of a grower, answered from a garden's records and the reference tables."""

from uuid import UUID

from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.admission import admitted
from api.briefed import AnswerSerializer
from api.errors import Problem
from api.views.briefing import day_asked
from api.views.describe import answers
from gardens.domain.errors import DomainError
from gardens.selectors.answers import answer


class Answers(APIView):
    """What was typed stands in the query string, by the names of the question's boxes."""

    @answers(AnswerSerializer, 400, 401, 403, 404, query=("today",))
    def get(self, request: Request, garden: UUID, question: str) -> Response:
        found, access = admitted(request, garden)
        today = day_asked(request, found)
        typed = {name: text for name, text in request.query_params.items() if name != "today"}
        try:
            told = answer(found, question, typed, today, access.role)
        except DomainError:
            raise Problem("not_found") from None
        return Response(told, headers={"Cache-Control": "private, no-cache"})
