"""Run a command beside a PostgreSQL server of its own, thrown away afterwards.

Run as a module: python -m api.bootstrap.postgres COMMAND... (it finds the server in DATABASE_URL).
"""

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import quote

from .steps import Trouble

INSTALLED = Path("/usr/lib/postgresql")  # where Debian puts each version's programs
OWNER = "postgres"
# It is thrown away, so nothing of it has to survive a power cut.
SMALL = "-c max_connections=100"
HASTE = f"{SMALL} -c fsync=off -c synchronous_commit=off -c full_page_writes=off"


def programs() -> Path | None:
    """Return the folder of the newest PostgreSQL server, or None when there is none."""
    found = sorted(INSTALLED.glob("*/bin/initdb"), key=_version)
    on_path = shutil.which("initdb")
    if found:
        return found[-1].parent
    return Path(on_path).resolve().parent if on_path and os.name != "nt" else None


def _version(initdb: Path) -> list[int]:
    return [int(part) for part in initdb.parents[1].name.split(".") if part.isdigit()]


@contextmanager
def running(bin_folder: Path, options: str = HASTE) -> Iterator[str]:
    """Yield the address of a new server that listens on a socket in a folder of its own."""
    folder = Path(tempfile.mkdtemp(prefix="knotbed-pg-"))
    data, log = folder / "data", folder / "log"
    control = [str(bin_folder / "pg_ctl"), "-D", str(data)]
    options = f"-c listen_addresses='' -c unix_socket_directories={folder} {options}"
    made = ["-A", "trust", "-U", OWNER, "-E", "UTF8", "--locale=C.UTF-8", "--no-sync"]
    try:
        if is_root():
            shutil.chown(folder, OWNER)
        call([str(bin_folder / "initdb"), "-D", str(data), *made])
        call([*control, "-w", "-l", str(log), "-o", options, "start"])
        try:
            yield f"postgres://{OWNER}@{quote(str(folder), safe='')}/postgres"
        finally:
            call([*control, "-m", "immediate", "stop"])
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def is_root() -> bool:
    """Say whether this is the account PostgreSQL refuses to run as."""
    return os.name != "nt" and os.geteuid() == 0


def call(argv: Sequence[str]) -> None:
    """Run one of its programs as an account it accepts, in a folder that account may read."""
    become = ["runuser", "-u", OWNER, "--"] if is_root() else []
    # Into a file: the server keeps its output open, and a pipe would wait for it for ever.
    with tempfile.TemporaryFile("w+", encoding="utf-8", errors="replace") as said:
        done = subprocess.run([*become, *argv], cwd="/", stdout=said, stderr=said, check=False)
        said.seek(0)
        if done.returncode != 0:
            raise Trouble(f"{Path(argv[0]).name} of PostgreSQL failed.\n{said.read()}")


def main(command: Sequence[str]) -> int:
    """Run the command beside a server; return its exit code."""
    found = programs()
    if found is None:
        raise Trouble("There is no PostgreSQL server on this machine.")
    with running(found) as address:
        env = os.environ | {"DATABASE_URL": address}
        return subprocess.call(list(command), env=env, stdin=subprocess.DEVNULL)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
