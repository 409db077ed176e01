import io
import os
import signal
import subprocess
import sys
import time

import pytest
from PIL import Image

from gardens.services.darkroom import bounds, room, wire
from gardens.services.darkroom.picture import BadImage
from tests.house.tree import ROOT
from tests.photographs import FALSE_PHOTOS, HEIC, drawn, encoded, in_heic, turned_exif


@pytest.fixture
def darkroom():
    opened = room.Darkroom()
    yield opened
    opened.close()


def pid_of(darkroom):
    return darkroom._process.pid


def acting(tmp_path, monkeypatch, script):
    """Put a program of the test's own in the place of the darkroom's process."""
    file = tmp_path / "actor.py"
    file.write_text(
        f"import sys, time, os, struct\nprint('memory computing', flush=True)\n{script}"
    )
    start = subprocess.Popen
    monkeypatch.setattr(room.subprocess, "Popen", lambda argv, **o: start([argv[0], file], **o))


@pytest.mark.parametrize("data", FALSE_PHOTOS.values(), ids=FALSE_PHOTOS.keys())
def test_what_is_not_a_photo_is_refused_and_an_honest_one_still_drawn(data):
    with pytest.raises(BadImage):
        room.darkroom.redraw(data)
    assert room.darkroom.redraw(HEIC).width_px == 200


@pytest.mark.parametrize(
    "data",
    [
        encoded("JPEG", exif=turned_exif()),
        encoded("WEBP", exif=turned_exif()),
        encoded("PNG", exif=turned_exif()),
        HEIC,
    ],
    ids=["JPEG", "WebP", "PNG", "HEIC"],
)
def test_place_and_turn_go_from_every_kind_of_photo(darkroom, data):
    made = darkroom.redraw(data)
    for part in (made.full, made.thumb):
        image = Image.open(io.BytesIO(part))
        assert image.format == "JPEG" and not image.getexif() and not image.info.get("comment")
        assert image.height > image.width, "turned by orientation 6 (Exif 2.32, tag 0x0112)"
    assert (made.width_px, made.height_px) == (200, 400)


def test_a_jpeg_with_the_same_picture_in_more_light_behind_it_is_one_photo(darkroom):
    buffer = io.BytesIO()
    drawn().save(buffer, "MPO", save_all=True, append_images=[drawn(200, 100)])
    assert darkroom.redraw(buffer.getvalue()).width_px == 400


@pytest.mark.parametrize("make", [encoded, lambda kind, image: in_heic(image)])
def test_the_bounds_leave_room_for_a_camera_of_12_megapixels(darkroom, make):
    made = darkroom.redraw(make("JPEG", drawn(4032, 3024)))
    assert (made.width_px, made.height_px) == (1600, 1200)
    if sys.platform == "linux":
        assert {"memory", "computing", "files"} <= set(darkroom.bounds)


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux bounds the memory of a process")
def test_a_picture_that_would_take_all_memory_is_refused_and_the_next_is_drawn(darkroom):
    large = Image.new("RGB", (8_000, 6_200))
    with pytest.raises(BadImage):
        darkroom.redraw(encoded("WEBP", large, method=0, quality=1))
    assert darkroom.redraw(HEIC).width_px == 200


def test_the_process_is_kept_and_a_killed_one_replaced_without_losing_the_photo(darkroom):
    darkroom.redraw(HEIC)
    first = pid_of(darkroom)
    darkroom.redraw(HEIC)
    assert pid_of(darkroom) == first
    os.kill(first, signal.SIGKILL)
    assert darkroom.redraw(HEIC).width_px == 200
    assert pid_of(darkroom) != first


def test_a_picture_the_clock_ends_may_come_again_once_and_is_refused_then(tmp_path, monkeypatch):
    acting(tmp_path, monkeypatch, "time.sleep(60)")
    darkroom = room.Darkroom(longest_s=0.5)
    for data, refusal in ((HEIC, room.Busy), (b"other", room.Busy), (HEIC, BadImage)):
        started = time.monotonic()
        with pytest.raises(refusal):
            darkroom.redraw(data)
        assert time.monotonic() - started < 5


def test_a_photo_the_clock_ended_on_a_busy_server_is_drawn_when_it_comes_again(darkroom):
    darkroom.longest_s = 0
    with pytest.raises(room.Busy):
        darkroom.redraw(drawn_slowly := encoded("JPEG", drawn(4032, 3024)))
    darkroom.longest_s = room.LONGEST_S
    assert darkroom.redraw(drawn_slowly).width_px == 1600


