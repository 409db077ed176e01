"""A lab's own PDF, opened: its pages and the places in it that can be filled.

Not for what goes into them. A file that cannot be read for sure is refused with a reason; it
is never run, and nothing in it is followed.
"""

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from pypdf import PageObject, PdfReader
from pypdf.errors import PyPdfError
from pypdf.generic import ArrayObject, DictionaryObject

from gardens.domain.errors import DomainError

MOST_PAGES, MOST_FIELDS = 40, 400
_DEEPEST = 32
_READ_ONLY, _PUSH_BUTTON, _RADIO = 1, 1 << 16, 1 << 15
# What a file somebody else made can raise in a reader; none of it is our mistake.
BROKEN = (
    PyPdfError,
    ArithmeticError,
    AttributeError,
    LookupError,
    RecursionError,
    TypeError,
    ValueError,
)

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Widget:
    """One place of a form: its name, what it takes, and where it lies.

    ``kind`` is ``"text"``, ``"check"``, ``"choice"`` or ``"radio"``; ``options`` are the
    choices, or the names of the states that are on; ``box`` is left, top, right and bottom from
    the top left of the page [pt].
    """

    name: str
    label: str
    kind: str
    options: tuple[str, ...]
    page: int
    box: Box
    chain: tuple[DictionaryObject, ...]

    @property
    def part(self) -> DictionaryObject:
        """What is drawn on the page."""
        return self.chain[0]

    @property
    def field(self) -> DictionaryObject:
        """Where its value is kept: the nearest with a name."""
        return next((one for one in self.chain if "/T" in one), self.chain[0])

    def get(self, key: str) -> Any:
        """What the file says of it, or of a field it belongs to.

        Parameters
        ----------
        key : str
            Of the dictionary, with its slash.

        Returns
        -------
        object
            None where nothing is said.
        """
        return _inherited(self.chain, key)


def open_form(data: bytes) -> PdfReader:
    """Open a PDF that is to be filled.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    PdfReader
        Of 1 to 40 pages.

    Raises
    ------
    DomainError
        ``form_damaged``, ``form_encrypted``, ``form_xfa`` or ``form_too_long``.
    """
    try:
        reader = PdfReader(io.BytesIO(data))
        if reader.is_encrypted:
            raise DomainError("form_encrypted")
        n_pages = len(reader.pages)
        form = _dictionary(reader.root_object.get("/AcroForm"))
        has_xfa = form is not None and "/XFA" in form
    except BROKEN as error:
        raise DomainError("form_damaged") from error
    if has_xfa:
        raise DomainError("form_xfa")
    if n_pages == 0:
        raise DomainError("form_damaged")
    if n_pages > MOST_PAGES:
        raise DomainError("form_too_long", max=MOST_PAGES, n=n_pages)
    return reader


def _dictionary(value: Any) -> DictionaryObject | None:
    found = value.get_object() if value is not None else None
    return found if isinstance(found, DictionaryObject) else None


def widgets(pages: list[PageObject]) -> list[Widget]:
    """Every place that can be filled, page by page, in the order of the file.

    Parameters
    ----------
    pages : list of PageObject
        Of one PDF.

    Returns
    -------
    list of Widget
        Empty for a flat PDF.

    Raises
    ------
    DomainError
        ``form_damaged``, or ``form_too_long`` with more than 400 places.
    """
    try:
        found = [one for n, page in enumerate(pages, start=1) for one in _of_page(page, n)]
    except BROKEN as error:
        raise DomainError("form_damaged") from error
    if len(found) > MOST_FIELDS:
        raise DomainError("form_too_long", max=MOST_FIELDS, n=len(found))
    return found


def _of_page(page: PageObject, number: int) -> Iterator[Widget]:
    listed: Any = page.get("/Annots", ArrayObject()).get_object()
    for each in listed:
        part = _dictionary(each)
        if part is None or part.get("/Subtype") != "/Widget":
            continue
        chain = _chain(part)
        kind = _kind(chain)
        if kind is None:
            continue
        names = [str(one["/T"]) for one in reversed(chain) if "/T" in one]
        label = str(_inherited(chain, "/TU") or names[-1] if names else "")
        yield Widget(
            name=".".join(names),
            label=label,
            kind=kind,
            options=_options(kind, chain),
            page=number,
            box=shown_box(sides_of(part), page),
            chain=tuple(chain),
        )


