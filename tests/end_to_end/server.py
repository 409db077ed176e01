"""The real server as a process of its own: started, stopped, killed, restored."""

from __future__ import annotations

import os
import signal
import socket
import sqlite3
import subprocess
import sys
import time
import urllib.error
import urllib.request
from contextlib import closing
from pathlib import Path

import psycopg

from api.bootstrap.serving import THREADS

ROOT = Path(__file__).resolve().parents[2]
PORTS = range(8221, 8260)
PATIENCE_S = 20
TELLING_S = 3


def reserve_port() -> tuple[int, socket.socket]:
    """Take the first of our ports that nobody uses, and keep it while the server is stopped.

    The UDP socket of the same number is the sign that it is taken: without it another test run
    could slip in while our server is down, and a phone would find a stranger at its address.
    """
    for port in PORTS:
        sign = socket.socket(socket.AF_INET, socket.SOCK_DGRAM)
        try:
            sign.bind(("127.0.0.1", port))
            with socket.socket() as probe:
                probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
                probe.bind(("127.0.0.1", port))
        except OSError:
            sign.close()
            continue
        return port, sign
    raise RuntimeError("every port kept for the browser tests is taken")


def environment(data: Path, web: Path, **more: str) -> dict[str, str]:
    """Return the settings a server or a command on this data folder runs with."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("KNOTBED_", "DATABASE_URL"))}
    return kept | {
        "KNOTBED_DATA_DIR": str(data),
        "KNOTBED_TEST_WEB": str(web),
        "DJANGO_SETTINGS_MODULE": "tests.end_to_end.server_settings",
        **more,
    }


def manage(data: Path, web: Path, *words: str, **more: str) -> str:
    """Run one management command on a data folder and return what it printed."""
    run = subprocess.run(
        [sys.executable, "manage.py", *words],
        cwd=ROOT,
        env=environment(data, web, **more),
        capture_output=True,
        text=True,
    )
    assert run.returncode == 0, run.stdout + run.stderr
    return run.stdout


class Server:
    """One server on one port with one data folder."""

    def __init__(self, data: Path, web: Path, **more: str) -> None:
        self.data, self.web, self.more = data, web, more
        self.port, self._sign = reserve_port()
        self.address = f"http://127.0.0.1:{self.port}"
        self.log = data / "server.log"
        self.process: subprocess.Popen | None = None
        self._stopped, self._back_at = False, 0.0

    def start(self) -> None:
        """Start it and wait until it answers."""
        command = ["granian", "--interface", "wsgi", "--host", "127.0.0.1"]
        command += ["--port", str(self.port), "--workers", "1", "--blocking-threads", str(THREADS)]
        self.process = subprocess.Popen(
            [sys.executable, "-m", *command, "api.wsgi:application"],
            cwd=ROOT,
            env=environment(self.data, self.web, **self.more),
            stdout=self.log.open("ab"),
            stderr=subprocess.STDOUT,
            start_new_session=True,
        )
        give_up = time.monotonic() + PATIENCE_S
        while not self.answers():
            assert self.process.poll() is None, self.log.read_text()
            assert time.monotonic() < give_up, self.log.read_text()
            time.sleep(0.05)
        self._back_at = time.monotonic()

    def was_away(self) -> bool:
        """Say whether it is stopped, or was so lately that a phone may just be telling of it."""
        lately = self._stopped and time.monotonic() - self._back_at < TELLING_S
        return self.process is None or lately

    def answers(self) -> bool:
        """Say whether somebody answers at the address."""
        try:
            with urllib.request.urlopen(f"{self.address}/api/v1/meta", timeout=2) as answer:
                return answer.status == 200
        except (urllib.error.URLError, OSError):
            return False

    def stop(self, how: int = signal.SIGTERM) -> None:
        """End the process group and wait until the port is silent."""
        if self.process is None:
            return
        os.killpg(self.process.pid, how)
        try:
            self.process.wait(PATIENCE_S)
        except subprocess.TimeoutExpired:
            os.killpg(self.process.pid, signal.SIGKILL)
            self.process.wait(PATIENCE_S)
        self.process, self._stopped = None, True
        while self.answers():
            time.sleep(0.05)

    def put_away(self) -> None:
        """End it and give its port back."""
        self.kill()
        self._sign.close()

    def kill(self) -> None:
        """Pull the plug: SIGKILL, nothing is tidied up."""
        self.stop(signal.SIGKILL)

    def make_account(self, name: str, password: str) -> None:
        """Make a second grower's account, with no garden yet."""
        words = f"username={name!r}, password={password!r}"
        make = f"from gardens.services.first_account import create; create({words})"
        self._manage("shell", "--no-imports", "-c", make)

    def ask(self, question: str, *values: object) -> list[tuple]:
        """Look into the server's database from outside, read only."""
        # Closed at once: a database that somebody has open cannot be restored.
        address = self.more.get("DATABASE_URL")
        if address:
            with psycopg.connect(address) as database:
                return database.execute(question.replace("?", "%s"), values).fetchall()
        opened = sqlite3.connect(f"file:{self.data / 'db.sqlite3'}?mode=ro", uri=True)
        with closing(opened) as database:
            return database.execute(question, values).fetchall()

    def back_up(self, file: Path) -> None:
        """Write a backup while the server runs, as a grower would."""
        self._manage("make_backup", str(file))

    def restore(self, backup: Path) -> None:
        """Put a backup in the place of the present data; the server must be stopped."""
        assert self.process is None
        self._manage("restore_backup", str(backup))

    def _manage(self, *words: str) -> None:
        manage(self.data, self.web, *words, **self.more)
