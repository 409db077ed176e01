"""Phones that work and fail for a while, and then a good line until all is quiet."""

from dataclasses import dataclass
from random import Random

from gardens.models import Garden
from tests.faults.counts import Counts
from tests.faults.simulated import Device, Server

UNTIL_QUIET = 400
RESTORES = 3


@dataclass(frozen=True)
class Size:
    """How many phones, and how many things each of them does."""

    devices: int = 5
    steps: int = 400


def run(account, seed, size=Size(), *, restoring=False, counts=None):
    """Return the server and its phones when nothing is left to send or to read."""
    dice = Random(seed)
    server = Server(account, Counts() if counts is None else counts)
    devices = [Device(server, dice) for _ in range(size.devices)]
    devices[0].open_garden()
    n_steps = size.devices * size.steps
    restores = _restores(n_steps) if restoring else {}
    backup = None
    for step in range(n_steps):
        if restores.get(step) == "back up":
            backup = server.back_up()
        elif restores.get(step) == "restore":
            server.restore(backup)
        _work(dice.choice(devices), dice, closing=not restoring)
        if server.late and dice.random() < 0.3:
            server.deliver_late(dice.randrange(len(server.late)))
    while server.late:
        server.deliver_late(0)
    settle(devices)
    return server, devices


def _restores(n_steps):
    """Copies are taken and, a while later, put back: the last one at two thirds of the run."""
    each = 2 * n_steps // (3 * RESTORES)
    taken = {n * each + each // 3: "back up" for n in range(RESTORES)}
    return taken | {(n + 1) * each: "restore" for n in range(RESTORES)}


def _work(device, dice, *, closing):
    work = [device.create, device.edit, device.delete, device.close, device.send, device.read]
    dice.choices(work, [2, 5, 1, 1 if closing else 0, 4, 3])[0]()


def settle(devices):
    """Let the line be good until every phone has sent and read everything."""
    for _ in range(UNTIL_QUIET):
        if is_quiet(devices):
            return
        for device in devices:
            device.send("none")
            device.read("none")
    raise AssertionError(f"never quiet; left: {[device.outbox for device in devices]}")


def is_quiet(devices):
    head = Garden.objects.get(id=devices[0].server.garden).head
    return all(device.cursor == head and not device.outbox for device in devices)
