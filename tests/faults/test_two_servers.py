"""A second server beside the first: the same PostgreSQL, bucket and secret, nothing else shared."""

import http.client
import random
import tempfile
import threading
import time
from contextlib import ExitStack
from pathlib import Path

import pytest

from api.bootstrap.places import WEB_BUILD
from tests.bench.scene import running_server
from tests.cluster import database
from tests.end_to_end.server import Server
from tests.faults.counts import FIRST_SEED, TIMES, Counts, tell
from tests.faults.killed_server import LINE_BROKE, Pusher, check_everything

N_KILLS = 3 * TIMES


@pytest.fixture
def servers(cluster, address, objects):
    """Two servers, each with a data folder of its own."""
    place = f"s3://{address.bucket}/{address.folder}"
    with ExitStack() as until_the_end:
        shared = {
            "DATABASE_URL": until_the_end.enter_context(database(cluster)),
            "KNOTBED_SECRET_KEY": "of both servers " * 4,
            "KNOTBED_PHOTOS_URL": f"{place}?endpoint={address.endpoint}&region={address.region}",
            "KNOTBED_PHOTOS_KEY": address.key,
            "KNOTBED_PHOTOS_SECRET": address.secret,
        }
        first = until_the_end.enter_context(running_server(**shared))
        folder = until_the_end.enter_context(tempfile.TemporaryDirectory())
        second = Server(Path(folder), WEB_BUILD, **shared)
        until_the_end.callback(second.put_away)
        second.start()
        yield first, second


class Wanderer(Pusher):
    """A phone that is let in once and then asks now the one server, now the other."""

    def __init__(self, servers, seed, over, counts):
        super().__init__(servers[0], seed, over, counts)
        self.lines = [http.client.HTTPConnection("127.0.0.1", one.port) for one in servers]
        self.where = random.Random(seed)

    def _insist(self, method, path, body, **headers):
        while True:
            self.caller.line = self.where.choice(self.lines)
            try:
                return self.caller.ask(method, path, body, **headers)
            except LINE_BROKE:
                self.counts["broken requests"] += 1
                self.caller.line.close()


def test_two_servers_are_as_good_as_one_also_while_one_of_them_dies(servers):
    counts, over = Counts(), threading.Event()
    phones = [Wanderer(servers, FIRST_SEED + n, over, counts) for n in range(3)]
    for phone in phones:
        phone.start()
    try:
        for n in range(N_KILLS):
            time.sleep(0.5)
            dying = servers[n % 2]
            dying.kill()
            counts["kills"] += 1
            time.sleep(0.3)
            dying.start()
    finally:
        over.set()
        for phone in phones:
            phone.join()
    assert [phone.error for phone in phones] == [None] * 3
    for one in servers:
        for phone in phones:
            phone.lines = [http.client.HTTPConnection("127.0.0.1", one.port)]
            phone.caller.line = phone.lines[0]
        check_everything(one, phones)
    tell("two servers", counts)
    assert counts["photos"] > 0 and counts["broken requests"] > 0
