"""The house's own commands run as a person runs them, each as a process of its own."""

import os
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from tests.house.tree import ROOT

PATIENCE_S = 300  # the first start may have to build the web app


@dataclass
class Started:
    """A command that serves: its address, the seconds until it answered, what it said."""

    address: str
    seconds: float
    said: Path
    process: subprocess.Popen[bytes]

    def stop(self) -> int:
        """Press Ctrl-C and return the exit code."""
        self.process.send_signal(signal.SIGINT)
        return self.process.wait(20)


def environment() -> dict[str, str]:
    """Return the environment of a person who has set nothing."""
    ours = ("KNOTBED_", "DATABASE_URL", "DJANGO_")
    return {name: value for name, value in os.environ.items() if not name.startswith(ours)}


def free_port() -> int:
    """Return a port nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def demo(data: Path) -> Iterator[Started]:
    """Yield a running demo on a data folder."""
    port = free_port()
    said = data.with_name(f"{data.name}-{port}.log")
    argv = [sys.executable, "manage.py", "demo", "--no-open", "--port", str(port)]
    began = time.monotonic()
    with said.open("wb") as out:
        process = subprocess.Popen(
            [*argv, "--data", str(data)],
            cwd=ROOT,
            env=environment(),
            stdin=subprocess.DEVNULL,
            stdout=out,
            stderr=subprocess.STDOUT,
        )
    try:
        address = f"http://127.0.0.1:{port}"
        wait_for(f"{address}/api/v1/meta", process, said)
        yield Started(address, time.monotonic() - began, said, process)
    finally:
        # Asked first: a server that is killed leaves its worker behind with the database open.
        process.terminate()
        try:
            process.wait(20)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()


def wait_for(address: str, process: subprocess.Popen[bytes], said: Path) -> None:
    """Wait until the address answers."""
    end = time.monotonic() + PATIENCE_S
    while time.monotonic() < end:
        if process.poll() is not None:
            raise RuntimeError(said.read_text())
        try:
            urllib.request.urlopen(address, timeout=2).close()
            return
        except OSError:
            time.sleep(0.05)
    raise RuntimeError(f"no answer: {said.read_text()}")
