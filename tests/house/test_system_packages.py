import pytest

from api.bootstrap import browser, checks, postgres
from api.bootstrap.steps import Trouble
from tests import cluster

INSTALL = "apt-get install -y --no-install-recommends chromium poppler-utils"

# Knows no package until its list was refreshed, as on a machine just set up.
FAKE_APT = """#!/bin/sh
echo "$@" >> {folder}/calls
if [ "$1" = update ]; then : > {folder}/refreshed; exit 0; fi
test -e {folder}/refreshed
"""


@pytest.fixture
def bare_machine(tmp_path, monkeypatch):
    monkeypatch.delenv("CHROMIUM", raising=False)
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setattr(postgres, "INSTALLED", tmp_path / "no-postgresql")
    return tmp_path


@pytest.fixture
def apt(bare_machine, monkeypatch):
    program = bare_machine / "apt-get"
    program.write_text(FAKE_APT.format(folder=bare_machine))
    program.chmod(0o755)
    monkeypatch.setattr(postgres.os, "geteuid", lambda: 0)
    return bare_machine


def test_root_installs_what_is_missing_and_refreshes_the_list_when_that_fails(apt):
    browser.provide()
    calls = (apt / "calls").read_text().splitlines()
    wanted = INSTALL.removeprefix("apt-get ") + " postgresql"
    assert calls == [wanted, "update", wanted]


def test_anybody_else_is_told_the_one_command(bare_machine, monkeypatch):
    monkeypatch.setattr(postgres.os, "geteuid", lambda: 1000)
    with pytest.raises(Trouble, match=f"sudo {INSTALL}"):
        browser.provide()


def test_root_without_apt_is_told_too(bare_machine, monkeypatch):
    monkeypatch.setattr(postgres.os, "geteuid", lambda: 0)
    with pytest.raises(Trouble, match="chromium and poppler-utils missing"):
        browser.provide()


def test_a_named_browser_is_taken_as_it_is(bare_machine, monkeypatch):
    monkeypatch.setenv("CHROMIUM", "/opt/chromium")
    assert browser.missing() == ["poppler-utils"]


def test_the_newest_postgresql_is_taken(bare_machine, monkeypatch):
    assert postgres.programs() is None
    for version in ("9.6", "15", "14"):
        folder = bare_machine / "no-postgresql" / version / "bin"
        folder.mkdir(parents=True)
        (folder / "initdb").touch()
    assert postgres.programs() == bare_machine / "no-postgresql" / "15" / "bin"


def test_without_postgresql_its_check_is_left_out_and_that_is_said(
    bare_machine, capfd, monkeypatch
):
    monkeypatch.delenv("CI", raising=False)
    assert checks.on_postgresql("python") == []
    said = capfd.readouterr().out
    assert "not run, since PostgreSQL is not installed here" in said
    assert "Nothing is tried on PostgreSQL, browser journeys included" in said


def test_a_machine_that_checks_for_everybody_fails_without_postgresql(bare_machine, monkeypatch):
    monkeypatch.setenv("CI", "1")
    [check] = checks.on_postgresql("python")
    with pytest.raises(Trouble, match="no PostgreSQL server"):
        postgres.main(check.argv[3:])
    with pytest.raises(pytest.fail.Exception, match="both databases"):
        cluster.leave_out()


def test_a_person_without_postgresql_is_told_what_was_left_out(monkeypatch):
    monkeypatch.delenv("CI", raising=False)
    with pytest.raises(pytest.skip.Exception, match="on SQLite only"):
        cluster.leave_out()


def test_a_program_of_postgresql_that_fails_is_told(monkeypatch):
    monkeypatch.setattr(postgres, "is_root", lambda: False)
    with pytest.raises(Trouble, match="ls of PostgreSQL failed"):
        postgres.call(["ls", "--no-such-option"])