def sides_of(part: DictionaryObject) -> list[float]:
    """The rectangle of a place in the page's own space.

    Parameters
    ----------
    part : DictionaryObject
        What is drawn on the page.

    Returns
    -------
    list of float
        Four numbers [pt].
    """
    sides: Any = part["/Rect"]
    x0, y0, x1, y1 = (float(side) for side in sides)
    return [x0, y0, x1, y1]


def _chain(part: DictionaryObject) -> list[DictionaryObject]:
    """A place and the fields it belongs to, from the inside out."""
    found: list[DictionaryObject] = []
    one: DictionaryObject | None = part
    while one is not None and len(found) < _DEEPEST:
        found.append(one)
        one = _dictionary(one.get("/Parent"))
    return found


def _inherited(chain: Sequence[DictionaryObject], key: str) -> Any:
    return next((one[key] for one in chain if key in one), None)


def _kind(chain: list[DictionaryObject]) -> str | None:
    """What a place takes; None for buttons, signatures and what may not be changed."""
    flags = int(_inherited(chain, "/Ff") or 0)
    if flags & _READ_ONLY:
        return None
    sort = _inherited(chain, "/FT")
    if sort == "/Tx":
        return "text"
    if sort == "/Ch":
        return "choice"
    if sort != "/Btn" or flags & _PUSH_BUTTON:
        return None
    return "radio" if flags & _RADIO else "check"


def _options(kind: str, chain: list[DictionaryObject]) -> tuple[str, ...]:
    if kind == "choice":
        return tuple(shown for _, shown in choices(_inherited(chain, "/Opt")))
    if kind in ("check", "radio"):
        return tuple(on_states(chain[0]))
    return ()


def choices(listed: Any) -> list[tuple[str, str]]:
    """Choices as they are stored and as they are shown.

    Parameters
    ----------
    listed : object
        ``/Opt`` of a field, or None.

    Returns
    -------
    list of (str, str)
        The same twice where a choice has one name.
    """
    found = []
    for each in listed.get_object() if listed is not None else ():
        one = each.get_object()
        parts = list(one) if isinstance(one, ArrayObject) else [one]
        found.append((str(parts[0]), str(parts[-1])))
    return found


def on_states(part: DictionaryObject) -> list[str]:
    """Names of the states in which a box is ticked, without their slash.

    Parameters
    ----------
    part : DictionaryObject
        A place of a check box or a radio button.

    Returns
    -------
    list of str
        Usually one; none where the file draws no ticked box.
    """
    drawn = _dictionary(part.get("/AP"))
    normal = None if drawn is None else _dictionary(drawn.get("/N"))
    return [] if normal is None else [key[1:] for key in normal if key != "/Off"]


def shown_box(rect: list[float], page: PageObject) -> Box:
    """Where a rectangle lies on the page as it is shown.

    Parameters
    ----------
    rect : list of float
        Four numbers in the page's own space [pt].
    page : PageObject
        The page, maybe turned.

    Returns
    -------
    (float, float, float, float)
        Left, top, right, bottom from the top left [pt].
    """
    x0, y0, x1, y1 = (
        min(rect[0], rect[2]),
        min(rect[1], rect[3]),
        max(rect[0], rect[2]),
        max(rect[1], rect[3]),
    )
    frame = page.cropbox
    left, low = float(frame.left), float(frame.bottom)
    wide, high = float(frame.width), float(frame.height)
    x0, x1, y0, y1 = x0 - left, x1 - left, y0 - low, y1 - low
    turned = page.rotation % 360
    if turned == 90:
        return y0, x0, y1, x1
    if turned == 180:
        return wide - x1, y0, wide - x0, y1
    if turned == 270:
        return high - y1, wide - x1, high - y0, wide - x0
    return x0, high - y1, x1, high - y0


def shown_size(page: PageObject) -> tuple[float, float]:
    """Width and height of a page as it is shown.

    Parameters
    ----------
    page : PageObject
        The page, maybe turned.

    Returns
    -------
    (float, float)
        [pt, > 0]
    """
    wide, high = float(page.cropbox.width), float(page.cropbox.height)
    return (high, wide) if page.rotation % 180 else (wide, high)
