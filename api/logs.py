"""What the server writes down: which address failed, where in the code, and what kind of error.

Not for what anybody sent. An error's own words may quote it (PostgreSQL's give the whole row), so
they are left out; so are bodies, names, notes, tokens and the query string.
"""

import logging
import traceback
from types import TracebackType

Raised = tuple[type[BaseException], BaseException, TracebackType | None] | tuple[None, None, None]


class WithoutWords(logging.Formatter):
    """One line for what happened, then where; of an error only its kind."""

    def __init__(self) -> None:
        super().__init__("%(asctime)s %(levelname)s %(name)s: %(message)s")

    def format(self, record: logging.LogRecord) -> str:
        record.exc_text = None  # another handler's words, kept by the standard library
        return super().format(record)

    def formatException(self, ei: Raised) -> str:
        told = []
        for error in _chain(ei[1]):
            told.append(f"{type(error).__module__}.{type(error).__qualname__}")
            told += [
                f'  File "{frame.filename}", line {frame.lineno}, in {frame.name}'
                for frame in traceback.extract_tb(error.__traceback__)
            ]
        return "\n".join(told)


def _chain(error: BaseException | None) -> list[BaseException]:
    """Return an error and what it was raised from, the first cause last."""
    found: list[BaseException] = []
    while error is not None and error not in found:
        found.append(error)
        error = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    return found
