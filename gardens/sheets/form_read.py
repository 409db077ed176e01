"""What a lab's own form asks for: its fields, and a guess of which of our values goes where.

Not for filling it. A guess is offered to a person and never taken by itself.
"""

from gardens.domain.errors import DomainError
from gardens.sheets.form_guess import guess
from gardens.sheets.form_pdf import BROKEN, Widget, open_form, shown_size, widgets


def read_form(data: bytes) -> dict[str, object]:
    """Read a form.

    Parameters
    ----------
    data : bytes
        A PDF.

    Returns
    -------
    dict
        ``kind`` (``"fields"`` or ``"flat"``), ``pages`` with their size as shown [pt], and
        ``fields``, each with its place from the top left of its page [pt] and a guess or None.

    Raises
    ------
    DomainError
        ``form_damaged``, ``form_encrypted``, ``form_xfa`` or ``form_too_long``.
    """
    reader = open_form(data)
    found = widgets(list(reader.pages))
    try:
        sizes = [shown_size(page) for page in reader.pages]
    except BROKEN as error:
        raise DomainError("form_damaged") from error
    return {
        "kind": "fields" if found else "flat",
        "pages": [{"width_pt": wide, "height_pt": high} for wide, high in sizes],
        "fields": [_told(one) for one in found],
    }


def _told(one: Widget) -> dict[str, object]:
    return {
        "field": one.name,
        "type": one.kind,
        "options": list(one.options),
        "page": one.page,
        "box": [round(side, 2) for side in one.box],
        "label": one.label,
        "guess": guess(one.name, one.label, one.kind, one.options),
    }
