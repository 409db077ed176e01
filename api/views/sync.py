"""The gardens of an account, and keeping one of them in step: push and pull."""

import hashlib
import json
from typing import Any
from uuid import UUID

from django.utils import timezone
from django.utils.decorators import method_decorator
from django.views.decorators.gzip import gzip_page
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.admission import admitted, garden_sent_to, spend_allowance
from api.authentication import asker_of, device_of
from api.errors import Problem
from api.serializers import (
    GardenListedSerializer,
    PulledSerializer,
    PushedSerializer,
    PushSerializer,
)
from api.sync import protocol
from api.views.describe import answers
from gardens.domain.roles import shown
from gardens.models import Garden, Record
from gardens.selectors.access import Access
from gardens.selectors.gardens import list_gardens
from gardens.selectors.names import names_in, shown_name
from gardens.selectors.records import feed_page
from gardens.services.journal import HistoryChanged, check_mark
from gardens.services.push import NoSuchGarden, Sender, ShareEnded, push

Names = dict[Any, str]
Travelling = dict[str, Any]


class Gardens(APIView):
    """The gardens this account may see; 304 while none of them has changed."""

    @answers(GardenListedSerializer(many=True), 401)
    def get(self, request: Request) -> Response:
        gardens = list_gardens(asker_of(request))
        mark = hashlib.sha256(json.dumps(gardens).encode()).hexdigest()[:32]
        etag = f'"{mark}"'
        if request.headers.get("If-None-Match") == etag:
            return Response(status=304, headers={"ETag": etag})
        return Response(gardens, headers={"ETag": etag, "Cache-Control": "private, no-cache"})


@method_decorator(gzip_page, name="dispatch")
class Push(APIView):
    """Take changes; each gets its own result, in order."""

    @answers(PushedSerializer, 400, 401, 403, 404, 409, 413, 429, 503, request=PushSerializer)
    def post(self, request: Request, garden: UUID) -> Response:
        sent = protocol.read_envelope(request.data)
        if str(sent.device) != device_of(request):
            raise Problem("device_mismatch")
        spend_allowance("push", sent.device, len(sent.items))
        now = timezone.now()
        if sent.schema > protocol.SCHEMA:
            mark = garden_sent_to(request, garden).mark
            results = protocol.schema_is_newer(sent.items)
        else:
            sender = Sender(request.user, sent.device, sent.high, sent.sent_at)
            mark, results = self._take(sender, garden, sent.items, now)
        return Response({"head": mark, "server_time": now, "results": results})

    def _take(self, sender: Sender, garden: UUID, items: list[Any], now: Any) -> tuple[str, Any]:
        try:
            done = push(sender=sender, garden_id=garden, items=items, received_at=now)
        except NoSuchGarden:
            raise Problem("not_found") from None
        except ShareEnded:
            raise Problem("share_ended") from None
        except HistoryChanged:
            raise Problem("history_changed") from None
        return done.mark, [protocol.with_sentence(result) for result in done.results]


# Packed: a new phone reads megabytes of names that repeat. Neither answer holds a secret that
# a guess packed beside it could give away (the token for changes comes from /me, never packed).
@method_decorator(gzip_page, name="dispatch")
class Pull(APIView):
    """Give the records that changed after the cursor, each once, in its newest state."""

    @answers(PulledSerializer, 400, 401, 403, 404, 409, 410, query=("cursor", "high", "limit"))
    def get(self, request: Request, garden: UUID) -> Response:
        asked = request.query_params
        cursor = protocol.read_number(asked.get("cursor"), "cursor", 0, 0, 2**59)
        limit = protocol.read_number(asked.get("limit"), "limit", protocol.PAGE, 1, protocol.PAGE)
        # The head is read here, once, before any record: see ``feed_page``.
        found, access = admitted(request, garden)
        self._check(found, cursor, protocol.read_high(asked.get("high")))
        page = feed_page(found, cursor, limit)
        names = names_in(found)
        told = (_travelling(record, access, names, request.user) for record in page.records)
        return Response(
            {
                "cursor": page.cursor,
                "head": found.mark,
                "more": page.more,
                "schema": protocol.SCHEMA,
                "records": [one for one in told if one is not None],
            }
        )

    def _check(self, garden: Garden, cursor: int, high: tuple[int, str] | None) -> None:
        try:
            check_mark(garden, high)
        except HistoryChanged:
            raise Problem("history_changed") from None
        if cursor > garden.head:
            raise Problem("history_changed")
        if 0 < cursor < garden.purged_below:
            raise Problem("cursor_too_old")


def _travelling(record: Record, access: Access, names: Names, asker: Any) -> Travelling | None:
    """Return the record as it travels to somebody; None when it is not for them.

    Which phone made it is told to that account's phones alone: it is what a phone is known by.
    """
    doc = shown(access.role, record.KIND, record.doc)
    if doc is None:
        return None
    is_own = record.device is not None and record.created_by_id == asker.pk
    return {
        "id": str(record.id),
        "kind": record.KIND,
        "seq": record.seq,
        "deleted": record.deleted,
        "by": shown_name(record.created_by, names, record.author),
        "device": str(record.device) if is_own else None,
        "rev": {name: version[0] for name, version in record.fver.items()},
        "doc": {} if record.deleted else doc,
    }
