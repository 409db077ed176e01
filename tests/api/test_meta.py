import re
from datetime import datetime

import pytest
from django.test import Client


@pytest.fixture
def built_app(settings, tmp_path):
    settings.WEB_DIR = tmp_path
    (tmp_path / "index.html").write_text("<!doctype html><title>app</title>")


def test_anybody_may_ask_what_the_server_speaks(client, db):
    answer = client.get("/api/v1/meta").json()
    assert answer["proto"] == {"min": 1, "max": 1}
    assert answer["schema"] == {"current": 1, "push_min": 1, "pull_min": 1}
    assert answer["limits"] == {"items": 200, "bytes": 524288, "blob": 8000000}
    assert datetime.fromisoformat(answer["server_time"])


@pytest.mark.parametrize("path", ["/", "/beds/3", "/pair", "/sign-in", "/checks/0199/x"])
def test_every_screens_address_gets_the_app(client, built_app, path):
    answer = client.get(path)
    assert answer.status_code == 200
    assert answer.headers["Cache-Control"] == "no-cache"
    assert b"<title>app</title>" in answer.content


@pytest.mark.parametrize(
    "path",
    [
        "/assets/index-1234abcd.js",
        "/gone.js",
        "/gone.PNG",
        "/beds/Gone.Jpeg",
        "/api/v1/nothing",
        "/api",
        "/api/v2/meta",
        "/static/x.css",
        "/media/a",
        "/assets/",
        "/engine/core-1.zip",
        "/engine/",
    ],
)
def test_a_missing_file_or_address_is_never_answered_with_the_app(client, built_app, path):
    answer = client.get(path)
    assert (answer.status_code, answer.json()["code"]) == (404, "not_found")


def test_an_app_that_is_not_built_says_what_to_run(client, settings, tmp_path):
    settings.WEB_DIR = tmp_path
    answer = client.get("/")
    assert answer.status_code == 503
    assert b"python3 manage.py setup" in answer.content


@pytest.mark.parametrize("path", ["/", "/api/v1/meta", "/assets/none.js"])
def test_every_answer_carries_the_content_policy(client, built_app, db, path):
    policy = client.get(path).headers["Content-Security-Policy"]
    assert "default-src 'self'" in policy
    assert "frame-ancestors 'none'" in policy
    # The phone's Python is WebAssembly; text is never run as a program.
    assert policy.count("unsafe") == 1
    assert "script-src 'self' 'wasm-unsafe-eval';" in policy
    assert not re.search(r"\*|http", policy)
    assert "require-trusted-types-for 'script'; trusted-types svelte-trusted-html default" in policy


@pytest.mark.parametrize("path", ["/", "/api/v1/meta", "/assets/none.js"])
def test_every_answer_keeps_other_pages_away(client, built_app, db, path):
    headers = client.get(path).headers
    assert headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert headers["Cross-Origin-Resource-Policy"] == "same-origin"
    assert headers["Referrer-Policy"] == "same-origin"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Permissions-Policy"] == "camera=(self), geolocation=(), microphone=()"


def test_browsers_are_told_to_stay_with_https_once_there_is_any(client, db, settings):
    assert "Strict-Transport-Security" not in client.get("/api/v1/meta").headers
    settings.SECURE_HSTS_SECONDS = 60
    settings.SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
    told = Client().get("/api/v1/meta", headers={"X-Forwarded-Proto": "https"})
    assert told.headers["Strict-Transport-Security"] == "max-age=60"


def test_an_address_the_server_was_not_told_about_says_which_setting_to_change(client, db):
    answer = client.get("/api/v1/meta", headers={"Host": "other.example"})
    assert (answer.status_code, answer.json()["code"]) == (400, "bad_host")
    assert "KNOTBED_ALLOWED_HOSTS" in answer.json()["detail"]


def test_the_wrong_verb_is_a_problem_document(client, db):
    answer = client.delete("/api/v1/meta")
    assert (answer.status_code, answer.json()["code"]) == (405, "not_allowed")


def test_every_problem_says_what_happened_what_is_safe_and_what_to_do():
    from api.errors import PROBLEMS

    for code, (status, sentence) in PROBLEMS.items():
        assert 400 <= status < 600, code
        assert sentence.count(".") >= (2 if code == "not_allowed" else 3), code


def test_a_failure_nobody_foresaw_is_a_problem_document_too(client, db, monkeypatch):
    from api.views import account

    def broken():
        raise RuntimeError("a fault")

    monkeypatch.setattr(account, "limits", broken)
    client.raise_request_exception = False
    answer = client.get("/api/v1/meta")
    assert (answer.status_code, answer.json()["code"]) == (500, "server_error")
    assert b"fault" not in answer.content


@pytest.mark.parametrize("kind", ["image/jpeg", "multipart/form-data; boundary=x", "text/plain"])
def test_a_body_of_another_kind_is_not_read_to_look_for_a_token(phone, kind):
    def post(path):
        told = {"headers": {"X-CSRFToken": phone.csrf}, "content_type": kind}
        answer = phone.client.post(f"/api/v1/{phone.path(path)}", b"--x--", **told)
        return answer.status_code, answer.json()["code"]

    assert post(f"blobs/{'0' * 64}") == (405, "not_allowed")
    assert post("push") == (415, "not_json")


@pytest.mark.parametrize("address", ["gardens/no-garden/push", "gardens/no-garden/shares", "gone"])
def test_a_change_at_an_address_that_is_none_is_a_problem_document(db, address):
    asked = Client(enforce_csrf_checks=True)
    for ask in (asked.post, asked.put, asked.delete):
        answer = ask(f"/api/v1/{address}")
        assert answer.headers["Content-Type"] == "application/problem+json"
        assert (answer.status_code, answer.json()["code"]) == (404, "not_found")
    assert asked.post("/beds").status_code == 405
