"""Is the committed API description still what the code says, and its TypeScript types too?

Run as a module: python -m api.bootstrap.drift openapi|types (types needs node on PATH).
"""

import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from .places import FRONTEND, ROOT

OPENAPI = ROOT / "api" / "openapi.yaml"
TYPES = FRONTEND / "src" / "sync" / "schema.d.ts"
WRITE = {
    OPENAPI: "python3 manage.py spectacular --validate --fail-on-warn --file api/openapi.yaml",
    TYPES: "npm run types (in frontend/)",
}


def openapi(target: Path) -> list[str]:
    """Return the command that writes the API description into `target`."""
    argv = [sys.executable, "manage.py", "spectacular", "--validate", "--fail-on-warn"]
    return [*argv, "--file", str(target)]


def types(target: Path) -> list[str]:
    """Return the command that writes the TypeScript types into `target`."""
    script = FRONTEND / "node_modules" / "openapi-typescript" / "bin" / "cli.js"
    return ["node", str(script), str(OPENAPI), "-o", str(target)]


def compare(committed: Path, argv: Sequence[str], fresh: Path) -> str:
    """Write the file anew; return why the committed one is not the same, nothing when it is."""
    done = subprocess.run(list(argv), cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        return f"{done.stdout}{done.stderr}"
    if not committed.exists() or committed.read_bytes() != fresh.read_bytes():
        return f"{committed.name} is not what the code says; write it again: {WRITE[committed]}"
    return ""


def main(what: str) -> str:
    """Compare one of the two files; return the complaint, or nothing."""
    with tempfile.TemporaryDirectory() as folder:
        if what == "openapi":
            fresh = Path(folder) / OPENAPI.name
            return compare(OPENAPI, openapi(fresh), fresh)
        fresh = Path(folder) / TYPES.name
        return compare(TYPES, types(fresh), fresh)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]) or 0)
