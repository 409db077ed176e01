"""A lab's own forms, made here with ReportLab: one with lines to fill, one printed flat."""

from __future__ import annotations

from pathlib import Path

from reportlab.lib.pagesizes import A4
from reportlab.pdfgen.canvas import Canvas

LEFT_PT, BOX_PT, STEP_PT = 60, 220, 34
# The name inside the PDF, what is printed in front of it.
TEXTS = {
    "grower_name": "Name of grower",
    "address": "Address",
    "email": "E-mail",
    "account_no": "Account number",
    "sample_id_1": "Sample 1",
    "crop_1": "Present crop",
    "next_crop_1": "Next crop",
    "remarks": "Remarks",
}
BOXES = {"diagnostic": "Diagnostic", "predictive": "Predictive"}


def page_of(name: str) -> float:
    """How far from the top of the page the middle of a line lies [pt]."""
    return A4[1] - (730 - list(TEXTS).index(name) * STEP_PT) - 10


def fillable_form(path: Path) -> Path:
    """Write a form with eight lines and two boxes; the lines have the names above."""
    page = Canvas(str(path), pagesize=A4)
    page.drawString(LEFT_PT, 780, "Vento Norte Soil Bench: request for nematode assay")
    for at, (name, label) in enumerate(TEXTS.items()):
        top = 730 - at * STEP_PT
        page.drawString(LEFT_PT, top + 5, label)
        page.acroForm.textfield(
            name=name, tooltip=label, x=LEFT_PT + 130, y=top, width=BOX_PT, height=20
        )
    for at, (name, label) in enumerate(BOXES.items()):
        page.drawString(LEFT_PT + 30 + 160 * at, 425, label)
        page.acroForm.checkbox(
            name=name, tooltip=label, x=LEFT_PT + 160 * at, y=420, size=18, checked=False
        )
    page.save()
    return path


def flat_form(path: Path) -> Path:
    """Write the same lines as ink on paper, with nothing to fill."""
    page = Canvas(str(path), pagesize=A4)
    page.drawString(LEFT_PT, 780, "Vento Norte Soil Bench: request for nematode assay")
    for at, label in enumerate(TEXTS.values()):
        page.drawString(LEFT_PT, 735 - at * STEP_PT, f"{label} ______________________")
    page.save()
    return path
