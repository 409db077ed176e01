"""A slow line between a phone and the server: far away, narrow, and now and then cut.

One narrow place each way, shared by all connections, as a mobile cell is. Every new connection
first waits for its handshake.
"""

import asyncio
import random
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass

PIECE_BYTES = 4096
IN_FLIGHT = 64


@dataclass
class Quality:
    """How far, how wide each way, and which share of the pieces sent ends in a cut."""

    round_trip_s: float = 0.0
    bits_per_s: float = 1e9
    cut_share: float = 0.0


class Way:
    """One direction: a queue for the narrow place, then half a round trip."""

    def __init__(self) -> None:
        self.free_at, self.n_bytes = 0.0, 0

    def arrival(self, now: float, n_bytes: int, quality: Quality) -> float:
        """Return when these bytes are at the other end."""
        self.n_bytes += n_bytes
        self.free_at = max(now, self.free_at) + n_bytes * 8 / quality.bits_per_s
        return self.free_at + quality.round_trip_s / 2


class SlowLine:
    """A small TCP proxy in a thread of its own; its quality may be changed while it runs."""

    def __init__(self, to_port: int, seed: int = 0) -> None:
        self.to_port, self.quality, self.dice = to_port, Quality(), random.Random(seed)
        self.up, self.down, self.cuts, self.port = Way(), Way(), 0, 0
        self.sure_cut_in = 0  # pieces until one cut that does not wait for chance
        self.loop = asyncio.new_event_loop()
        self._ready = threading.Event()
        self._thread = threading.Thread(target=self._run, daemon=True)

    def start(self) -> None:
        """Listen on a free port of this machine."""
        self._thread.start()
        self._ready.wait()

    def stop(self) -> None:
        """Drop every connection."""
        self.loop.call_soon_threadsafe(self.loop.stop)
        self._thread.join()

    def _run(self) -> None:
        asyncio.set_event_loop(self.loop)
        server = self.loop.run_until_complete(asyncio.start_server(self._join, "127.0.0.1", 0))
        self.port = server.sockets[0].getsockname()[1]
        self._ready.set()
        self.loop.run_forever()
        server.close()
        left = asyncio.all_tasks(self.loop)
        for task in left:
            task.cancel()
        self.loop.run_until_complete(asyncio.gather(*left, return_exceptions=True))
        self.loop.close()

    async def _join(self, near: asyncio.StreamReader, near_out: asyncio.StreamWriter) -> None:
        await asyncio.sleep(self.quality.round_trip_s)
        try:
            far, far_out = await asyncio.open_connection("127.0.0.1", self.to_port)
        except OSError:
            near_out.transport.abort()
            return
        outs = (near_out, far_out)
        up = self._carry(near, far_out, self.up, outs)
        with suppress(asyncio.CancelledError):  # the line is being stopped
            await asyncio.gather(up, self._carry(far, near_out, self.down, outs))

    async def _carry(self, source, sink, way: Way, outs) -> None:  # noqa: ANN001
        pieces: asyncio.Queue[tuple[float, bytes]] = asyncio.Queue(IN_FLIGHT)
        delivering = asyncio.ensure_future(self._deliver(pieces, sink))
        try:
            while piece := await source.read(PIECE_BYTES):
                self._maybe_cut()
                await pieces.put((way.arrival(self.loop.time(), len(piece), self.quality), piece))
            await pieces.put((self.loop.time() + self.quality.round_trip_s / 2, b""))
            await delivering
        except OSError:
            self.cuts += 1
            for out in outs:
                out.transport.abort()
        finally:
            delivering.cancel()

    def _maybe_cut(self) -> None:
        self.sure_cut_in -= 1
        chance = self.quality.cut_share > 0 and self.dice.random() < self.quality.cut_share
        if chance or self.sure_cut_in == 0:
            raise ConnectionResetError

    async def _deliver(self, pieces: asyncio.Queue, sink: asyncio.StreamWriter) -> None:
        while True:
            at, piece = await pieces.get()
            await asyncio.sleep(max(0.0, at - self.loop.time()))
            if not piece:
                sink.close()
                return
            sink.write(piece)
            await sink.drain()


@contextmanager
def slow_line(to_port: int, seed: int = 0) -> Iterator[SlowLine]:
    """Yield a line that is as good as none at all, until its quality is set."""
    line = SlowLine(to_port, seed)
    line.start()
    try:
        yield line
    finally:
        line.stop()
