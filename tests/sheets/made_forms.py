"""Fillable and flat forms of an invented lab, made for the tests with ReportLab."""

import io

from pypdf import PdfReader, PdfWriter
from pypdf.generic import DictionaryObject, NameObject
from reportlab.pdfgen.canvas import Canvas

A4 = (595.28, 841.89)


def fillable(canvas_size=A4):
    """Text of one and several lines, a comb, boxes, a choice and a group of buttons."""
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=canvas_size, invariant=1)
    canvas.drawString(50, 800, "Order form of the Example Soil Laboratory (invented)")
    form = canvas.acroForm
    text = {"borderStyle": "solid", "fontSize": 10, "height": 20}
    form.textfield(name="Grower name", x=150, y=740, width=200, **text)
    form.textfield(name="email", x=150, y=710, width=200, **text)
    form.textfield(name="Sample ID 1", x=150, y=680, width=90, **text)
    form.textfield(name="Sample ID 2", x=300, y=680, width=90, **text)
    form.textfield(name="cores", x=150, y=650, width=60, **text)
    tall = {**text, "height": 60}
    form.textfield(name="Treatments", x=150, y=570, width=250, fieldFlags="multiline", **tall)
    form.textfield(name="Lab use only", x=150, y=540, width=200, value="L-77", **text)
    form.checkbox(name="chk_species", x=150, y=510, size=14, tooltip="Identify species")
    form.checkbox(name="chk_eggs", x=250, y=510, size=14, tooltip="Count eggs")
    form.choice(
        name="Purpose",
        x=150,
        y=480,
        width=140,
        height=20,
        options=[("Diagnostic", "D"), ("Predictive", "P")],
        value="P",
        fieldFlags="combo",
    )
    form.radio(name="Irrigated", value="Y", x=150, y=450, size=14, selected=False)
    form.radio(name="Irrigated", value="N", x=200, y=450, size=14, selected=False)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def flat(n_pages=1):
    """Lines to write on and nothing to fill."""
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=A4, invariant=1)
    for _ in range(n_pages):
        canvas.drawString(50, 740, "Name:")
        canvas.line(100, 738, 300, 738)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def changed(data, change):
    """A PDF after something was done to it with pypdf."""
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(data)))
    change(writer)
    buffer = io.BytesIO()
    writer.write(buffer)
    return buffer.getvalue()


def encrypted(data):
    return changed(data, lambda writer: writer.encrypt("root", algorithm="RC4-128"))


def with_xfa(data):
    def add(writer):
        form = writer.root_object.setdefault(NameObject("/AcroForm"), DictionaryObject())
        form.get_object()[NameObject("/XFA")] = DictionaryObject()

    return changed(data, add)


def without_drawn_boxes(data):
    """The same form with check boxes that the file does not draw."""

    def strip(writer):
        for one in writer.pages[0]["/Annots"]:
            part = one.get_object()
            if part.get("/FT") == "/Btn" and "/Parent" not in part:
                part.pop("/AP", None)

    return changed(data, strip)


def turned(data, degrees):
    """A PDF whose first page is shown turned."""
    return changed(data, lambda writer: writer.pages[0].rotate(degrees))
