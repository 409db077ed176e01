import os
import subprocess
import sys

import pytest
from django.db import connection

from api import environment
from gardens.checks import check_settings, refuse_to_start


@pytest.fixture
def problems(monkeypatch):
    monkeypatch.setattr(environment, "problems", [])
    return environment.problems


@pytest.mark.parametrize(
    ("text", "meant"),
    [("yes", True), ("1", True), ("ON", True), ("no", False), ("0", False), ("", False)],
)
def test_yes_and_no_are_read_in_their_usual_spellings(problems, monkeypatch, text, meant):
    monkeypatch.setenv("KNOTBED_DEBUG", text)
    assert environment.read_flag("KNOTBED_DEBUG") is meant
    assert problems == []


def test_an_odd_spelling_of_yes_is_not_guessed_at(problems, monkeypatch):
    monkeypatch.setenv("KNOTBED_DEBUG", "yep")
    assert environment.read_flag("KNOTBED_DEBUG") is False
    assert [problem.id for problem in problems] == ["knotbed.E002"]


def test_a_secret_key_is_made_once_and_kept_for_the_owner_only(problems, monkeypatch, tmp_path):
    monkeypatch.delenv("KNOTBED_SECRET_KEY", raising=False)
    first = environment.read_secret_key(tmp_path)
    assert len(first) >= 50
    assert environment.read_secret_key(tmp_path) == first
    assert (tmp_path / "secret_key").stat().st_mode & 0o777 == 0o600
    assert problems == []


def test_a_short_secret_key_is_a_problem(problems, monkeypatch, tmp_path):
    monkeypatch.setenv("KNOTBED_SECRET_KEY", "short")
    environment.read_secret_key(tmp_path)
    assert [problem.id for problem in problems] == ["knotbed.E001"]


def test_a_data_folder_that_is_a_file_is_a_problem(problems, monkeypatch, tmp_path):
    (tmp_path / "data").write_text("")
    monkeypatch.setenv("KNOTBED_DATA_DIR", str(tmp_path / "data" / "below"))
    environment.read_data_dir(tmp_path)
    assert [problem.id for problem in problems] == ["knotbed.E003"]


@pytest.mark.parametrize("url", ["mysql://x/y", "somewhere", "sqlite3:/x", "oracle://a/b"])
def test_another_database_is_a_problem_and_nothing_is_written_elsewhere(
    problems, monkeypatch, tmp_path, url
):
    monkeypatch.setenv("DATABASE_URL", url)
    assert environment.read_database(tmp_path)["ENGINE"] == "django.db.backends.dummy"
    assert [problem.id for problem in problems] == ["knotbed.E004"]


def test_the_database_is_a_file_of_the_data_folder_unless_told_otherwise(
    problems, monkeypatch, tmp_path
):
    monkeypatch.delenv("DATABASE_URL", raising=False)
    database = environment.read_database(tmp_path)
    assert database["NAME"] == str(tmp_path / "db.sqlite3")
    assert database["OPTIONS"]["transaction_mode"] == "IMMEDIATE"


@pytest.mark.django_db
def test_sqlite_waits_for_the_disk_before_a_push_is_answered():
    if connection.vendor != "sqlite":
        assert connection.vendor == "postgresql"  # it waits unless its own settings say otherwise
        return
    with connection.cursor() as cursor:
        assert cursor.execute("PRAGMA synchronous").fetchone() == (2,)  # 2 is FULL (SQLite manual)
        assert cursor.execute("PRAGMA journal_mode").fetchone() == ("wal",)


def test_postgresql_gets_no_option_of_sqlite(problems, monkeypatch, tmp_path):
    monkeypatch.setenv("DATABASE_URL", "postgres://me:word@db/garden")
    database = environment.read_database(tmp_path)
    assert "postgresql" in database["ENGINE"]
    assert "transaction_mode" not in database.get("OPTIONS", {})


def run(code, **variables):
    ours = ("KNOTBED_", "DATABASE_", "DJANGO_")
    known = {k: v for k, v in os.environ.items() if not k.startswith(ours)}
    return subprocess.run(
        [sys.executable, "-c", code],
        env={**known, "DJANGO_SETTINGS_MODULE": "api.settings", **variables},
        capture_output=True,
        text=True,
    )


@pytest.mark.parametrize(
    ("variable", "text", "id_"),
    [
        ("KNOTBED_ALLOWED_HOSTS", "http://garden.example", "knotbed.E005"),
        ("KNOTBED_TRUSTED_ORIGINS", "garden.example", "knotbed.E006"),
        ("KNOTBED_HTTPS", "maybe", "knotbed.E002"),
    ],
)
def test_the_server_does_not_start_on_a_setting_it_cannot_read(tmp_path, variable, text, id_):
    tried = run("import api.wsgi", KNOTBED_DATA_DIR=str(tmp_path), **{variable: text})
    assert tried.returncode != 0
    assert "Knotbed cannot start. No data was touched." in tried.stderr
    assert id_ in tried.stderr
    assert "Traceback" not in tried.stderr


