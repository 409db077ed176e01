import re

from tests.house.scanners import machine_paths, network_calls, registries
from tests.house.tree import ROOT, committed, name_of, written

BANNED_STEMS = {"utils", "util", "helpers", "helper", "common", "misc"}
TEXT = {".py", ".ts", ".svelte", ".css", ".html", ".json", ".md", ".toml", ".txt", ".cjs", ".yaml"}
LOCKS = ["requirements.txt", "requirements-dev.txt", "requirements-node.txt"]
LOCKS += ["requirements-fonts.txt", "frontend/package-lock.json"]
MAY_SPEAK_TO_THE_NETWORK = ("frontend/src/sync/", "frontend/src/sw.ts")


def test_no_file_has_a_name_that_says_nothing():
    assert [name_of(p) for p in committed() if p.name.split(".")[0].lower() in BANNED_STEMS] == []


def test_no_committed_file_names_a_folder_of_somebodys_machine():
    found = {
        name_of(path): machine_paths(path.read_text(errors="replace"))
        for path in committed()
        if path.suffix in TEXT or path.parent.name == ".ci"
    }
    assert {name: paths for name, paths in found.items() if paths} == {}


def test_a_machine_path_is_seen():
    slash = "/"
    assert machine_paths(f"open('{slash}home{slash}ilda{slash}x.txt')")
    assert machine_paths(f'DATA = "{slash}root{slash}demo"')
    assert machine_paths("see ./home/x and api/root/x") == []


def test_no_lock_names_a_registry():
    assert {name: registries((ROOT / name).read_text()) for name in LOCKS} == dict.fromkeys(
        LOCKS, []
    )


def test_a_registry_in_a_lock_is_seen():
    assert registries("--index-url " + "https" + "://example.test/simple")
    assert registries('  "resolved": "x.tgz"')


def test_every_requirement_is_held_by_its_hash():
    for name in LOCKS[:-1]:
        pins = re.findall(
            r"^[\w.\[\]-]+==\S+(.*?)(?=^\S|\Z)", (ROOT / name).read_text(), re.S | re.M
        )
        assert pins and all("--hash=sha256:" in pin for pin in pins), name


def test_only_the_sync_folder_and_the_service_worker_speak_to_the_network():
    found = {
        name_of(path): network_calls(path.read_text())
        for path in written(".ts", ".svelte", under="frontend/src/")
        if not name_of(path).startswith(MAY_SPEAK_TO_THE_NETWORK)
    }
    assert {name: calls for name, calls in found.items() if calls} == {}


RAW_MARKUP = re.compile(r"\{@html|innerHTML|outerHTML|insertAdjacentHTML|document\.write|srcdoc")


def test_no_text_is_put_into_the_page_as_markup():
    # The content policy lets Svelte's own templates through, and so would let these.
    sources = written(".ts", ".svelte", under="frontend/src/")
    assert [name_of(path) for path in sources if RAW_MARKUP.search(path.read_text())] == []
    assert RAW_MARKUP.search("<p>{@html note}</p>")


def test_a_network_call_is_seen_and_a_comment_about_one_is_not():
    assert network_calls("await fetch('/api')") == ["fetch("]
    assert network_calls("// fetch('/api') is for sync\nprefetch(1)") == []
