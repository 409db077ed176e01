"""Who changed a record."""

from uuid import UUID

from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.admission import garden_for
from api.errors import Problem
from api.serializers import HistorySerializer
from api.sync.protocol import read_number
from api.views.describe import answers
from gardens.domain.fields import Refusal, identifier
from gardens.selectors.history import history_of


class History(APIView):
    """The changes of one record, newest first, a page at a time."""

    @answers(HistorySerializer, 400, 401, 403, 404, query=("record", "before"))
    def get(self, request: Request, garden: UUID) -> Response:
        found = garden_for(request, garden, "history")
        asked = request.query_params
        before = None
        if "before" in asked:
            before = read_number(asked["before"], "before", 0, 0, 2**59)
        try:
            record = UUID(str(identifier(asked.get("record"))))
        except Refusal:
            raise Problem("bad_request", field="record") from None
        told = history_of(found, record, before)
        return Response(told, headers={"Cache-Control": "private, no-cache"})
