"""The API description, aimed at one garden, so that a stranger to it finds what is there."""

import copy
from pathlib import Path
from typing import Any

import yaml

from gardens.domain.asked import ANSWERED

FILE = Path(__file__).resolve().parents[2] / "api" / "openapi.yaml"
Described = dict[str, Any]
# The first two end or change the session the rest of a run needs; tests/api asks them. No schema
# makes a zip or a PDF: tests/gardens and tests/api send hostile ones.
LEFT_OUT = (
    "/api/v1/logout",
    "/api/v1/devices/{device}",
    "/api/v1/arrivals",
    "/api/v1/gardens/{garden}/forms/fields",
    "/api/v1/gardens/{garden}/papers/{sha256}",
)


def description() -> Described:
    """Return `api/openapi.yaml`."""
    return yaml.safe_load(FILE.read_text(encoding="utf-8"))


def aimed(described: Described, garden: str, device: str) -> Described:
    """Return the description with a garden, a phone and questions that there are."""
    found = copy.deepcopy(described)
    for path in LEFT_OUT:
        found["paths"].pop(path, None)
    known = {"garden": [garden], "question": sorted(ANSWERED)}
    for operations in found["paths"].values():
        for operation in operations.values():
            for parameter in operation.get("parameters", []):
                if parameter["name"] in known:
                    parameter["schema"]["enum"] = known[parameter["name"]]
    push = found["components"]["schemas"]["Push"]["properties"]
    push["device"]["enum"] = [device]
    # Each item is judged by itself, so a bad one is told in an answer of 200.
    push["mutations"]["items"] = {}
    return found
