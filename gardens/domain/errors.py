"""The errors of the core: a code and its parameters, never a sentence.

Not for wording: the sentence for a code lives in ``fixtures/sentences.json``.
"""

from collections.abc import Mapping


class DomainError(Exception):
    """Something asked of the core that it will not do.

    Parameters
    ----------
    code : str
        Short stable name of what went wrong, e.g. ``"scales_differ"``.
    **params : object
        What a sentence about it needs, e.g. ``max=80``.
    """

    def __init__(self, code: str, **params: object) -> None:
        super().__init__(code)
        self.code = code
        self.params: Mapping[str, object] = params

    def __str__(self) -> str:
        told = ", ".join(f"{name}={value!r}" for name, value in self.params.items())
        return f"{self.code}({told})"


class RecordError(DomainError):
    """A record, or one field of it, that cannot be taken.

    Parameters
    ----------
    code : str
        ``"bad_value"``, ``"unknown_field"`` or ``"unknown_kind"``.
    field : str or None
        Wire name of the field that was refused; None when no single field is at fault.
    reason : str
        Key of the sentence in the catalogue, e.g. ``"too_long"``.
    **params : object
        What the sentence needs.
    """

    def __init__(self, code: str, field: str | None, reason: str, **params: object) -> None:
        super().__init__(code, **params)
        self.field = field
        self.reason = reason

    def __str__(self) -> str:
        told = ", ".join(f"{name}={value!r}" for name, value in self.params.items())
        return f"{self.code}({self.field}: {self.reason} {told})"
