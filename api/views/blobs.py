"""The bytes of photos, under the hash of what was sent."""

from typing import Any, BinaryIO
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
from gardens.photo_store.door import photo_store, picture_name
from gardens.photo_store.refusals import StoreAway, StoreFull
from gardens.selectors.photos import find_blob
from gardens.services import photos
from gardens.services.darkroom.picture import BadImage
from gardens.services.darkroom.room import Busy

REFUSALS: dict[type[Exception], str] = {
    photos.NoPhotoRecord: "no_photo_record",
    photos.HashMismatch: "hash_mismatch",
    StoreFull: "server_full",
    StoreAway: "photos_away",
    Busy: "photos_busy",
    BadImage: "bad_image",
}


class Photo(APIView):
    """One photo: ask whether it is here, send it, fetch it."""

    @answers(None, 401, 403, 404, 503)
    def head(self, request: Request, garden: UUID, sha256: str) -> Response:
        blob = self._find(request, garden, sha256)
        if photos.is_untold(garden=blob.garden, sha256=sha256):
            raise Problem("not_found")
        return Response()

    @answers({(200, "image/jpeg"): BINARY}, 400, 401, 403, 404, 503, query=("size",))
    def get(self, request: Request, garden: UUID, sha256: str) -> HttpResponse | FileResponse:
        size = request.query_params.get("size", "full")
        if size not in ("full", "thumb"):
            raise Problem("bad_request", field="size")
        blob = self._find(request, garden, sha256)
        return FileResponse(
            self._opened(picture_name(garden, blob.stored_sha256, size)),
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
        503,
        507,
        request={"image/jpeg": BINARY},
    )
    def put(self, request: Request, garden: UUID, sha256: str) -> Response:
        found = garden_sent_to(request, garden, "send_photo")
        try:
            blob = photos.check_wanted(account=request.user, garden=found, sha256=sha256)
            if blob is not None and not photos.is_untold(garden=found, sha256=sha256):
                return Response(_answer(blob), 200)
            data = _read_photo(request)
            photos.check_hash(data, sha256)
            spend_allowance("photo", garden, len(data))
            done = photos.store_photo(
                account=request.user, garden_id=garden, sha256=sha256, data=data
            )
        except tuple(REFUSALS) as refusal:
            raise Problem(REFUSALS[type(refusal)]) from None
        return Response(_answer(done.blob), 201 if done.is_new else 200)

    def _find(self, request: Request, garden: UUID, sha256: str) -> Blob:
        own = garden_for(request, garden)
        try:
            blob = find_blob(own, sha256)
        except StoreAway:
            raise Problem("photos_away") from None
        if blob is None:
            raise Problem("not_found")
        return blob

    @staticmethod
    def _opened(name: str) -> BinaryIO:
        try:
            return photo_store().open(name)
        except FileNotFoundError:
            raise Problem("not_found") from None
        except StoreAway:
            raise Problem("photos_away") from None


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
