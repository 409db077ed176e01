"""Printed pages read back with programs that had no part in printing them."""

import io
import re
import subprocess
import tempfile
from pathlib import Path

import pypdf
import zxingcpp
from PIL import Image

# Points; ISO 216 for A4 (210 × 297 mm), 8.5 × 11 inches for US Letter.
SIZES = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}


def run(program, pdf, *options):
    """Standard output of one of poppler's programs on a PDF."""
    with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
        file.write(pdf)
        file.flush()
        target = ["-"] if program == "pdftotext" else []
        done = subprocess.run(
            [program, *options, file.name, *target], capture_output=True, check=True
        )
    assert done.stderr == b""
    return done.stdout.decode("utf-8")


def text(pdf):
    return run("pdftotext", pdf, "-layout")


def flowing(pdf):
    """The text with every run of blanks and line ends as one space."""
    return " ".join(text(pdf).split())


def fonts(pdf):
    """Rows of pdffonts: name, whether embedded, whether a subset."""
    rows = run("pdffonts", pdf).splitlines()[2:]
    return [
        re.match(r"(\S+).* (yes|no) +(yes|no) +(?:yes|no) +\d+ +\d+$", row).groups() for row in rows
    ]


def reader(pdf):
    return pypdf.PdfReader(io.BytesIO(pdf))


def letters(pdf):
    """Every piece of text with its size and its start, by page."""
    found = []
    for number, page in enumerate(reader(pdf).pages, start=1):

        def keep(said, _, matrix, __, size, number=number):
            if said.strip():
                found.append((number, said, size * abs(matrix[3] or 1), matrix[4], matrix[5]))

        page.extract_text(visitor_text=keep)
    return found


def pictures(pdf, dpi=150):
    """Pages as grey pictures, drawn by pdftoppm."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "sheet.pdf"
        file.write_bytes(pdf)
        subprocess.run(
            ["pdftoppm", "-r", str(dpi), "-gray", "-png", file, Path(folder) / "page"],
            check=True,
            capture_output=True,
        )
        return [Image.open(each).convert("L").copy() for each in sorted(Path(folder).glob("*.png"))]


def scanned(picture):
    """What a QR reader finds in a picture, and how wide each code is [pixels]."""
    codes = zxingcpp.read_barcodes(picture)
    return [(each.text, each.position.top_right.x - each.position.top_left.x) for each in codes]


def ink_in_margins(picture, margin):
    """Dark pixels in a frame of that many pixels round the page."""
    wide, high = picture.size
    inner = Image.new("L", (wide - 2 * margin, high - 2 * margin), 255)
    frame = picture.copy()
    frame.paste(inner, (margin, margin))
    return sum(frame.histogram()[:200])
