"""What one picture may take: memory, computing time, no files. Set by the process on itself.

Not for the time on the clock: the server measures that, on every system.
"""

import importlib
from typing import Any

MOST_MEMORY_BYTES = 512 * 1024 * 1024
MOST_COMPUTING_S = 10


def bind() -> list[str]:
    """Bound this process for good; return which bounds hold here (none on Windows)."""
    resource = _resource()
    if resource is None:
        return []
    wanted = {
        "memory": ("RLIMIT_AS", MOST_MEMORY_BYTES),
        "files": ("RLIMIT_FSIZE", 0),
        "traces": ("RLIMIT_CORE", 0),
    }
    held = [name for name, (limit, most) in wanted.items() if _set(resource, limit, most, most)]
    return [*held, "computing"] if allow_one_picture() else held


def allow_one_picture() -> bool:
    """Let this process compute so many seconds from now on; say whether that holds here."""
    resource = _resource()
    if resource is None:
        return False
    used = resource.getrusage(resource.RUSAGE_SELF)
    end = int(used.ru_utime + used.ru_stime) + MOST_COMPUTING_S + 1
    return _set(resource, "RLIMIT_CPU", end, resource.RLIM_INFINITY)


def _resource() -> Any:
    try:
        return importlib.import_module("resource")
    except ImportError:
        return None


def _set(resource: Any, limit: str, soft: int, hard: int) -> bool:
    try:
        resource.setrlimit(getattr(resource, limit), (soft, hard))
    except (AttributeError, ValueError, OSError):
        return False  # macOS knows some of them by name only
    return True
