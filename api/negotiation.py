"""Answers in the one form each address has, whatever the browser says it would rather have."""

from typing import Any

from rest_framework.negotiation import BaseContentNegotiation
from rest_framework.request import Request


class OneForm(BaseContentNegotiation):
    """An ``<img>`` asks for images only; its refusal still has to be JSON, not a 406."""

    def select_parser(self, request: Request, parsers: list[Any]) -> Any:
        kind = (request.content_type or "").split(";")[0].strip().lower()
        return next((parser for parser in parsers if parser.media_type == kind), None)

    def select_renderer(self, request: Request, renderers: Any, format_suffix: Any = None) -> Any:
        return renderers[0], renderers[0].media_type
