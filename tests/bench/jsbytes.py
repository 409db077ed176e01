"""JavaScript of the first load: what index.html and its static imports pull in, gzipped."""

import gzip
import re
from pathlib import Path

from api.bootstrap.places import WEB_BUILD
from tests.bench.figures import Figure, within

BUDGET_KB = 90
IN_PAGE = re.compile(r"(?:src|href)=\"(/[^\"]+\.js)\"")
STATIC_IMPORT = re.compile(r"(?:\bfrom|\bimport)\s*[\"'](\.[^\"']+\.js)[\"']")


def first_load(build: Path) -> set[Path]:
    """Return the scripts a browser fetches before it can show anything."""
    page = (build / "index.html").read_text()
    waiting = [build / found.lstrip("/") for found in IN_PAGE.findall(page)]
    fetched: set[Path] = set()
    while waiting:
        script = waiting.pop().resolve()
        if script in fetched:
            continue
        fetched.add(script)
        waiting += [script.parent / found for found in STATIC_IMPORT.findall(script.read_text())]
    return fetched


def measure() -> list[Figure]:
    """Weigh the first load."""
    n_bytes = sum(len(gzip.compress(script.read_bytes(), 9)) for script in first_load(WEB_BUILD))
    return [within("JavaScript of the first load, gzip", n_bytes / 1000, BUDGET_KB, "kB")]
