"""The printed sheets: gather, print, send as PDF."""

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Literal, NoReturn
from uuid import UUID

from django.http import HttpResponse
from django.utils.text import slugify
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.errors import Problem
from api.serializers import BlanksSerializer
from api.views.describe import BINARY, answers
from api.views.sync import own_garden
from gardens.domain.composites import GALL_SCALES
from gardens.domain.errors import DomainError
from gardens.selectors import sheets as gather
from gardens.sheets.bed_map import bed_map
from gardens.sheets.blanks import blanks
from gardens.sheets.rating_form import rating_form
from gardens.sheets.submission import submission_sheet

MOST_SAMPLES = 40
PDF = {(200, "application/pdf"): BINARY}
Printed = tuple[str, bytes]


class Sheet(APIView):
    """What the sheets share: the paper, the refusals and the answer."""

    def send(self, printed: Callable[[], Printed]) -> HttpResponse:
        try:
            name, pdf = printed()
        except DomainError as error:
            refuse(error)
        return HttpResponse(
            pdf,
            content_type="application/pdf",
            headers={
                "Content-Disposition": f'inline; filename="{name}.pdf"',
                "Cache-Control": "private, no-cache",
            },
        )


class SubmissionSheet(Sheet):
    """The sheet that goes into the parcel, one page for each bag."""

    @answers(PDF, 400, 401, 404, 422, query=("samples", "paper"))
    def get(self, request: Request, garden: UUID) -> HttpResponse:
        found, paper = own_garden(request, garden), paper_asked(request)
        ids = samples_asked(request)

        def printed() -> Printed:
            parcel = gather.gather_submission(
                found, ids, origin=origin_of(request), now=datetime.now(UTC)
            )
            codes = "-".join(sample.code for sample in parcel.samples[:3])
            return f"submission-{codes}", submission_sheet(parcel, paper)

        return self.send(printed)


class SubmissionBlanks(APIView):
    """Which lines of that sheet would print empty."""

    @answers(BlanksSerializer, 400, 401, 404, 422, query=("samples",))
    def get(self, request: Request, garden: UUID) -> Response:
        found, ids = own_garden(request, garden), samples_asked(request)
        try:
            parcel = gather.gather_submission(
                found, ids, origin=origin_of(request), now=datetime.now(UTC)
            )
        except DomainError as error:
            refuse(error)
        told = blanks(parcel, [str(each) for each in ids])
        return Response(told, headers={"Cache-Control": "private, no-cache"})


class BedMapSheet(Sheet):
    """The map of one root check."""

    @answers(PDF, 400, 401, 404, 422, query=("root_check", "paper"))
    def get(self, request: Request, garden: UUID) -> HttpResponse:
        found, paper = own_garden(request, garden), paper_asked(request)
        check = id_asked(request, "root_check")

        def printed() -> Printed:
            values = gather.gather_bed_map(found, check, origin=origin_of(request))
            name = f"bed-map-{_slug(values.bed_name)}-{values.checked_on.isoformat()}"
            return name, bed_map(values, paper)

        return self.send(printed)


class RatingFormSheet(Sheet):
    """The blank form to rate one planting on paper."""

    @answers(PDF, 400, 401, 404, 422, query=("planting", "scale", "paper"))
    def get(self, request: Request, garden: UUID) -> HttpResponse:
        found, paper = own_garden(request, garden), paper_asked(request)
        planting = id_asked(request, "planting")
        scale = request.query_params.get("scale", "pct10")
        if scale not in GALL_SCALES:
            raise Problem("bad_request", field="scale", choices=list(GALL_SCALES))

        def printed() -> Printed:
            values = gather.gather_rating_form(found, planting, scale)
            return f"rating-form-{_slug(values.bed_name)}", rating_form(values, paper)

        return self.send(printed)


def paper_asked(request: Request) -> Literal["a4", "letter"]:
    """Return the paper to print on; A4 unless Letter is asked for."""
    paper = request.query_params.get("paper", "a4")
    if paper not in ("a4", "letter"):
        raise Problem("bad_request", field="paper", choices=["a4", "letter"])
    return "letter" if paper == "letter" else "a4"


def samples_asked(request: Request) -> list[UUID]:
    """Return the ids of the samples to print, each once."""
    ids = [_id(each, "samples") for each in request.query_params.get("samples", "").split(",")]
    if len(ids) > MOST_SAMPLES:
        raise Problem("bad_request", field="samples", max=MOST_SAMPLES)
    return list(dict.fromkeys(ids))


def id_asked(request: Request, name: str) -> UUID:
    """Return the id of the record to print."""
    return _id(request.query_params.get(name, ""), name)


def _id(text: str, name: str) -> UUID:
    try:
        return UUID(text)
    except ValueError:
        raise Problem("bad_request", field=name) from None


def origin_of(request: Request) -> str:
    """Return the address the QR codes begin with."""
    return str(request.build_absolute_uri("/")).rstrip("/")


def _slug(name: str) -> str:
    return slugify(name)[:40] or "bed"


def refuse(error: DomainError) -> NoReturn:
    """Turn what the core will not do into a problem."""
    params = dict(error.params)
    field = params.pop("field", None)
    raise Problem(error.code, field=None if field is None else str(field), **params) from None