def test_only_the_latest_of_what_the_clock_ended_is_remembered(darkroom):
    for number in range(room.MOST_SLOW + 1):
        assert isinstance(darkroom._too_slow(b"%d" % number), room.Busy)
    assert isinstance(darkroom._too_slow(b"%d" % room.MOST_SLOW), BadImage)
    assert isinstance(darkroom._too_slow(b"0"), room.Busy)


@pytest.mark.skipif(sys.platform != "linux", reason="where computing time is bounded")
def test_a_picture_that_computes_too_long_is_refused_by_its_own_bound(tmp_path, monkeypatch):
    bound = "import resource; resource.setrlimit(resource.RLIMIT_CPU, (1, 1))"
    acting(tmp_path, monkeypatch, f"{bound}\nwhile True: pass")
    with pytest.raises(BadImage):
        room.Darkroom(longest_s=60).redraw(HEIC)


def test_the_bound_of_computing_comes_before_the_clock():
    # The bound is set in whole seconds, so it may be one more.
    assert bounds.MOST_COMPUTING_S + 1 < room.LONGEST_S


@pytest.mark.parametrize(
    "answer",
    [
        "b'<script>'",
        "struct.pack('>IIII', 5, 5, 10, 10) + b'<svg>' * 2",
        "struct.pack('>IIII', 2**31, 5, 10, 10)",
        "struct.pack('>IIII', 5, 5, 10, 99999)",
    ],
)
def test_a_process_that_was_taken_over_cannot_hand_out_what_is_no_jpeg(
    tmp_path, monkeypatch, answer
):
    acting(tmp_path, monkeypatch, f"sys.stdout.buffer.write({answer})")
    with pytest.raises(BadImage):
        room.Darkroom(longest_s=3).redraw(HEIC)


def test_a_darkroom_that_does_not_start_is_the_servers_fault_not_the_photos(monkeypatch):
    start = subprocess.Popen
    monkeypatch.setattr(
        room.subprocess, "Popen", lambda argv, **o: start([argv[0], "-c", "1/0"], **o)
    )
    with pytest.raises(RuntimeError, match="does not start"):
        room.Darkroom().redraw(HEIC)


def test_who_waits_too_long_is_told_that_others_are_in_work(darkroom):
    darkroom.longest_wait_s = 0.05
    with darkroom._turn(), pytest.raises(room.Busy):
        darkroom.redraw(HEIC)


def test_the_process_knows_nothing_of_the_server(darkroom, monkeypatch):
    monkeypatch.setenv("KNOTBED_SECRET_KEY", "marked-secret")
    monkeypatch.setenv("DATABASE_URL", "marked-secret")
    darkroom.redraw(HEIC)
    if sys.platform == "linux":
        with open(f"/proc/{pid_of(darkroom)}/environ", "rb") as file:
            assert b"marked-secret" not in file.read()


def test_the_process_ends_when_the_server_does():
    argv = [sys.executable, "-m", "gardens.services.darkroom.worker"]
    done = subprocess.run(argv, cwd=ROOT, input=b"", capture_output=True)
    assert done.returncode == 0
    assert done.stdout.count(b"\n") == 1


def test_where_the_system_sets_no_bounds_it_is_said_and_the_time_still_holds(
    tmp_path, monkeypatch, caplog
):
    monkeypatch.setattr(bounds, "_resource", lambda: None)
    assert bounds.bind() == []
    darkroom = room.Darkroom()
    darkroom._tell([])
    assert "ended after 12 seconds" in caplog.text


def test_the_server_imports_no_decoder_of_strange_pictures():
    code = "import sys, api.wsgi, api.urls; sys.exit('pillow_heif' in sys.modules)"
    env = {**os.environ, "DJANGO_SETTINGS_MODULE": "tests.settings"}
    assert subprocess.run([sys.executable, "-c", code], cwd=ROOT, env=env).returncode == 0


def test_both_sides_read_what_the_other_wrote():
    stream = io.BytesIO()
    wire.write_request(stream, b"abc")
    stream.seek(0)
    assert wire.read_request(stream) == b"abc"
    assert wire.read_request(stream) is None
