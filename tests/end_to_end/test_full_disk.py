"""A phone whose disk is really full: the browser's profile lies on a file system of 100 MB."""

import shutil
import subprocess
import sys
import warnings

import pytest
from playwright.sync_api import expect

from tests.end_to_end.conftest import FLAGS, chromium_path
from tests.end_to_end.demo_garden import BEDS, N_DEMO_RATINGS
from tests.end_to_end.phone import SMALL_PHONE, Phone
from tests.faults.counts import tell

DISK = "100m"
N_RATINGS = 30
# Bytes of nobody's into the phone's own database, in ever smaller pieces, until none fits.
FILL = """async () => {
  const account = JSON.parse(localStorage.getItem("knotbed-account"));
  const opening = indexedDB.open(`knotbed-${account.id}`);
  await new Promise((done) => (opening.onsuccess = done));
  let size = 1 << 20, total = 0, n = 0;
  while (size >= 1 << 8) {
    const bytes = new Uint8Array(size);
    for (let at = 0; at < size; at += 65536) crypto.getRandomValues(bytes.subarray(at, at + 65536));
    const all = opening.result.transaction(["bytes"], "readwrite", {durability: "strict"});
    all.objectStore("bytes").put({garden: "filling", sha256: String(n++), bytes: bytes.buffer});
    const kept = await new Promise((done) => {
      all.oncomplete = () => done(true);
      all.onabort = () => done(false);
    });
    if (kept) total += size;
    else size >>= 1;
  }
  opening.result.close();
  return total;
}"""
EMPTY = """async () => {
  const account = JSON.parse(localStorage.getItem("knotbed-account"));
  const opening = indexedDB.open(`knotbed-${account.id}`);
  await new Promise((done) => (opening.onsuccess = done));
  const all = opening.result.transaction(["bytes"], "readwrite");
  all.objectStore("bytes").delete(IDBKeyRange.bound(["filling"], ["filling", []]));
  await new Promise((done) => (all.oncomplete = done));
  opening.result.close();
}"""


@pytest.fixture
def small_disk(tmp_path):
    """A folder that holds 100 MB and no more."""
    folder = tmp_path / "disk"
    folder.mkdir()
    asked = ["mount", "-t", "tmpfs", "-o", f"size={DISK}", "knotbed-full-disk", str(folder)]
    done = (
        subprocess.run(asked, capture_output=True, check=False) if shutil.which("mount") else None
    )
    if sys.platform != "linux" or done is None or done.returncode != 0:
        note = "NOT TESTED: a real full disk. This account may not mount a small file system."
        warnings.warn(note, stacklevel=1)
        pytest.skip(note)
    yield folder
    subprocess.run(["umount", "--lazy", str(folder)], check=True)


@pytest.fixture
def phone_on_small_disk(chromium, server, small_disk):
    context = chromium.launch_persistent_context(
        small_disk / "profile",
        executable_path=chromium_path(),
        args=[*FLAGS, "--disk-cache-size=1"],
        viewport=SMALL_PHONE,
        has_touch=True,
        is_mobile=True,
    )
    yield Phone(context, server)
    context.close()


def test_every_rating_is_kept_and_the_person_is_told(server, phone_on_small_disk, small_disk):
    phone = phone_on_small_disk
    phone.sign_in()
    server.kill()
    phone.start_check(BEDS["Wall bed"])
    phone.rate(1)
    n_bytes = phone.page.evaluate(FILL)
    for n in range(N_RATINGS):
        phone.rate(n % 11)
    expect(phone.chip).to_contain_text("This phone is full")
    phone.page.evaluate(EMPTY)
    server.start()
    phone.open("/")
    phone.wait_until_sent()
    tell("full disk", {"megabytes it held": n_bytes // 1_000_000, "mutations": 1 + N_RATINGS})
    assert server.ask("select count(*) from gardens_gallrating") == [
        (N_DEMO_RATINGS + 1 + N_RATINGS,)
    ]
    assert [line for line in phone.complaints if "page error" in line] == []
