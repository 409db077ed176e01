"""Searches for things that may not be in the files, each over one text."""

import re
from collections.abc import Iterator
from typing import Any

# Not ours to say about a garden: nothing is ever known that surely.
FORBIDDEN = re.compile(r"\b(clean|cured?|eradicated?|safe|safely|guaranteed?)\b", re.IGNORECASE)
MACHINE_PATH = re.compile(r"(?<![\w.}/])/(?:work|root|home|Users)/[\w.]|[A-Z]:\\\\Users")
REGISTRY = re.compile(r"https?://|\"resolved\"|--(?:extra-)?index-url|--find-links")
FUNDING = re.compile(r"\s*(\"url\": )?\"https://[^\"]*\",?$")  # an address with no key, or an url
FETCHERS = re.compile(
    r"\bfetch\s*\(|\bXMLHttpRequest\b|\bsendBeacon\b|\bnew (?:WebSocket|EventSource)\b"
)
COMMENT = re.compile(r"/\*.*?\*/|^\s*//[^\n]*|(?<=[;,{}\s])//[^\n]*|<!--.*?-->", re.S | re.M)


def forbidden_words(text: str) -> list[str]:
    """Return the words that promise what nobody can know."""
    return [found.group().lower() for found in FORBIDDEN.finditer(text)]


def machine_paths(text: str) -> list[str]:
    """Return absolute paths of somebody's machine."""
    return MACHINE_PATH.findall(text)


def registries(lock: str) -> list[str]:
    """Return what names a package registry in a lock file; funding addresses are not such."""
    lines = [line for line in lock.splitlines() if not FUNDING.match(line)]
    return [found.group() for line in lines for found in REGISTRY.finditer(line)]


def network_calls(code: str) -> list[str]:
    """Return the calls to the network in TypeScript or Svelte, comments apart."""
    return [found.group() for found in FETCHERS.finditer(COMMENT.sub(" ", code))]


def strings(value: Any) -> Iterator[str]:
    """Yield every string in a JSON value, the keys of sources and addresses apart."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, list):
        for one in value:
            yield from strings(one)
    elif isinstance(value, dict):
        for key, one in value.items():
            if key not in ("source", "where", "key", "title", "authors"):
                yield from strings(one)


def unsupported(table: Any, known: set[str]) -> list[str]:
    """Return sources that lead nowhere and are not marked as from memory."""
    lost = [key for row in rows(table) for key in cited(row)]
    return [key for key in lost if key not in known]


def rows(table: Any) -> Iterator[dict[str, Any]]:
    """Yield every object in a JSON value that is not marked as from memory, at any depth."""
    if isinstance(table, dict):
        if not table.get("from_memory"):
            yield table
        table = list(table.values())
    if isinstance(table, list):
        for one in table:
            yield from rows(one)


def cited(row: dict[str, Any]) -> list[str]:
    """Return the source keys a row of a table names."""
    keys: list[str] = []
    for name, value in row.items():
        if name in ("source", "sources") or name.endswith("_source"):
            keys += value if isinstance(value, list) else [value]
    return [key for key in keys if key is not None]
