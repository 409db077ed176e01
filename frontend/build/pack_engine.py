"""Packs the Python that runs on the phone into one zip, byte for byte the same every time.

Run by the Python whose packages are wanted: ``python pack_engine.py <project> <zip>``. Prints
a hash of what is inside. Not for Pyodide itself: npm brings that.
"""

import hashlib
import io
import re
import sys
import zipfile
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

FONTS = ("DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf")
NOT_PRINTED = re.compile(r"^(fonts|graphics)/")  # ReportLab's own type and charts
OTHER_CLOCKS = re.compile(r"^zoneinfo/(posix|right)/|\.tab$|\.zi$")
LONG_AGO = (1980, 1, 1, 0, 0, 0)

Packed = tuple[str, Path]


def project_files(root: Path) -> Iterator[Packed]:
    """Yield the core, its tables and the phone's own way in."""
    for folder in ("gardens/domain", "gardens/sheets"):
        yield from ((p.relative_to(root).as_posix(), p) for p in (root / folder).rglob("*.py"))
    yield "gardens/__init__.py", root / "gardens/__init__.py"
    yield from ((f"fixtures/{p.name}", p) for p in (root / "fixtures").glob("*.json"))
    own = root / "frontend/src/engine/python"
    yield from ((p.relative_to(own).as_posix(), p) for p in own.rglob("*.py"))


def package_files() -> Iterator[Packed]:
    """Yield what the sheets need of the installed packages."""
    for name, path in inside("reportlab", "*.py"):
        if not NOT_PRINTED.match(name.removeprefix("reportlab/")):
            yield name, path
    yield from inside("segno", "*.py")
    yield from inside("pypdf", "*.py")
    yield from (one for one in inside("rinoh_typeface_dejavusans", "*.ttf") if one[1].name in FONTS)
    for name, path in inside("tzdata", "*"):
        if not OTHER_CLOCKS.search(name.removeprefix("tzdata/")):
            yield name, path


def inside(package: str, pattern: str) -> Iterator[Packed]:
    """Yield the files of an installed package, without importing it."""
    spec = find_spec(package)
    if spec is None or not spec.submodule_search_locations:
        raise SystemExit(f"The package {package} is not installed beside {sys.executable}.")
    folder = Path(spec.submodule_search_locations[0])
    for path in folder.rglob(pattern):
        if path.is_file() and "__pycache__" not in path.parts:
            yield f"{package}/{path.relative_to(folder).as_posix()}", path


def pack(files: list[Packed]) -> tuple[bytes, str]:
    """Return the zip and a hash of what it holds, which does not depend on how it is pressed."""
    box, said = io.BytesIO(), hashlib.sha256()
    with zipfile.ZipFile(box, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, path in sorted(files):
            content = path.read_bytes()
            said.update(f"{name}\0{len(content)}\0".encode() + content)
            entry = zipfile.ZipInfo(name, LONG_AGO)
            entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, 0o644 << 16
            archive.writestr(entry, content, compresslevel=9)
    return box.getvalue(), said.hexdigest()


def main(root: Path, to: Path) -> None:
    """Write the zip and print the hash."""
    packed, said = pack([*project_files(root), *package_files()])
    to.write_bytes(packed)
    print(said)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
