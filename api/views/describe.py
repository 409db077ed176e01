"""Short ways to describe a view in ``openapi.yaml``."""

from typing import Any

from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, OpenApiResponse, extend_schema

from api.serializers import ProblemSerializer
from gardens.domain.composites import GALL_SCALES
from gardens.sheets.label_sheets import LABEL_SHEETS

ID = {"type": "string", "format": "uuid"}
COUNT = {"type": "integer", "minimum": 0, "maximum": 2**59}
ID_PATTERN = "[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}"
QUERY: dict[str, dict[str, Any]] = {
    "today": {"type": "string", "format": "date"},
    "cursor": COUNT,
    "before": COUNT,
    "limit": {"type": "integer", "minimum": 1, "maximum": 500},
    "high": {"type": "string", "pattern": r"^([0-9]{1,18}\.[0-9a-f]{16})?$"},
    "size": {"type": "string", "enum": ["full", "thumb"]},
    "paper": {"type": "string", "enum": ["a4", "letter"]},
    "sheet": {"type": "string", "enum": list(LABEL_SHEETS)},
    "first": {"type": "integer", "minimum": 1, "maximum": 200},
    "scale": {"type": "string", "enum": list(GALL_SCALES)},
    "refuse_later": {"type": "string", "enum": ["0", "1"]},
    "apply": {"type": "string", "enum": ["0", "1"]},
    "record": ID,
    "root_check": ID,
    "planting": ID,
    "samples": {"type": "string", "pattern": f"^{ID_PATTERN}(,{ID_PATTERN}){{0,39}}$"},
}
ALWAYS_ASKED = {"record", "root_check", "planting", "samples", "sheet"}


def answers(
    shape: Any, *problems: int, request: Any = None, query: tuple[str, ...] = (), status: int = 200
) -> Any:
    """Describe a view: what it answers, with which problem statuses, and its query string."""
    described: dict[Any, Any] = dict(shape) if isinstance(shape, dict) else {status: shape}
    in_body = (413, 415) if request is not None else ()
    for problem in sorted({*problems, *in_body}):
        described[(problem, "application/problem+json")] = OpenApiResponse(ProblemSerializer)
    return extend_schema(
        request=request,
        responses=described,
        parameters=[
            OpenApiParameter(name, QUERY[name], required=name in ALWAYS_ASKED) for name in query
        ],
    )


BINARY = OpenApiTypes.BINARY
