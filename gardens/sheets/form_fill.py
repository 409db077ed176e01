"""Fills a lab's own form: fields by name, and text at chosen spots of a flat page.

What is stored in a field is the text; what is seen is drawn by ``form_ink``. Not for choosing
what goes where: the grower did, and it is kept with the lab's profile.
"""

import io
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pypdf import PdfReader, PdfWriter, Transformation
from pypdf.generic import (
    ArrayObject,
    DictionaryObject,
    FloatObject,
    NameObject,
    StreamObject,
    TextStringObject,
)

from gardens.domain.errors import DomainError
from gardens.sheets.form_ink import RISE, Ink, drawn, size_in
from gardens.sheets.form_pdf import BROKEN, Widget, choices, on_states, open_form, sides_of, widgets
from gardens.sheets.form_values import NOTHING, value_of
from gardens.sheets.values import Submission

Match = Mapping[str, Any]
_LINES, _COMB, _EDIT = 1 << 12, 1 << 24, 1 << 18
_OFF = NameObject("/Off")
_SPOT_HIGH = 1.6  # of the size of its letters


def fill_form(data: bytes, form: Match, parcel: Submission) -> bytes:
    """A lab's form with our values in it.

    Parameters
    ----------
    data : bytes
        The lab's own PDF.
    form : Mapping
        A checked ``lab_profile.form``.
    parcel : Submission
        The parcel.

    Returns
    -------
    bytes
        A PDF; the same bytes for the same form and parcel. Fields nothing is known for stay as
        the lab left them, and can still be filled by hand.

    Raises
    ------
    DomainError
        ``form_damaged``, ``form_encrypted``, ``form_xfa``, ``form_too_long``, or
        ``form_field_gone`` when the form is not the one that was matched.
    """
    reader = open_form(data)
    try:
        writer = PdfWriter(clone_from=reader)
        _fill_fields(writer, form["fields"], parcel)
        _write_spots(writer, form["spots"], parcel)
        form_part = writer.root_object.get("/AcroForm")
        if form_part is not None:
            # Readers are not to draw the fields anew with fonts that lack half of the signs.
            form_part.get_object().pop("/NeedAppearances", None)
        buffer = io.BytesIO()
        writer.write(buffer)
    except BROKEN as error:
        raise DomainError("form_damaged") from error
    return buffer.getvalue()


@dataclass(frozen=True)
class _Said:
    """What one match comes to: whether it applies, and its text."""

    applies: bool
    text: str


def _said(match: Match, parcel: Submission) -> _Said:
    when, words = str(match["when"]), str(match["words"])
    if match["fill"] == "words":
        return _Said(bool(words), words)
    value = value_of(match["fill"], match["row"], parcel)
    if when:
        return _Said(when in value.plain, words or value.shown)
    return _Said(value != NOTHING, value.shown)


def _fill_fields(writer: PdfWriter, matches: Sequence[Match], parcel: Submission) -> None:
    places: dict[str, list[Widget]] = defaultdict(list)
    for one in widgets(list(writer.pages)):
        places[one.name].append(one)
    said: dict[str, list[_Said]] = defaultdict(list)
    for match in matches:
        if match["field"] not in places:
            raise DomainError("form_field_gone", name=match["field"])
        said[match["field"]].append(_said(match, parcel))
    inked: list[tuple[Widget, Ink]] = []
    for name, answers in said.items():
        for place in places[name]:
            inked += _fill(place, [one for one in answers if one.applies])
    _stamp(writer, inked)


def _fill(place: Widget, answers: Sequence[_Said]) -> list[tuple[Widget, Ink]]:
    """Store what applies in one place; answer what has to be drawn."""
    if not answers:
        return []
    if place.kind == "check":
        return _tick(place)
    if place.kind == "radio":
        _choose(place, answers[0].text)
        return []
    text = answers[0].text
    if place.kind == "choice":
        stored = _stored_choice(place, text)
        if stored is None:
            return []
        place.field[NameObject("/V")] = TextStringObject(stored[0])
        return [(place, _ink(place, stored[1]))]
    most = place.get("/MaxLen")
    text = text if most is None else text[: int(most)]
    place.field[NameObject("/V")] = TextStringObject(text)
    return [(place, _ink(place, text))]


def _tick(place: Widget) -> list[tuple[Widget, Ink]]:
    states = on_states(place.part)
    state = NameObject(f"/{states[0] if states else 'Yes'}")
    place.field[NameObject("/V")] = state
    place.part[NameObject("/AS")] = state
    if states:
        return []
    wide, high = _sides(place)
    return [(place, Ink(wide, high, "", is_tick=True))]


def _choose(place: Widget, text: str) -> None:
    """Put one button of a group on or off; the text names the state of the one that is on."""
    wanted = text.strip().casefold()
    own = next((one for one in place.options if one.casefold() == wanted), None)
    if own is not None:
        place.field[NameObject("/V")] = NameObject(f"/{own}")
    place.part[NameObject("/AS")] = _OFF if own is None else NameObject(f"/{own}")


