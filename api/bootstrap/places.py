"""Where things lie in the project folder."""

import os
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
VENV = ROOT / ".venv"
FRONTEND = ROOT / "frontend"
WEB_BUILD = ROOT / "webbuild"
LOGS = ROOT / ".logs"


def venv_python() -> Path:
    """Return the Python inside the project's own environment, whether it exists or not."""
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def log_file(label: str) -> Path:
    """Return where the details of a step are written."""
    LOGS.mkdir(exist_ok=True)
    name = "".join(letter if letter.isalnum() else "-" for letter in label.lower())
    return LOGS / f"{name}.log"
