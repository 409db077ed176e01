"""Ratings and photos put straight into a phone's own outbox: tapping a thousand takes too long."""

import base64
import hashlib
import io
import random
from collections.abc import Sequence

from PIL import Image
from playwright.sync_api import Page

from tests.bench.scene import GARDEN, new_id, put, ratings

FILL = """async ({garden, items, photos}) => {
  const account = JSON.parse(localStorage.getItem("knotbed-account"));
  const opening = indexedDB.open(`knotbed-${account.id}`);
  await new Promise((done) => (opening.onsuccess = done));
  const db = opening.result;
  const all = db.transaction(["outbox", "bytes", "blobs"], "readwrite");
  for (const {mid, op, kind, id, base, at, set} of items) {
    const keys = [`${garden}|${kind}`];
    const waits = {account: account.id, garden, keys, st: "new", ack: 0, tried: 0};
    all.objectStore("outbox").add({...waits, mid, op, kind, id, base, at, set});
  }
  for (const {sha256, text} of photos) {
    const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0)).buffer;
    const n_bytes = bytes.byteLength;
    all.objectStore("bytes").put({garden, sha256, bytes});
    const row = {garden, sha256, mime: "image/jpeg", n_bytes, thumb: null, st: "waiting"};
    all.objectStore("blobs").put({...row, added_at: Date.now()});
  }
  await new Promise((done) => (all.oncomplete = done));
  db.close();
}"""
# The engine's eight megabytes would share the line that is measured.
NO_ENGINE = "Object.defineProperty(navigator, 'connection', {value: {saveData: true}})"
WIDTH_PX, HEIGHT_PX, QUALITY = 660, 495, 90
WAITING = """async () => {
  const account = JSON.parse(localStorage.getItem("knotbed-account"));
  const opening = indexedDB.open(`knotbed-${account.id}`);
  await new Promise((done) => (opening.onsuccess = done));
  const db = opening.result;
  const all = db.transaction(["outbox", "blobs"]);
  const count = (store, index, value) => new Promise((done) => {
    const asked = all.objectStore(store).index(index).count(value);
    asked.onsuccess = () => done(asked.result);
  });
  const counts = [await count("outbox", "st", "new"), await count("blobs", "st", "waiting")];
  db.close();
  return counts[0] + counts[1];
}"""


def queue(page: Page, n_ratings: int, photos: Sequence[bytes] = ()) -> list[str]:
    """Let so many ratings and photos of one check wait on the phone; return the ratings' ids."""
    check = new_id()
    items = ratings(n_ratings, check)
    made = [photo_of(check, data) for data in photos]
    asked = {"garden": GARDEN, "items": items + [item for item, _ in made]}
    page.evaluate(FILL, asked | {"photos": [row for _, row in made]})
    return [item["id"] for item in items]


def photo_of(check: str, data: bytes) -> tuple[dict, dict]:
    """Return the record of a photo, and its bytes as the page is handed them."""
    sha256 = hashlib.sha256(data).hexdigest()
    facts = {
        "n_bytes": len(data),
        "mime": "image/jpeg",
        "width_px": WIDTH_PX,
        "height_px": HEIGHT_PX,
    }
    of = {"kind": "root_check", "id": check}
    item = put("photo", new_id(), of=of, sha256=sha256, taken_at="2031-06-14T09:30:00Z", **facts)
    return item, {"sha256": sha256, "text": base64.b64encode(data).decode()}


def noise(seed: int) -> bytes:
    """Return a JPEG of about 300 kB that no other seed gives."""
    dots = random.Random(seed).randbytes(WIDTH_PX * HEIGHT_PX * 3)
    file = io.BytesIO()
    Image.frombytes("RGB", (WIDTH_PX, HEIGHT_PX), dots).save(file, "JPEG", quality=QUALITY)
    return file.getvalue()


def begin_sending(page: Page) -> None:
    """Tell the app that there is a signal."""
    page.evaluate("dispatchEvent(new Event('online'))")


def waiting(page: Page) -> int:
    """Return how many changes and photos are only on the phone."""
    return page.evaluate(WAITING)
