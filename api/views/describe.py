"""Short ways to describe a view in ``openapi.yaml``."""

from typing import Any

from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, OpenApiResponse, extend_schema

from api.serializers import ProblemSerializer


def answers(
    shape: Any, *problems: int, request: Any = None, query: tuple[str, ...] = (), status: int = 200
) -> Any:
    """Describe a view: what it answers, with which problem statuses, and its query string."""
    described: dict[Any, Any] = dict(shape) if isinstance(shape, dict) else {status: shape}
    for problem in problems:
        described[(problem, "application/problem+json")] = OpenApiResponse(ProblemSerializer)
    return extend_schema(
        request=request,
        responses=described,
        parameters=[OpenApiParameter(name, str, required=False) for name in query],
    )


BINARY = OpenApiTypes.BINARY
