"""What the browser needs to put the app on a home screen, and to be rid of it again.

Outside sources: W3C Web Application Manifest (members), WHATWG HTML (service worker lifetime).
"""

import json
import shutil
import urllib.error
import urllib.request
from io import BytesIO

import pytest
from PIL import Image

# A worker that takes itself away: what a server hands out when a released worker is broken.
KILL_SWITCH = """
self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.registration.unregister()));
"""
WORKERS = "async () => (await navigator.serviceWorker.getRegistrations()).length"
LOOK_FOR_A_NEW_ONE = """async () => {
  const registration = await navigator.serviceWorker.ready;
  await registration.update();
  while ((await navigator.serviceWorker.getRegistrations()).length > 0)
    await new Promise(later => setTimeout(later, 50));
}"""


def fetch(address):
    with urllib.request.urlopen(address, timeout=5) as answer:
        return answer.headers, answer.read()


def test_the_manifest_says_what_an_installed_app_needs(server):
    headers, body = fetch(f"{server.address}/manifest.webmanifest")
    manifest = json.loads(body)

    assert headers["Content-Type"].startswith("application/manifest+json")
    assert manifest["display"] == "standalone"
    assert manifest["scope"] == manifest["start_url"] == manifest["id"] == "/"
    assert 0 < len(manifest["short_name"]) <= 12
    sizes = {icon["sizes"] for icon in manifest["icons"] if icon["type"] == "image/png"}
    assert {"192x192", "512x512"} <= sizes
    assert any("maskable" in icon.get("purpose", "") for icon in manifest["icons"])


def test_every_icon_is_as_large_as_the_manifest_says(server):
    _, body = fetch(f"{server.address}/manifest.webmanifest")
    icons = [icon for icon in json.loads(body)["icons"] if icon["type"] == "image/png"]
    assert icons

    for icon in icons:
        _, picture = fetch(server.address + icon["src"])
        measured = "{}x{}".format(*Image.open(BytesIO(picture)).size)
        assert measured == icon["sizes"], icon["src"]


def test_an_iphone_finds_its_own_icon(server):
    _, page = fetch(server.address)
    assert b'rel="apple-touch-icon"' in page
    _, picture = fetch(f"{server.address}/icons/apple-touch-180.png")
    assert Image.open(BytesIO(picture)).size == (180, 180)


@pytest.mark.parametrize("path", ["/assets/gone-12345678.js", "/assets/nothing.css"])
def test_a_missing_part_of_the_app_is_not_found_instead_of_the_front_page(server, path):
    with pytest.raises(urllib.error.HTTPError) as refused:
        fetch(server.address + path)
    assert refused.value.code == 404


def test_the_worker_and_the_front_page_are_asked_for_each_time(server):
    for path in ("/", "/sw.js", "/beds/never-heard-of"):
        headers, _ = fetch(server.address + path)
        assert "no-cache" in headers["Cache-Control"], path
        assert "script-src 'self' 'wasm-unsafe-eval';" in headers["Content-Security-Policy"], path


def test_a_worker_that_takes_itself_away_leaves_a_working_app(server, phone, web_app, tmp_path):
    killed = tmp_path / "killed"
    shutil.copytree(web_app, killed)
    (killed / "sw.js").write_text(KILL_SWITCH)
    server.stop()
    server.web = killed
    server.start()

    phone.page.evaluate(LOOK_FOR_A_NEW_ONE)
    assert phone.page.evaluate(WORKERS) == 0
    phone.open("/samples")
    phone.page.get_by_role("heading", name="Samples").wait_for()


SINKS = {
    "markup": "document.createElement('p').innerHTML = '<b>text</b>'",
    "a program": "document.createElement('script').text = 'self.ran = 1'",
    "an address of a script": "document.createElement('script').src = '/api/v1/meta'",
    "a worker of another site": "new Worker('https://elsewhere.example/assets/worker.js')",
    "a worker made of text": "new Worker(URL.createObjectURL(new Blob(['self.ran = 1'])))",
    "a policy of its own": "trustedTypes.createPolicy('mine', {})",
}


def test_no_text_becomes_markup_or_a_program_in_the_page(new_phone):
    phone = new_phone()
    phone.open("/sign-in")
    phone.page.get_by_role("button", name="Sign in", exact=True).wait_for()
    taken = {}
    for name, deed in SINKS.items():
        tried = (
            f"() => {{ try {{ {deed}; return 'taken' }} catch (error) {{ return error.name }} }}"
        )
        taken[name] = phone.page.evaluate(tried)
    assert taken == dict.fromkeys(SINKS, "TypeError")
    phone.page.wait_for_timeout(100)
    phone.complaints.clear()  # the browser tells of each refusal
