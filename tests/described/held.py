"""Holds a running server to its description, as one asker, for so many seconds."""

import json
import re
import subprocess
import sys
from pathlib import Path

from tests.askers import Session
from tests.bench.scene import GARDEN
from tests.described.adapted import Described, aimed

# Whether a day, a name or a moment of the right shape is also right, no schema can say.
MAY_STILL_BE_WRONG = "push|shares|login|pair|join|briefing|answers/{question}"
SETTINGS = f"""
[checks]
enabled = true

[[operations]]
include-path-regex = "({MAY_STILL_BE_WRONG})$"
checks.positive_data_acceptance.expected-statuses = ["2xx", 400, 401, 403, 404, 409, 429]

[[operations]]
include-path-regex = "sheets/|saved-files$"
checks.positive_data_acceptance.expected-statuses = ["2xx", 401, 403, 404, 422, 429]
"""
SIGNED_IN = """
[auth.openapi.session]
api_key = "{cookie}"
"""


def hold(port: int, session: Session, seconds: int, folder: Path, described: Described) -> str:
    """Return what was found to differ; empty when the server does as the description says."""
    aimed_file = folder / "openapi.json"
    aimed_file.write_text(json.dumps(aimed(described, GARDEN, session.device)))
    settings = folder / "schemathesis.toml"
    signed_in = SIGNED_IN.format(cookie=session.cookie.partition("=")[2]) if session.cookie else ""
    settings.write_text(SETTINGS + signed_in)
    # Its command by its module: a script's first line may name a folder that has moved.
    argv = [sys.executable, "-c", "from schemathesis.cli import schemathesis as st; st()"]
    argv += ["--config-file", str(settings), "run", str(aimed_file)]
    argv += ["--url", f"http://127.0.0.1:{port}", "--max-time", str(seconds), "--no-color"]
    if session.token:
        argv += ["--header", f"X-CSRFToken:{session.token}"]
    argv += [
        "--continue-on-failure",
        "--workers",
        "1",
        "--checks",
        "all",
        "--generation-database",
        "none",
    ]
    done = subprocess.run(argv, cwd=folder, capture_output=True, text=True, check=False)
    reached = re.search(r"Selected: (\d+)/\d+\n  Tested: \1\n", done.stdout)
    return "" if done.returncode == 0 and reached else done.stdout + done.stderr
