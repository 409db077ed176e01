import json
import re
import sqlite3
import subprocess
import sys
import urllib.error
import urllib.request
import uuid
from contextlib import closing

import pytest

from tests.house.started import demo, environment
from tests.house.tree import ROOT


@pytest.fixture(scope="module")
def data(tmp_path_factory):
    """A data folder the demo was started on once."""
    folder = tmp_path_factory.mktemp("demo") / "data"
    with demo(folder) as started:
        (folder / "exit-code").write_text(str(started.stop()))
    return folder


def contents(data):
    # Closed at once: a database that somebody has open cannot be restored.
    with closing(sqlite3.connect(data / "db.sqlite3")) as file:
        return list(file.iterdump())


def enter(address, how, **given):
    body = {"device": str(uuid.uuid4()), "device_name": "A phone"} | given
    request = urllib.request.Request(
        f"{address}/api/v1/{how}", json.dumps(body).encode(), {"Content-Type": "application/json"}
    )
    with urllib.request.urlopen(request) as answer:
        return json.load(answer)


def test_the_first_start_fills_the_demo_garden(data):
    with closing(sqlite3.connect(data / "db.sqlite3")) as file:
        assert file.execute("select count(*) from gardens_gallrating").fetchone()[0] > 50


def test_ctrl_c_ends_it_in_peace(data):
    assert (data / "exit-code").read_text() == "0"


def test_a_second_start_changes_no_data(data):
    before = contents(data)
    with demo(data) as started:
        started.stop()
    assert contents(data) == before


def test_the_printed_address_signs_one_phone_in_and_not_a_second(data):
    with demo(data) as started:
        token = re.search(r"/pair#(\S+)", started.said.read_text())[1]
        assert enter(started.address, "pair", token=token)["account"]["username"] == "demo"
        with pytest.raises(urllib.error.HTTPError, match="403"):
            enter(started.address, "pair", token=token)


def test_every_start_prints_the_password_of_this_demo(data):
    with demo(data) as started:
        password = re.search(r"with the password (\S+)", started.said.read_text())[1]
        answer = enter(started.address, "login", username="demo", password=password)
    assert answer["account"]["username"] == "demo"


@pytest.mark.parametrize("name", ["secret_key", "demo_password"])
def test_a_secret_is_for_its_owner_only(data, name):
    assert (data / name).stat().st_mode & 0o077 == 0


def serve(data, **settings):
    argv = [sys.executable, "manage.py", "serve", "--data", str(data), "--port", "8119"]
    env = environment() | settings
    return subprocess.run(
        argv, cwd=ROOT, env=env, stdin=subprocess.DEVNULL, capture_output=True, text=True
    )


def test_serving_without_an_account_and_without_a_terminal_says_what_to_do(tmp_path):
    done = serve(tmp_path / "data")
    assert done.returncode == 1
    assert "There is no account yet and nobody to ask" in done.stderr


def test_serving_never_brings_the_demo_garden(tmp_path):
    serve(tmp_path / "data")
    with sqlite3.connect(tmp_path / "data/db.sqlite3") as file:
        assert file.execute("select count(*) from gardens_garden").fetchone()[0] == 0


def test_pytest_by_itself_leaves_the_growers_folder_alone(tmp_path):
    argv = [sys.executable, "-m", "pytest", "-q", "tests/gardens/test_merge_rule.py"]
    env = environment() | {"KNOTBED_DATA_DIR": str(tmp_path / "mine")}
    done = subprocess.run(argv, cwd=ROOT, env=env, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout
    assert not (tmp_path / "mine").exists()


def test_a_setting_that_cannot_be_read_stops_the_start(tmp_path):
    done = serve(tmp_path / "data", KNOTBED_HTTPS="perhaps")
    assert done.returncode == 1
    assert "knotbed.E002" in done.stderr and "HINT" in done.stderr


def test_a_data_folder_that_cannot_be_made_stops_the_start(tmp_path):
    (tmp_path / "file").touch()
    done = serve(tmp_path / "file" / "data")
    assert done.returncode == 1
    assert "knotbed.E003" in done.stderr and "cannot be written to" in done.stderr


def house(command, *words):
    argv = [sys.executable, "manage.py", command, *map(str, words)]
    done = subprocess.run(argv, cwd=ROOT, env=environment(), capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_a_backup_is_made_and_put_back_by_two_commands(data, tmp_path):
    before = contents(data)
    house("backup", tmp_path / "kept.zip", "--data", data)
    with closing(sqlite3.connect(data / "db.sqlite3")) as file, file:
        file.execute("delete from gardens_gallrating")
    assert "before-restore-" in house("restore", tmp_path / "kept.zip", "--data", data)
    assert contents(data) == before
