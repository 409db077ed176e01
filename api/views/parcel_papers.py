"""The papers of a parcel and of a pot test: labels, packing slip, the sheet of the pots."""

from datetime import UTC, datetime
from uuid import UUID

from django.http import HttpResponse
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.serializers import LabelSheetSerializer
from api.sync.protocol import read_number
from api.views.describe import answers
from api.views.sheets import PDF, Printed, Sheet, id_asked, origin_of, paper_asked, samples_asked
from api.views.sync import own_garden
from gardens.models import Garden
from gardens.selectors import sheets as gather
from gardens.sheets.label_sheets import label_sheet, sheets_told
from gardens.sheets.labels import labels
from gardens.sheets.packing_slip import packing_slip
from gardens.sheets.pots_sheet import pots_sheet
from gardens.sheets.values import Submission

MOST_LABELS = 200


class LabelSheets(APIView):
    """The sheets of labels that can be printed on."""

    @answers(LabelSheetSerializer(many=True), 401, 404)
    def get(self, request: Request, garden: UUID) -> Response:
        own_garden(request, garden)
        return Response(sheets_told())


class Labels(Sheet):
    """A label for each bag."""

    @answers(PDF, 400, 401, 404, 422, query=("samples", "sheet", "first"))
    def get(self, request: Request, garden: UUID) -> HttpResponse:
        found, ids = own_garden(request, garden), samples_asked(request)
        sheet = request.query_params.get("sheet", "")
        first = read_number(request.query_params.get("first"), "first", 1, 1, MOST_LABELS)

        def printed() -> Printed:
            parcel = parcel_of(request, found, ids)
            return f"labels-{codes_of(parcel)}", labels(parcel, label_sheet(sheet), first)

        return self.send(printed)


class PackingSlip(Sheet):
    """The slip that lies on top in the parcel."""

    @answers(PDF, 400, 401, 404, 422, query=("samples", "paper"))
    def get(self, request: Request, garden: UUID) -> HttpResponse:
        found, ids = own_garden(request, garden), samples_asked(request)
        paper = paper_asked(request)

        def printed() -> Printed:
            parcel = parcel_of(request, found, ids)
            return f"packing-slip-{codes_of(parcel)}", packing_slip(parcel, paper)

        return self.send(printed)


class PotsPaper(Sheet):
    """How to set up a pot test, and a line for each pot."""

    @answers(PDF, 400, 401, 404, 422, query=("planting", "paper"))
    def get(self, request: Request, garden: UUID) -> HttpResponse:
        found, paper = own_garden(request, garden), paper_asked(request)
        planting = id_asked(request, "planting")

        def printed() -> Printed:
            values = gather.gather_pots_sheet(found, planting, origin=origin_of(request))
            return f"pots-{values.sown_on.isoformat()}", pots_sheet(values, paper)

        return self.send(printed)


def parcel_of(request: Request, garden: Garden, ids: list[UUID]) -> Submission:
    """Return the parcel that was asked for."""
    return gather.gather_submission(garden, ids, origin=origin_of(request), now=datetime.now(UTC))


def codes_of(parcel: Submission) -> str:
    """Return the codes of the first bags, for the name of a file."""
    return "-".join(sample.code for sample in parcel.samples[:3])
