"""One line per step with the seconds it took; one sentence when it fails."""

import os
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NoReturn

from .places import ROOT, log_file

LABEL_WIDTH = 44


class Trouble(Exception):
    """A failure told in one sentence: what happened and what to do."""


def run(
    label: str,
    argv: Sequence[str],
    failed: str,
    *,
    cwd: Path = ROOT,
    env: Mapping[str, str] | None = None,
) -> None:
    """Run one step quietly, its output in a log file; raise Trouble with `failed` when it fails."""
    log = log_file(label)
    code, seconds = watch(label, argv, log, cwd=cwd, env=env)
    finish(label, "" if code == 0 else "failed", seconds)
    if code != 0:
        raise Trouble(f"{failed} Details: {log}")


def watch(
    label: str,
    argv: Sequence[str],
    log: Path,
    *,
    cwd: Path = ROOT,
    env: Mapping[str, str] | None = None,
) -> tuple[int, float]:
    """Run `argv` into a log file, counting the seconds on a terminal; return exit code and time."""
    started = time.monotonic()
    with log.open("wb") as out:
        process = subprocess.Popen(
            list(argv),
            cwd=cwd,
            env=env,
            stdin=subprocess.DEVNULL,
            stdout=out,
            stderr=subprocess.STDOUT,
        )
        try:
            while True:
                begin(label, time.monotonic() - started)
                try:
                    code = process.wait(timeout=1 if sys.stdout.isatty() else None)
                except subprocess.TimeoutExpired:
                    continue
                return code, time.monotonic() - started
        except BaseException:
            process.terminate()
            process.wait()
            raise


def begin(label: str, seconds: float) -> None:
    """Show that a step is under way; a pipe gets its line only when the step is done."""
    if sys.stdout.isatty():
        print(f"\r  {label:<{LABEL_WIDTH}}{seconds:6.0f} s", end="", flush=True)


def finish(label: str, verdict: str, seconds: float) -> None:
    """Write the line of a finished step."""
    start = "\r" if sys.stdout.isatty() else ""
    print(f"{start}  {label:<{LABEL_WIDTH}}{seconds:6.1f} s  {verdict}".rstrip(), flush=True)


def hand_over(argv: Sequence[str], env: dict[str, str]) -> NoReturn:
    """Become another program, so that Ctrl-C and kill reach it directly."""
    sys.stdout.flush()
    if os.name == "nt":  # Windows starts a second process and gives the prompt back at once
        sys.exit(subprocess.call(list(argv), env=env))
    os.execve(argv[0], list(argv), env)
