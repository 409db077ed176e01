"""The two faces every sheet is set in, found in an installed package and embedded.

Not a general font loader. The faces are DejaVu Sans Condensed, regular and bold: they have
the accents of every European language and the boxes to tick.
"""

from functools import cache
from importlib.util import find_spec
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

BODY = "KnotbedBody"
BOLD = "KnotbedBold"

# Only the files are wanted: importing the package would ask for the typesetter it is made for.
_PACKAGE = "rinoh_typeface_dejavusans"
_FILES = {BODY: "DejaVuSansCondensed.ttf", BOLD: "DejaVuSansCondensed-Bold.ttf"}


@cache
def register() -> None:
    """Make both faces known to ReportLab, once per process."""
    spec = find_spec(_PACKAGE)
    if spec is None or not spec.submodule_search_locations:
        raise FileNotFoundError(f"The package {_PACKAGE}, which holds the fonts, is not installed.")
    folder = Path(spec.submodule_search_locations[0])
    for name, file in _FILES.items():
        pdfmetrics.registerFont(TTFont(name, folder / file))
    pdfmetrics.registerFontFamily(BODY, normal=BODY, bold=BOLD, italic=BODY, boldItalic=BOLD)
