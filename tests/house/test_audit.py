import json
import sys
from datetime import date

from api.bootstrap import audit

TODAY = date(2031, 6, 14)
# The shapes are those of the programs' own manuals: pip-audit's JSON format and npm's audit report
# version 2. The packages and the advisories are made up.
PIP = {
    "dependencies": [
        {"name": "spade", "version": "1.0", "vulns": []},
        {
            "name": "rake",
            "version": "2.0",
            "vulns": [{"id": "PYSEC-1", "aliases": ["CVE-1"], "fix_versions": ["2.1"]}],
        },
    ],
    "fixes": [],
}
SKIPPED = {"dependencies": [{"name": "hoe", "skip_reason": "not found"}], "fixes": []}
NPM = {
    "vulnerabilities": {
        "sieve": {"via": [{"url": "https://advisories.example/GHSA-1", "range": "<3"}]},
        "barrow": {"via": ["sieve"]},
    },
    "metadata": {"dependencies": {"total": 12}},
}


def accepted(id_, until="2031-06-14"):
    return audit.read_accepted([{"id": id_, "why": "never reached from here", "until": until}])


def test_an_open_finding_fails_and_says_what_mends_it(capsys):
    assert audit.told([audit.read_pip("lock", PIP)], [], TODAY) == 1
    said = capsys.readouterr().out
    assert "lock: 2 looked up" in said
    assert "rake 2.0 PYSEC-1; mended in 2.1: OPEN" in said


def test_an_accepted_finding_passes_until_its_day_under_any_of_its_names(capsys):
    found = [audit.read_pip("lock", PIP)]
    assert audit.told(found, accepted("CVE-1"), TODAY) == 0
    assert "accepted until 2031-06-14: never reached from here" in capsys.readouterr().out
    assert audit.told(found, accepted("CVE-1", "2031-06-13"), TODAY) == 1


def test_an_exception_nobody_needs_any_more_is_told(capsys):
    assert audit.told([audit.read_npm("app", NPM)], accepted("GHSA-1"), TODAY) == 0
    assert "no longer needed" not in capsys.readouterr().out
    audit.told([audit.read_npm("app", NPM)], accepted("CVE-9"), TODAY)
    assert "no longer needed: CVE-9" in capsys.readouterr().out


def test_what_was_not_looked_up_is_never_taken_for_nothing_found(capsys):
    npm_cut_off = {"message": "405 Method Not Allowed", "statusCode": 405}
    for asked in (audit.read_pip("lock", SKIPPED), audit.read_pip("lock", None)):
        assert audit.told([asked], [], TODAY) == 2
        assert "lock: 0 looked up\n  NOT looked up: " in capsys.readouterr().out
    assert audit.told([audit.read_npm("app", npm_cut_off)], [], TODAY) == 2


def test_a_hole_of_what_a_package_needs_is_told_once():
    assert [(one.package, one.ids) for one in audit.read_npm("app", NPM).findings] == [
        ("sieve", ("GHSA-1",))
    ]


def test_a_program_that_answers_in_words_has_not_answered(tmp_path):
    assert audit._answer([sys.executable, "-c", "print('no network')"], tmp_path) is None
    assert audit._answer([sys.executable, "-c", "print('{}')"], tmp_path) == {}


def test_every_exception_of_ours_has_a_reason_and_a_day():
    for one in audit.read_accepted(json.loads(audit.ACCEPTED.read_text())):
        assert len(one.why.split()) > 3, one.id
