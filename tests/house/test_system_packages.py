import pytest

from api.bootstrap import browser
from api.bootstrap.steps import Trouble

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
    return tmp_path


@pytest.fixture
def apt(bare_machine, monkeypatch):
    program = bare_machine / "apt-get"
    program.write_text(FAKE_APT.format(folder=bare_machine))
    program.chmod(0o755)
    monkeypatch.setattr(browser.os, "geteuid", lambda: 0)
    return bare_machine


def test_root_installs_what_is_missing_and_refreshes_the_list_when_that_fails(apt):
    browser.provide()
    calls = (apt / "calls").read_text().splitlines()
    wanted = INSTALL.removeprefix("apt-get ")
    assert calls == [wanted, "update", wanted]


def test_anybody_else_is_told_the_one_command(bare_machine, monkeypatch):
    monkeypatch.setattr(browser.os, "geteuid", lambda: 1000)
    with pytest.raises(Trouble, match=f"sudo {INSTALL}"):
        browser.provide()


def test_root_without_apt_is_told_too(bare_machine, monkeypatch):
    monkeypatch.setattr(browser.os, "geteuid", lambda: 0)
    with pytest.raises(Trouble, match="chromium and poppler-utils missing"):
        browser.provide()


def test_a_named_browser_is_taken_as_it_is(bare_machine, monkeypatch):
    monkeypatch.setenv("CHROMIUM", "/opt/chromium")
    assert browser.missing() == ["poppler-utils"]
