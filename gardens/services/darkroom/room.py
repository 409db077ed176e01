"""The door to the darkroom: one process of its own draws pictures anew, one after the other.

The server never decodes. A picture that takes too long or too much ends that process, not this
one; the next picture gets a new one. How long a picture may compute is judged by that process's
own bound; the clock here only keeps the queue going, and proves nothing on a busy server.
"""

import hashlib
import logging
import os
import subprocess
import sys
import threading
import time
from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from django.conf import settings

from gardens.services.darkroom import wire
from gardens.services.darkroom.picture import BadImage, Picture

LONGEST_S = (
    12.0  # more than a picture may compute, so that on a quiet server that bound comes first
)
MOST_SLOW = 64
LONGEST_WAIT_S = 30.0
# An arena for each of the decoder's threads would use up the address space without any picture.
SURROUNDINGS = {"MALLOC_ARENA_MAX": "1", "PYTHONNOUSERSITE": "1"}
# What a Python needs to start; no secret of the server is among it.
KEPT = ("PATH", "SYSTEMROOT", "LD_LIBRARY_PATH", "DYLD_LIBRARY_PATH", "LANG")

Process = subprocess.Popen[bytes]
log = logging.getLogger(__name__)


class Busy(Exception):
    """Others' pictures are in work; this one can be sent again."""


class Darkroom:
    """One process and the queue in front of it."""

    def __init__(self, longest_s: float = LONGEST_S, longest_wait_s: float = LONGEST_WAIT_S):
        self.longest_s, self.longest_wait_s = longest_s, longest_wait_s
        self.bounds: list[str] | None = None
        self._queue = threading.Lock()
        self._process: Process | None = None
        # Hashes of what the clock has ended in this process's life.
        self._slow: deque[bytes] = deque(maxlen=MOST_SLOW)

    def redraw(self, data: bytes) -> Picture:
        """Return the photo drawn anew; raises ``BadImage`` or ``Busy``."""
        with self._turn():
            try:
                if self._process is not None:
                    return self._develop(self._process, data)
            except wire.Ended:
                pass  # perhaps for what earlier pictures left behind: once more in a new process
            try:
                return self._develop(self._start(), data)
            except wire.Ended:
                raise BadImage from None

    @contextmanager
    def _turn(self) -> Iterator[None]:
        if not self._queue.acquire(timeout=self.longest_wait_s):
            raise Busy
        try:
            yield
        finally:
            self._queue.release()

    def _develop(self, process: Process, data: bytes) -> Picture:
        assert process.stdin and process.stdout
        clock = threading.Timer(self.longest_s, process.kill)
        started = time.monotonic()
        clock.start()
        try:
            wire.write_request(process.stdin, data)
            return wire.read_answer(process.stdout)
        except wire.Ended:
            self.close()
            if time.monotonic() - started >= self.longest_s:
                raise self._too_slow(data) from None
            raise
        finally:
            clock.cancel()

    def _too_slow(self, data: bytes) -> Busy | BadImage:
        """Return what to say of bytes the clock ended: once may be the server's fault."""
        digest = hashlib.sha256(data).digest()
        if digest in self._slow:
            return BadImage()
        self._slow.append(digest)
        return Busy()

    def _start(self) -> Process:
        process = subprocess.Popen(
            [sys.executable, "-m", "gardens.services.darkroom.worker"],
            cwd=settings.BASE_DIR,
            env={name: os.environ[name] for name in KEPT if name in os.environ} | SURROUNDINGS,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
        assert process.stdout
        self._process = process
        try:
            self._tell(wire.read_hello(process.stdout))
        except wire.Ended:
            self.close()
            # The server's fault, not the photo's: it must not be called a bad one.
            raise RuntimeError("The process that opens photos does not start.") from None
        return process

    def _tell(self, bounds: list[str]) -> None:
        """Say once what this system cannot bound."""
        if self.bounds is None and not {"memory", "computing"} <= set(bounds):
            log.warning(
                "This system bounds neither memory nor computing time of a photo's decoder, or "
                "not both; it is still ended after %d seconds.",
                self.longest_s,
            )
        self.bounds = bounds

    def close(self) -> None:
        """End the process; the next picture starts a new one."""
        process, self._process = self._process, None
        if process is None:
            return
        process.kill()
        process.wait()
        for stream in (process.stdin, process.stdout):
            with suppress(OSError):
                if stream:
                    stream.close()


darkroom = Darkroom()