def _stored_choice(place: Widget, text: str) -> tuple[str, str] | None:
    """A choice as it is stored and shown; None where the form has no such choice."""
    wanted = text.strip().casefold()
    for stored, shown in choices(place.get("/Opt")):
        if wanted in (stored.casefold(), shown.casefold()):
            return stored, shown
    return (text, text) if int(place.get("/Ff") or 0) & _EDIT else None


def _sides(place: Widget) -> tuple[float, float]:
    x0, y0, x1, y1 = sides_of(place.part)
    return max(1.0, abs(x1 - x0)), max(1.0, abs(y1 - y0))


def _ink(place: Widget, text: str) -> Ink:
    flags = int(place.get("/Ff") or 0) if place.kind == "text" else 0
    wide, high = _sides(place)
    if _turned(place) % 180:
        wide, high = high, wide
    look = _look(place)
    return Ink(
        wide,
        high,
        text,
        size=size_in(str(place.get("/DA") or "")),
        side=int(place.get("/Q") or 0),
        cells=int(place.get("/MaxLen") or 0) if flags & _COMB else 0,
        has_lines=bool(flags & _LINES),
        ground=_colour(look.get("/BG")),
        border=_colour(look.get("/BC")),
    )


def _look(place: Widget) -> Any:
    found = place.part.get("/MK")
    return {} if found is None else found.get_object()


def _turned(place: Widget) -> int:
    return int(_look(place).get("/R", 0)) % 360


def _colour(parts: Any) -> tuple[float, ...] | None:
    found = tuple(float(one) for one in parts or ())
    return found if len(found) in (1, 3, 4) else None


def _stamp(writer: PdfWriter, inked: Sequence[tuple[Widget, Ink]]) -> None:
    """Give each place its drawing."""
    if not inked:
        return
    pages = drawn([ink for _, ink in inked])
    for (place, ink), number in zip(inked, range(len(inked)), strict=True):
        drawing = writer._add_object(_as_drawing(writer, pages, number, ink, place))
        shown: Any = drawing
        if ink.is_tick:
            shown = DictionaryObject({place.part["/AS"]: drawing})
        place.part[NameObject("/AP")] = DictionaryObject({NameObject("/N"): shown})


def _as_drawing(
    writer: PdfWriter, pages: PdfReader, number: int, ink: Ink, place: Widget
) -> StreamObject:
    page = pages.pages[number]
    content = page.get_contents()
    drawing = StreamObject()
    drawing.set_data(b"" if content is None else content.get_data())
    sides = ArrayObject(
        [FloatObject(0), FloatObject(0), FloatObject(ink.wide), FloatObject(ink.high)]
    )
    drawing[NameObject("/Type")] = NameObject("/XObject")
    drawing[NameObject("/Subtype")] = NameObject("/Form")
    drawing[NameObject("/BBox")] = sides
    drawing[NameObject("/Resources")] = page["/Resources"].clone(writer)
    turned = _TURNS.get(_turned(place))
    if turned is not None:
        drawing[NameObject("/Matrix")] = ArrayObject([FloatObject(one) for one in turned])
    return drawing


# Counter-clockwise, as /MK /R says; the reader moves the turned box back onto its rectangle.
_TURNS: Mapping[int, tuple[int, ...]] = {
    90: (0, 1, -1, 0, 0, 0),
    180: (-1, 0, 0, -1, 0, 0),
    270: (0, -1, 1, 0, 0, 0),
}


def _write_spots(writer: PdfWriter, spots: Sequence[Match], parcel: Submission) -> None:
    """Write at spots of the pages as they are shown."""
    written = []
    for spot in spots:
        if spot["page"] > len(writer.pages):
            raise DomainError("form_field_gone", name=f"page {spot['page']}")
        said = _said(spot, parcel)
        if said.applies:
            written.append((spot, _spot_ink(spot, said.text)))
    if not written:
        return
    pages = drawn([ink for _, ink in written])
    for number, (spot, _) in enumerate(written):
        page, size = writer.pages[spot["page"] - 1], float(spot["size_pt"])
        if page.rotation:
            page.transfer_rotation_to_content()
        x = float(page.cropbox.left) + spot["x_pt"]
        # The line the text stands on lies this far above the lower edge of its drawing.
        y = float(page.cropbox.top) - spot["y_pt"] - (_SPOT_HIGH / 2 - RISE) * size
        page.merge_transformed_page(pages.pages[number], Transformation().translate(x, y))


def _spot_ink(spot: Match, text: str) -> Ink:
    size = float(spot["size_pt"])
    is_tick = bool(spot["when"]) and not spot["words"]
    wide = size if is_tick else float(spot["width_pt"])
    return Ink(wide, _SPOT_HIGH * size, text, size=size, is_tick=is_tick)
