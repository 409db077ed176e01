"""A lab's own form: what it asks for, and the form filled for a parcel."""

from datetime import UTC, datetime
from typing import Any
from uuid import UUID

from django.http import HttpResponse
from rest_framework.parsers import BaseParser
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.serializers import FormReadSerializer
from api.views.describe import BINARY, answers
from api.views.papers import pdf_in
from api.views.parcel_papers import codes_of
from api.views.sheets import PDF, Printed, Sheet, origin_of, refuse, samples_asked
from api.views.sync import own_garden
from gardens.domain.errors import DomainError
from gardens.selectors import sheets as gather
from gardens.sheets.form_fill import fill_form
from gardens.sheets.form_read import read_form


class PdfParser(BaseParser):
    """Reads a PDF as it came, never more of it than a paper may have."""

    media_type = "application/pdf"

    def parse(self, stream: Any, media_type: Any = None, parser_context: Any = None) -> bytes:
        return pdf_in(stream)


class FormFields(APIView):
    """The fields of a PDF; nothing is kept."""

    parser_classes = [PdfParser]

    @answers(FormReadSerializer, 401, 403, 404, 413, 422, request={"application/pdf": BINARY})
    def post(self, request: Request, garden: UUID) -> Response:
        own_garden(request, garden)
        try:
            told = read_form(request.data)
        except DomainError as error:
            refuse(error)
        return Response(told)


class LabForm(Sheet):
    """The form of the samples' lab, filled."""

    @answers(PDF, 400, 401, 404, 422, query=("samples",))
    def get(self, request: Request, garden: UUID) -> HttpResponse:
        found, ids = own_garden(request, garden), samples_asked(request)

        def printed() -> Printed:
            pdf, form, parcel = gather.gather_filled_form(
                found, ids, origin=origin_of(request), now=datetime.now(UTC)
            )
            return f"lab-form-{codes_of(parcel)}", fill_form(pdf, form, parcel)

        return self.send(printed)
