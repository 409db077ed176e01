"""What a process has computed and taken so far, where the system tells (Linux).

Time on the clock doubles on a busy machine; computing time hardly changes.
"""

import os
from pathlib import Path

PROCESSES = Path("/proc")
GROUP, USER, SYSTEM = 2, 11, 12  # places behind the name, which may hold spaces


def seconds_of(pid: int) -> float:
    """Return what one process has computed."""
    return _seconds(_stat(PROCESSES / str(pid)))


def seconds_of_group(leader: int) -> float:
    """Return what a server and its workers have computed."""
    stats = [_stat(folder) for folder in PROCESSES.iterdir() if folder.name.isdigit()]
    return sum(_seconds(stat) for stat in stats if stat and int(stat[GROUP]) == leader)


def most_megabytes(pid: int) -> float:
    """Return the most address space a process has taken, which is what its bound counts."""
    lines = (PROCESSES / str(pid) / "status").read_text().splitlines()
    [found] = [line for line in lines if line.startswith("VmPeak:")]
    return int(found.split()[1]) * 1024 / 1e6


def is_told() -> bool:
    """Say whether this system tells."""
    return (PROCESSES / str(os.getpid()) / "stat").is_file()


def _stat(folder: Path) -> list[str]:
    try:
        return (folder / "stat").read_text().rpartition(")")[2].split()
    except OSError:
        return []  # it ended meanwhile


def _seconds(stat: list[str]) -> float:
    return (int(stat[USER]) + int(stat[SYSTEM])) / os.sysconf("SC_CLK_TCK") if stat else 0.0
