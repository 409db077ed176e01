"""System checks: each setting that could not be read, with an id and what to do about it.

Not for reading settings: that is done, once, where they are assembled.
"""

from typing import Any

from django.conf import settings
from django.core.checks import CheckMessage, Error, Warning, register


@register()
def check_settings(app_configs: Any, **kwargs: Any) -> list[CheckMessage]:
    """Report settings that could not be read, and odd combinations of readable ones."""
    found: list[CheckMessage] = [
        Error(problem.message, hint=problem.hint, id=problem.id)
        for problem in settings.KNOTBED_PROBLEMS
    ]
    if settings.DEBUG and settings.HTTPS:
        found.append(
            Warning(
                "KNOTBED_DEBUG is on while the garden is served over https.",
                hint="Unset KNOTBED_DEBUG unless you are developing: it shows inner workings.",
                id="knotbed.W001",
            )
        )
    if "*" in settings.ALLOWED_HOSTS and not settings.DEBUG:
        found.append(
            Warning(
                "KNOTBED_ALLOWED_HOSTS lets any name through.",
                hint="List the names and addresses phones use, with a comma between two.",
                id="knotbed.W002",
            )
        )
    return found


def refuse_to_start() -> None:
    """Stop the process with one sentence per setting that could not be read."""
    errors = [found for found in check_settings(None) if isinstance(found, Error)]
    if errors:
        lines = [f"{error.id}: {error.msg} {error.hint}" for error in errors]
        raise SystemExit("Knotbed cannot start. No data was touched.\n" + "\n".join(lines))
