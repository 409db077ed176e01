"""Taking a garden away as a file, and bringing one; bringing what a helper's phone saved."""

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict
from typing import IO, Any
from uuid import UUID

from django.http import FileResponse
from django.utils.text import slugify
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.admission import garden_for, spend_allowance
from api.errors import Problem
from api.serializers import ArrivalSerializer, SavedFileBroughtSerializer
from api.sync import protocol
from api.views.describe import BINARY, answers
from gardens.photo_store.refusals import StoreAway, StoreFull
from gardens.selectors.gardens import name_of_garden
from gardens.selectors.names import is_made_by_link
from gardens.services.accounts import known_as
from gardens.services.carrying.arrival import bring_arrival, look_at_arrival
from gardens.services.carrying.export import export_garden
from gardens.services.carrying.layout import MOST_BYTES, BadArchive
from gardens.services.carrying.saved_file import (
    MOST_SAVED_BYTES,
    SavedFileUnreadable,
    bring_saved_file,
    read_saved_file,
)
from gardens.services.darkroom.room import Busy
from gardens.services.push import NoSuchGarden

CHUNK = 1 << 20
REFUSALS: dict[type[Exception], str] = {
    StoreAway: "photos_away",
    StoreFull: "server_full",
    Busy: "photos_busy",
}
KEPT_IN_MEMORY = 4_000_000


class Export(APIView):
    """The whole garden as one file."""

    @answers({(200, "application/zip"): BINARY}, 401, 403, 404, 429, 503)
    def get(self, request: Request, garden: UUID) -> FileResponse:
        found = garden_for(request, garden, "export")
        spend_allowance("export", garden, 1)
        name = slugify(name_of_garden(found))[:40] or "garden"
        try:
            file = export_garden(garden_id=found.id)
        except StoreAway:
            raise Problem("photos_away") from None
        return FileResponse(
            file,
            as_attachment=True,
            filename=f"knotbed-{name}.zip",
            content_type="application/zip",
            headers={"Cache-Control": "private, no-store"},
        )


class Arrivals(APIView):
    """A garden's file: first told what it would bring, with ``apply=1`` brought."""

    @answers(
        ArrivalSerializer,
        400,
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
        request={"application/zip": BINARY},
        query=("apply",),
    )
    def post(self, request: Request) -> Response:
        wanted = request.query_params.get("apply", "0")
        if wanted not in ("0", "1"):
            raise Problem("bad_request", field="apply")
        named = known_as(request.user)
        if is_made_by_link(named):
            raise Problem("forbidden")
        spend_allowance("arrival", named.name, 1)
        work = bring_arrival if wanted == "1" else look_at_arrival
        try:
            with received(request, MOST_BYTES, "application/zip", "not_archive") as file:
                told = work(account=request.user, file=file)
        except BadArchive as bad:
            raise Problem(bad.code, field=bad.part or None) from None
        except NoSuchGarden:
            raise Problem("not_found") from None
        except tuple(REFUSALS) as refusal:
            raise Problem(REFUSALS[type(refusal)]) from None
        return Response({**asdict(told), "refused": [_refused(*one) for one in told.refused]})


class SavedFiles(APIView):
    """What a phone saved to a file, brought by somebody who may change the garden."""

    @answers(
        SavedFileBroughtSerializer,
        401,
        403,
        404,
        413,
        415,
        422,
        503,
        507,
        request={"application/json": BINARY},
    )
    def post(self, request: Request, garden: UUID) -> Response:
        found = garden_for(request, garden, "settle")
        try:
            with received(request, MOST_SAVED_BYTES, "application/json", "not_json") as file:
                saved = read_saved_file(file.read())
        except SavedFileUnreadable:
            raise Problem("saved_file_unreadable") from None
        try:
            done = bring_saved_file(account=request.user, garden=found, saved=saved)
        except tuple(REFUSALS) as refusal:
            raise Problem(REFUSALS[type(refusal)]) from None
        results = [
            {"kind": kind, **protocol.with_sentence(result)} for kind, result in done.results
        ]
        told = {"author": saved.author, "results": results, "photos": done.photos}
        return Response({**told, "n_other_gardens": done.n_other_gardens})


def _refused(kind: str, code: str) -> dict[str, Any]:
    return {"kind": kind, "code": code, "message": protocol.sentence_of(code)}


@contextmanager
def received(request: Request, most: int, kind: str, refusal: str) -> Iterator[IO[bytes]]:
    """Give a body of this kind as an open file, on the disk when it is large."""
    told = (request.content_type or "").partition(";")[0].strip().lower()
    if told not in ("", kind):  # without a body there is no word of its kind either
        raise Problem(refusal)
    with tempfile.SpooledTemporaryFile(KEPT_IN_MEMORY) as file:
        while block := request._request.read(CHUNK):
            if file.tell() + len(block) > most:
                raise Problem("archive_too_large", max=most)
            file.write(block)
        file.seek(0)
        yield file
