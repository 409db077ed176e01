"""The bytes of papers (PDF), under their hash: kept as they came, handed out as a download."""

from typing import Any, BinaryIO
from uuid import UUID

from django.http import FileResponse
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.admission import garden_for, garden_sent_to, spend_allowance
from api.errors import Problem
from api.serializers import PaperStoredSerializer
from api.views.describe import BINARY, answers
from gardens.domain.lab_kinds import MOST_PAPER_BYTES
from gardens.photo_store.door import paper_name, photo_store
from gardens.photo_store.refusals import StoreAway, StoreFull
from gardens.selectors.papers import find_papers
from gardens.services import papers, photos

REFUSALS: dict[type[Exception], str] = {
    papers.NoPaperRecord: "no_paper_record",
    papers.NotPdf: "not_pdf",
    photos.HashMismatch: "hash_mismatch",
    StoreFull: "server_full",
    StoreAway: "photos_away",
}


class Paper(APIView):
    """One paper: ask whether it is here, send it, fetch it."""

    @answers(None, 401, 403, 404, 503)
    def head(self, request: Request, garden: UUID, sha256: str) -> Response:
        self._find(request, garden, sha256)
        return Response()

    @answers({(200, "application/pdf"): BINARY}, 401, 403, 404, 503)
    def get(self, request: Request, garden: UUID, sha256: str) -> FileResponse:
        self._find(request, garden, sha256)
        # A PDF may carry scripts: it is never shown inside the app's own address.
        return FileResponse(
            self._opened(paper_name(garden, sha256)),
            content_type="application/pdf",
            as_attachment=True,
            filename="paper.pdf",
            headers={
                "Content-Security-Policy": "default-src 'none'; sandbox",
                "Cache-Control": "private, max-age=31536000, immutable",
            },
        )

    @answers(
        {200: PaperStoredSerializer, 201: PaperStoredSerializer},
        401,
        403,
        404,
        409,
        413,
        415,
        422,
        429,
        503,
        507,
        request={"application/pdf": BINARY},
    )
    def put(self, request: Request, garden: UUID, sha256: str) -> Response:
        found = garden_sent_to(request, garden, "papers")
        try:
            is_kept = papers.is_kept(account=request.user, garden=found, sha256=sha256)
            if not is_kept:
                data = pdf_in(request._request)
                photos.check_hash(data, sha256)
                spend_allowance("photo", garden, len(data))
                papers.store_paper(account=request.user, garden_id=garden, sha256=sha256, data=data)
        except tuple(REFUSALS) as refusal:
            raise Problem(REFUSALS[type(refusal)]) from None
        return Response({"sha256": sha256}, 200 if is_kept else 201)

    def _find(self, request: Request, garden: UUID, sha256: str) -> None:
        own = garden_for(request, garden, "papers")
        try:
            if not find_papers(own.id, [sha256]):
                raise Problem("not_found")
        except StoreAway:
            raise Problem("photos_away") from None

    @staticmethod
    def _opened(name: str) -> BinaryIO:
        try:
            return photo_store().open(name)
        except FileNotFoundError:
            raise Problem("not_found") from None
        except StoreAway:
            raise Problem("photos_away") from None


def pdf_in(stream: Any) -> bytes:
    """Return what was sent, never more of it than a paper may have."""
    data: bytes = stream.read(MOST_PAPER_BYTES + 1)
    if len(data) > MOST_PAPER_BYTES:
        raise Problem("paper_too_large", max=MOST_PAPER_BYTES)
    return data