def test_the_server_starts_on_good_settings(tmp_path):
    tried = run(
        "import api.wsgi; from django.conf import settings; print(settings.SESSION_COOKIE_NAME)",
        KNOTBED_DATA_DIR=str(tmp_path),
        KNOTBED_HTTPS="yes",
        KNOTBED_TRUSTED_ORIGINS="https://garden.example",
    )
    assert tried.returncode == 0, tried.stderr
    assert tried.stdout.strip() == "__Host-knotbed-session"


def test_every_problem_comes_with_something_to_do(settings):
    settings.KNOTBED_PROBLEMS = [environment.Problem("knotbed.E009", "Odd.", "Do this.")]
    assert [(found.id, found.hint) for found in check_settings(None)] == [
        ("knotbed.E009", "Do this.")
    ]
    with pytest.raises(SystemExit, match="Odd. Do this."):
        refuse_to_start()


def test_debugging_and_any_host_are_warned_about(settings):
    settings.DEBUG, settings.HTTPS = True, True
    assert [found.id for found in check_settings(None)] == ["knotbed.W001"]
    settings.DEBUG, settings.ALLOWED_HOSTS = False, ["*"]
    assert [found.id for found in check_settings(None)] == ["knotbed.W002"]


def read_bucket(monkeypatch, url, key="k", secret="s"):
    for name, text in (("URL", url), ("KEY", key), ("SECRET", secret)):
        monkeypatch.setenv(f"KNOTBED_PHOTOS_{name}", text)
    return environment.read_photos_bucket()


def test_the_address_of_a_bucket_is_read_with_its_parts(problems, monkeypatch):
    url = "s3://root-photos/beds/2031?endpoint=https://store.example:9000&region=eu-1"
    read = read_bucket(monkeypatch, url)
    assert (read.bucket, read.folder) == ("root-photos", "beds/2031")
    assert (read.endpoint, read.region) == ("https://store.example:9000", "eu-1")
    assert problems == []


@pytest.mark.parametrize(
    "url",
    [
        "root-photos",
        "http://root-photos",
        "s3://",
        "s3://Root",
        "s3://key:secret@root-photos",
        "s3://root-photos/../other",
        "s3://root-photos?end=https://store.example",
        "s3://root-photos?endpoint=store.example",
        "s3://root-photos?endpoint=ftp://store.example",
        "s3://root-photos?endpoint=https://a:b@store.example",
        "s3://root-photos?endpoint=https://store.example/path",
        "s3://root-photos?endpoint=https://store.example:x",
        "s3://root-photos?endpoint=https://a.example&endpoint=https://b.example",
        "s3://root-photos?endpoint=",
        "s3://root-photos#part",
    ],
)
def test_an_odd_address_of_a_bucket_is_a_problem(problems, monkeypatch, url):
    assert read_bucket(monkeypatch, url) is None
    assert [problem.id for problem in problems] == ["knotbed.E007"]


@pytest.mark.parametrize(("key", "secret"), [("", "s"), ("k", "")])
def test_a_bucket_without_its_key_or_secret_is_a_problem(problems, monkeypatch, key, secret):
    read_bucket(monkeypatch, "s3://root-photos", key, secret)
    assert [problem.id for problem in problems] == ["knotbed.E008"]


def test_photos_lie_in_the_data_folder_unless_told_otherwise(problems, monkeypatch):
    assert read_bucket(monkeypatch, "") is None
    assert problems == []


def test_djangos_own_deployment_checks_have_nothing_to_say_with_https(tmp_path):
    tried = run(
        "from django.core.management import execute_from_command_line as go;"
        "go(['manage.py', 'check', '--deploy', '--fail-level', 'DEBUG'])",
        KNOTBED_DATA_DIR=str(tmp_path),
        KNOTBED_HTTPS="yes",
        KNOTBED_ALLOWED_HOSTS="garden.example",
    )
    assert tried.returncode == 0, tried.stderr
    assert "no issues" in tried.stdout


SIGN_IN = """
from django.core.management import call_command
import api.wsgi
from django.test import Client
call_command("migrate", verbosity=0)
from gardens.services import first_account
first_account.create(username="grower", password="roots-and-soil-9")
ask = Client(headers={"Host": "garden.example", "X-Forwarded-Proto": "https"})
body = {"username": "grower", "password": "roots-and-soil-9", "device_name": "phone"}
body["device"] = "0199c0de-0000-7000-8000-000000000001"
answer = ask.post("/api/v1/login", body, content_type="application/json")
print(answer.headers["Strict-Transport-Security"], *answer.cookies.output(header="").split("; "))
"""


def test_over_https_the_session_belongs_to_this_host_alone(tmp_path):
    hosts = {"KNOTBED_HTTPS": "1", "KNOTBED_ALLOWED_HOSTS": "garden.example"}
    tried = run(SIGN_IN, KNOTBED_DATA_DIR=str(tmp_path), **hosts)
    said = tried.stdout.split()
    assert said[0].startswith("max-age="), tried.stderr
    assert said[1].startswith("__Host-knotbed-session=")
    # RFC 6265bis, cookie name prefixes: Secure, Path=/ and no Domain.
    assert {"Secure", "Path=/", "HttpOnly", "SameSite=Lax"} <= set(said)
    assert not any(part.startswith("Domain") for part in said)
