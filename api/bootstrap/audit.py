"""Ask the advisory services whether a locked package has a known hole.

Not part of the checks: it needs two services on the internet, and what they answer changes by the
day without any change here. What was not looked up is told, never taken for "nothing found".
"""

import json
import subprocess
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from . import node, packages
from .places import FRONTEND, ROOT, venv_python

LOCKS = (packages.RUNTIME, packages.DEVELOPMENT, packages.NODE, packages.FONTS)
ACCEPTED = Path(__file__).with_name("accepted_advisories.json")
NEVER_ASKED = "the advisory service did not answer"


@dataclass(frozen=True)
class Finding:
    """One advisory about one locked package; ``ids`` are all the names it goes by."""

    package: str
    version: str
    ids: tuple[str, ...]
    fixed_in: str


@dataclass
class Audited:
    """What became of one list of packages."""

    name: str
    n_looked_up: int = 0
    not_looked_up: list[str] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)


@dataclass(frozen=True)
class Accepted:
    """An advisory somebody has decided to live with, why, and until when."""

    id: str
    why: str
    until: date


def run() -> int:
    """Audit every lock; return 1 for a finding that is not accepted, 2 when not all was asked."""
    packages.provide(packages.DEVELOPMENT, packages.FONTS)
    accepted = read_accepted(json.loads(ACCEPTED.read_text(encoding="utf-8")))
    audited = [audit_lock(lock) for lock in LOCKS]
    tools = node.provide()
    audited += [
        audit_npm("phone app, what is delivered", [*tools.npm], tools.env, "--omit=dev"),
        audit_npm("phone app, with what builds it", [*tools.npm], tools.env),
    ]
    return told(audited, accepted, datetime.now(UTC).date())


def audit_lock(lock: str) -> Audited:
    """Ask about the packages of one requirement file."""
    argv = [str(venv_python()), "-m", "pip_audit", "-r", lock, "--disable-pip", "-f", "json"]
    argv += ["--progress-spinner", "off"]
    if lock == packages.FONTS:
        argv.append("--no-deps")  # it is held to a version without its dependencies
    return read_pip(lock, _answer(argv, ROOT))


def audit_npm(name: str, npm: list[str], env: Mapping[str, str], *words: str) -> Audited:
    """Ask about the packages of the phone app."""
    return read_npm(name, _answer([*npm, "audit", "--json", *words], FRONTEND, env))


def _answer(argv: Sequence[str], cwd: Path, env: Mapping[str, str] | None = None) -> Any:
    """Return what a program answered in JSON; None when it did not come to answer."""
    with tempfile.TemporaryFile() as said:
        done = subprocess.run(
            argv, cwd=cwd, env=env, stdout=subprocess.PIPE, stderr=said, check=False
        )
    try:
        return json.loads(done.stdout)
    except ValueError:
        return None


def read_pip(name: str, answer: Any) -> Audited:
    """Read pip-audit's answer; it counts a package it could not look up as no hole."""
    audited = Audited(name)
    if not isinstance(answer, dict) or "dependencies" not in answer:
        audited.not_looked_up.append(NEVER_ASKED)
        return audited
    for package in answer["dependencies"]:
        if "skip_reason" in package:
            audited.not_looked_up.append(package["name"])
            continue
        audited.n_looked_up += 1
        for hole in package["vulns"]:
            ids = (hole["id"], *hole.get("aliases", ()))
            fixed_in = ", ".join(hole.get("fix_versions", ()))
            audited.findings.append(Finding(package["name"], package["version"], ids, fixed_in))
    return audited


def read_npm(name: str, answer: Any) -> Audited:
    """Read npm's answer, in which a package may have several holes and holes of what it needs."""
    audited = Audited(name)
    if not isinstance(answer, dict) or "vulnerabilities" not in answer:
        audited.not_looked_up.append(NEVER_ASKED)
        return audited
    audited.n_looked_up = answer["metadata"]["dependencies"]["total"]
    for package, found in answer["vulnerabilities"].items():
        for hole in found["via"]:
            if isinstance(hole, dict):  # a name alone is a package that is listed itself
                ids = (str(hole["url"]).rsplit("/", 1)[-1],)
                audited.findings.append(Finding(package, hole["range"], ids, ""))
    return audited


def read_accepted(rows: list[dict[str, str]]) -> list[Accepted]:
    """Read the exceptions."""
    return [Accepted(row["id"], row["why"], date.fromisoformat(row["until"])) for row in rows]


def told(audited: Sequence[Audited], accepted: Sequence[Accepted], today: date) -> int:
    """Print what was found, and return the exit code."""
    lines = [line for each in audited for line in _lines(each, accepted, today)]
    used = {name for each in audited for found in each.findings for name in found.ids}
    asked_all = not any(each.not_looked_up for each in audited)
    if asked_all:
        lines += [f"  no longer needed: {one.id}" for one in accepted if one.id not in used]
    print("\n".join(lines), flush=True)
    if any(not _excuse(found, accepted, today) for each in audited for found in each.findings):
        return 1
    return 0 if asked_all else 2


def _lines(audited: Audited, accepted: Sequence[Accepted], today: date) -> Iterator[str]:
    yield f"{audited.name}: {audited.n_looked_up} looked up"
    if audited.not_looked_up:
        named = ", ".join(audited.not_looked_up[:5])
        more = len(audited.not_looked_up) - 5
        yield f"  NOT looked up: {named}{f' and {more} more' if more > 0 else ''}"
    for found in audited.findings:
        excuse = _excuse(found, accepted, today)
        verdict = f"accepted until {excuse.until}: {excuse.why}" if excuse else "OPEN"
        fixed = f"; mended in {found.fixed_in}" if found.fixed_in else ""
        yield f"  {found.package} {found.version} {found.ids[0]}{fixed}: {verdict}"


def _excuse(found: Finding, accepted: Sequence[Accepted], today: date) -> Accepted | None:
    """Return the exception for a finding; one that has run out is none."""
    return next((one for one in accepted if one.id in found.ids and today <= one.until), None)
