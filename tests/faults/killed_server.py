"""Phones that push and send photos to the real server while it is killed again and again."""

import hashlib
import http.client
import io
import json
import random
import threading
import time

from PIL import Image

from tests.bench.scene import GARDEN, Caller, new_id, put, rating
from tests.end_to_end.server import Server
from tests.faults.counts import Counts

N_CLIENTS, MOST_ITEMS = 4, 120
PHOTO_EVERY = 3
LINE_BROKE = (OSError, http.client.HTTPException)


def picture(dice: random.Random) -> bytes:
    """Return a JPEG that no other call returns, of about 100 kB."""
    image = Image.frombytes("RGB", (240, 180), dice.randbytes(240 * 180 * 3))
    file = io.BytesIO()
    image.save(file, "JPEG", quality=90)
    return file.getvalue()


class Pusher(threading.Thread):
    """One phone: it repeats each request until somebody answers it."""

    def __init__(self, server: Server, seed: int, over: threading.Event, counts: Counts) -> None:
        super().__init__()
        self.caller, self.dice = Caller(server), random.Random(seed)
        self.over, self.counts = over, counts
        self.mids: list[str] = []
        self.photos: list[str] = []  # acknowledged
        self.error: BaseException | None = None

    def run(self) -> None:
        """Work until told to stop; the last request is still brought to its end."""
        check, n = new_id(), 0
        try:
            while not self.over.is_set():
                n += 1
                batch = [rating(check, i) for i in range(self.dice.randint(1, MOST_ITEMS))]
                self._push(batch)
                if n % PHOTO_EVERY == 0:
                    self._send_photo(check)
        except BaseException as error:  # told by the thread that waits for this one
            self.error = error

    def _push(self, items: list[dict]) -> list[str]:
        body = {"proto": 1, "schema": 1, "device": self.caller.device, "sent_at": None}
        whole = body | {"high": None, "mutations": items}
        self.mids += [item["mid"] for item in items]
        answer = json.loads(self._insist("POST", f"/gardens/{GARDEN}/push", whole))
        statuses = [result["status"] for result in answer["results"]]
        assert {*statuses} <= {"applied", "duplicate"}, answer["results"]
        self.counts["pushes"] += 1
        self.counts["mutations"] += len(items)
        self.counts["repeats"] += statuses.count("duplicate")
        return statuses

    def _send_photo(self, check: str) -> None:
        data = picture(self.dice)
        sha256 = hashlib.sha256(data).hexdigest()
        of = {"kind": "root_check", "id": check}
        facts = {"n_bytes": len(data), "mime": "image/jpeg", "width_px": 240, "height_px": 180}
        at = time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime())
        self._push([put("photo", new_id(), of=of, sha256=sha256, taken_at=at, **facts)])
        kind = {"Content-Type": "image/jpeg"}
        self._insist("PUT", f"/gardens/{GARDEN}/blobs/{sha256}", data, **kind)
        self.photos.append(sha256)
        self.counts["photos"] += 1

    def _insist(self, method: str, path: str, body: object, **headers: str) -> bytes:
        while True:
            try:
                return self.caller.ask(method, path, body, **headers)
            except LINE_BROKE:
                self.counts["broken requests"] += 1
                self.caller.line.close()
                time.sleep(0.05)


def kill_again_and_again(server: Server, n_kills: int, seed: int, counts: Counts) -> list[Pusher]:
    """Pull the plug of a server under load, so many times; return the phones, at rest."""
    dice, over = random.Random(seed), threading.Event()
    pushers = [Pusher(server, seed + n, over, counts) for n in range(N_CLIENTS)]
    for pusher in pushers:
        pusher.start()
    try:
        for _ in range(n_kills):
            time.sleep(dice.uniform(0.3, 0.9))
            server.kill()
            counts["kills"] += 1
            server.start()
    finally:
        over.set()
        for pusher in pushers:
            pusher.join()
    for pusher in pushers:
        if pusher.error:
            raise pusher.error
    return pushers


def check_everything(server: Server, pushers: list[Pusher]) -> None:
    """Every change once, the numbers dense, every acknowledged photo there and true."""
    mids = [mid for pusher in pushers for mid in pusher.mids]
    journal = server.ask("SELECT seq, mid FROM gardens_journalentry ORDER BY seq")
    assert [seq for seq, _ in journal] == list(range(1, len(journal) + 1))
    journalled = sorted(plain(mid) for _, mid in journal)
    assert len({*journalled}) == len(journalled), "doubled"
    assert {plain(mid) for mid in mids} <= {*journalled}, "lost"
    kept = dict(server.ask("SELECT sha256, stored_sha256 FROM gardens_blob"))
    for pusher in pushers:
        for sha256 in pusher.photos:
            data = pusher.caller.ask("GET", f"/gardens/{GARDEN}/blobs/{sha256}?size=full")
            assert hashlib.sha256(data).hexdigest() == kept[sha256]


def plain(mid: object) -> str:
    """Return a UUID as both databases can give it: 32 letters."""
    return str(mid).replace("-", "")
