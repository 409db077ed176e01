"""The bytes of photos, under the hash of what was sent."""

from typing import Any
from uuid import UUID

from django.http import FileResponse, HttpResponse
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.admission import garden_for, garden_sent_to, spend_allowance
from api.errors import Problem
from api.serializers import BlobStoredSerializer
from api.sync.protocol import MOST_BLOB_BYTES
from api.views.describe import BINARY, answers
from gardens.models import Blob
from gardens.selectors.photos import find_blob, picture_path
from gardens.services import photos
from gardens.services.pictures import BadImage

REFUSALS: dict[type[Exception], str] = {
    photos.NoPhotoRecord: "no_photo_record",
    photos.HashMismatch: "hash_mismatch",
    photos.ServerFull: "server_full",
    BadImage: "bad_image",
}


class Photo(APIView):
    """One photo: ask whether it is here, send it, fetch it."""

    @answers(None, 401, 403, 404)
    def head(self, request: Request, garden: UUID, sha256: str) -> Response:
        self._find(request, garden, sha256)
        return Response()

    @answers({(200, "image/jpeg"): BINARY}, 400, 401, 403, 404, query=("size",))
    def get(self, request: Request, garden: UUID, sha256: str) -> HttpResponse | FileResponse:
        size = request.query_params.get("size", "full")
        if size not in ("full", "thumb"):
            raise Problem("bad_request", field="size")
        blob = self._find(request, garden, sha256)
        return FileResponse(
            picture_path(garden, blob.stored_sha256, size).open("rb"),
            content_type="image/jpeg",
            filename="photo.jpg",
            headers={
                "Content-Security-Policy": "default-src 'none'; sandbox",
                "Cache-Control": "private, max-age=31536000, immutable",
            },
        )

    @answers(
        {200: BlobStoredSerializer, 201: BlobStoredSerializer},
        401,
        403,
        404,
        409,
        413,
        415,
        422,
        429,
        507,
        request={"image/jpeg": BINARY},
    )
    def put(self, request: Request, garden: UUID, sha256: str) -> Response:
        found = garden_sent_to(request, garden, "send_photo")
        try:
            blob = photos.check_wanted(account=request.user, garden=found, sha256=sha256)
            if blob is not None:
                return Response(_answer(blob), 200)
            data = _read_photo(request)
            spend_allowance("photo", garden, len(data))
            done = photos.store_photo(
                account=request.user, garden_id=garden, sha256=sha256, data=data
            )
        except tuple(REFUSALS) as refusal:
            raise Problem(REFUSALS[type(refusal)]) from None
        return Response(_answer(done.blob), 201 if done.is_new else 200)

    def _find(self, request: Request, garden: UUID, sha256: str) -> Blob:
        blob = find_blob(garden_for(request, garden), sha256)
        if blob is None:
            raise Problem("not_found")
        return blob


def _read_photo(request: Request) -> bytes:
    data: bytes = request._request.read(MOST_BLOB_BYTES + 1)
    if len(data) > MOST_BLOB_BYTES:
        raise Problem("blob_too_large", max=MOST_BLOB_BYTES)
    return data


def _answer(blob: Blob) -> dict[str, Any]:
    return {
        "sha256": blob.sha256,
        "n_bytes": blob.n_bytes,
        "width_px": blob.width_px,
        "height_px": blob.height_px,
    }
